package air

import (
	"fmt"
	"math"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// The U.S. Standard Atmosphere 1976 below 11 km, the same as ICAO Doc 7488 and ISO 2533.
// Source: NOAA, NASA and USAF 1976, U.S. Standard Atmosphere, part 1.
const (
	standardTemperature = 288.15    // K, 15 C
	standardPressure    = 101325.0  // Pa
	standardDensity     = 1.225     // kg/m3
	standardLapse       = 0.0065    // K per meter of geopotential height
	dryAirConstant      = 287.05287 // J/(kg K), ICAO Doc 7488: 8314.32 / 28.96442
	pressureExponent    = 5.255876  // g0 / (R L)
	densityExponent     = 4.255876  // the same less one
	vaporConstant       = 461.495   // J/(kg K), of water vapor; ideal-gas mixture
)

// ceiling is the height up to which the lapse holds.
const ceiling = 11000 * units.Meter

// The findings of pressure.
const (
	// CodeElevationUnknown says that neither pressure nor elevation was stated.
	CodeElevationUnknown finding.Code = "elevation_unknown"
	// CodePressureElevationMismatch says that the stated pressure does not fit the stated elevation.
	CodePressureElevationMismatch finding.Code = "pressure_elevation_mismatch"
)

// weatherSwing is how far the pressure at a place may stand from the standard one before it is
// taken for a pressure reduced to sea level. Highs and lows move it by about 3 %; sea-level
// pressure is 5 % off from 1,400 ft up.
// Own design; 990 to 1040 hPa at sea level is the swing common over farmland (from memory).
const weatherSwing = 0.05

// StandardPressure reports the pressure of the standard atmosphere at a height above mean sea
// level, for heights up to 11 km; beyond that the height is held there.
// Source: U.S. Standard Atmosphere 1976.
func StandardPressure(elevation units.Length) units.AbsolutePressure {
	// USSA 1976: p = p0 (1 - L h / T0)^(g0/(R L)).
	theta := 1 - standardLapse*min(elevation, ceiling).SI()/standardTemperature
	return units.AbsolutePressure(standardPressure * math.Pow(theta, pressureExponent))
}

// StandardDensityAltitude reports the height in the standard atmosphere at which the air has a
// density. It is negative where the air is denser than at sea level.
// Source: U.S. Standard Atmosphere 1976, density solved for height.
func StandardDensityAltitude(density units.Density) units.Length {
	sigma := max(0, density.SI()/standardDensity)
	// USSA 1976: h = (T0/L) (1 - sigma^(1/(g0/(R L) - 1))).
	return units.Length(standardTemperature / standardLapse * (1 - math.Pow(sigma, 1/densityExponent)))
}

// humidDensity reports the density of moist air.
// Source: ideal mixture of dry air and water vapor, each at its partial pressure; within 0.05 %
// of Picard et al. 2008, CIPM-2007.
func humidDensity(pressure units.AbsolutePressure, t units.Temperature, vapor units.AbsolutePressure) units.Density {
	p, e, kelvin := pressure.SI(), vapor.SI(), t.SI()
	// Ideal mixture: rho = (p - e)/(R_d T) + e/(R_v T).
	return units.Density((p-e)/(dryAirConstant*kelvin) + e/(vaporConstant*kelvin))
}

// fillDensity settles the station pressure, then density, density ratio and density altitude
// with the humidity in.
func (s *State) fillDensity(o Observation, n *notes) {
	s.Pressure = n.stationPressure(o)
	s.Density = humidDensity(s.Pressure, s.Temperature, vaporPressure(s.Temperature, s.RelativeHumidity))
	s.DensityRatio = units.Proportion(s.Density.SI() / standardDensity)
	s.DensityAltitude = StandardDensityAltitude(s.Density)
	n.cite(standardAtmosphere, idealMixture, buck)
}

// stationPressure reports the pressure at the field: the stated one, else that of the standard
// atmosphere at the field, else that at sea level.
func (n *notes) stationPressure(o Observation) units.AbsolutePressure {
	switch {
	case o.Pressure != nil && o.Elevation != nil:
		return n.agreed(*o.Pressure, *o.Elevation)
	case o.Pressure != nil:
		return *o.Pressure
	case o.Elevation != nil:
		pressure := StandardPressure(*o.Elevation)
		n.assume(finding.Assumption{
			Subject: "/weather/pressure",
			Assumed: "the pressure that is usual " + feet(*o.Elevation, 0) + " above the sea, " + psi(pressure, 0),
			Settle:  "send the station pressure, read at the field and not corrected to sea level",
			Source:  standardAtmosphere,
		})
		return pressure
	default:
		return n.seaLevel()
	}
}

// seaLevel reports sea-level pressure with the caution that it flatters the aircraft anywhere
// higher: lift and endurance fall with density.
func (n *notes) seaLevel() units.AbsolutePressure {
	n.assume(finding.Assumption{
		Subject: "/field/elevation",
		Assumed: "a field at sea level, 14.70 psi",
		Settle:  "send the elevation of the field, or the station pressure there",
		Source:  standardAtmosphere,
	})
	n.find(finding.Finding{
		Code:     CodeElevationUnknown,
		Severity: finding.Caution,
		Subject:  "/field/elevation",
		Message: "We do not know how high the field lies, so we figured with air as thick as at sea level. Higher up the air is thinner: " +
			"the drone lifts less and its batteries drain faster. Send the elevation of the field.",
		Source: standardAtmosphere,
	})
	return units.AbsolutePressure(standardPressure)
}

// agreed reports the stated pressure where it fits the elevation. Where it does not, it is most
// often a pressure reduced to sea level, as weather reports give it; the lower of the two is
// used, because thin air is the hard case for the aircraft.
func (n *notes) agreed(stated units.AbsolutePressure, elevation units.Length) units.AbsolutePressure {
	usual := StandardPressure(elevation)
	if difference := math.Abs(stated.SI()/usual.SI() - 1); units.AtMost(difference, weatherSwing) {
		return stated
	}
	used := min(stated, usual)
	n.find(finding.Finding{
		Code:     CodePressureElevationMismatch,
		Severity: finding.Caution,
		Subject:  "/weather/pressure",
		Message: fmt.Sprintf("An air pressure of %s does not fit a field at %s, where about %s is usual. Weather reports often give the pressure "+
			"corrected to sea level. Send the station pressure, or leave it out. We figured with the lower one, %s.",
			psi(stated, 0), feet(elevation, 0), psi(usual, 0), psi(used, 0)),
		Measured: stated,
		Limit:    usual,
		Source:   standardAtmosphere,
	})
	return used
}

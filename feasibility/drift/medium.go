package drift

import (
	"math"

	"tractcheck/feasibility/units"
)

// medium is the air and the liquid as the drops feel them, in bare SI. It is made once from the
// input, held to the span the room can compute, and then only read.
type medium struct {
	airDensity    float64 // kg/m3
	viscosity     float64 // dynamic, Pa s
	celsius       float64 // air temperature
	pressure      float64 // Pa
	depression    float64 // dry minus wet bulb, K
	liquidDensity float64 // kg/m3
	nonvolatile   float64 // volume share

	friction float64 // friction velocity, m/s
	obukhov  float64 // inverse Obukhov length, 1/m
	base     float64 // height of the crop top above the displacement height, m
	gain     float64 // factor on the wind, 1 but for a what-if
	wind     func(aboveCrop float64) float64
}

// The span of air and liquid the room computes; what lies outside is held at the end.
const (
	leastWind     = 0.1  // m/s, so that a plume in dead air still has a direction
	mostWind      = 60.0 // m/s
	leastFriction = 0.01 // m/s
	mostFriction  = 4.0  // m/s
)

// newMedium reads the air and the spray of an input.
func newMedium(in Input) medium {
	temperature := hold(in.Air.Temperature.SI(), 233, 333, 288.15)
	state := in.Air
	crop := hold(max(in.Ground.CropHeight.SI(), state.CropHeight.SI()), 0, 60, 0)
	m := medium{
		airDensity:    hold(state.Density.SI(), 0.4, 2, 1.225),
		viscosity:     viscosityOfAir(temperature),
		celsius:       temperature - 273.15,
		pressure:      hold(state.Pressure.SI(), 3e4, 1.2e5, 101325),
		depression:    hold(state.Depression.SI(), 0, 40, 0),
		liquidDensity: hold(in.Spray.Density.SI(), 600, 3000, 998.2),
		nonvolatile:   nonvolatileShare(in.Spray),
		friction:      hold(state.FrictionVelocity.SI(), leastFriction, mostFriction, leastFriction),
		obukhov:       hold(float64(state.InverseObukhov), -1, 1, 0),
		// Turbulence and wind are counted from the displaced ground; the drops' zero is the crop top.
		base: max(crop-state.Displacement.SI(), hold(state.Roughness.SI(), 0.001, 3, 0.03)),
		gain: 1,
		wind: func(aboveCrop float64) float64 {
			return state.WindAt(units.Length(crop + aboveCrop)).SI()
		},
	}
	m.base = hold(m.base, 0.001, 60, 0.03)
	return m
}

// at reports the mean wind at a height above the crop, m/s.
func (m *medium) at(aboveCrop float64) float64 { return m.taken(m.wind(aboveCrop)) }

// taken is a wind as the plan takes it, m/s.
func (m *medium) taken(wind float64) float64 {
	return hold(m.gain*wind, leastWind, mostWind, leastWind)
}

// exchange reports the vertical turbulent diffusivity of the air, m2/s, and the vertical
// turbulence, m/s, at a height above the crop.
func (m *medium) exchange(aboveCrop float64) (diffusivity, turbulence float64) {
	z := aboveCrop + m.base
	zeta := max(-10, min(10, z*m.obukhov))
	u := hold(m.gain*m.friction, leastFriction, mostFriction, leastFriction)
	// K = kappa u* z / phi_h; Businger et al. (1971), Dyer (1974): phi_h = 1 + 5 z/L stable,
	// (1 - 16 z/L)^-1/2 unstable (from memory). sigma_w = 1.25 u* neutral and stable,
	// 1.25 u* (1 - 3 z/L)^1/3 unstable: Panofsky and Dutton (1984) (from memory).
	if zeta >= 0 {
		return vonKarman * u * z / (1 + 5*zeta), 1.25 * u
	}
	return vonKarman * u * z * math.Sqrt(1-16*zeta), 1.25 * u * math.Cbrt(1-3*zeta)
}

// vonKarman is von Karman's constant, 0.40 (0.41 is also used).
const vonKarman = 0.40

// viscosityOfAir is Sutherland's law, Pa s at a temperature in K: White, Viscous Fluid Flow (from
// memory); 1.813e-5 at 20 C.
func viscosityOfAir(kelvin float64) float64 {
	return 1.716e-5 * math.Pow(kelvin/273.15, 1.5) * (273.15 + 110.4) / (kelvin + 110.4)
}

// hold keeps a value between two ends, and takes a stand-in for what is not a number or is zero
// below the lower end.
func hold(value, low, high, standIn float64) float64 {
	if math.IsNaN(value) || (value == 0 && low > 0) {
		value = standIn
	}
	return max(low, min(high, value))
}

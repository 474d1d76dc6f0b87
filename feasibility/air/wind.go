package air

import (
	"fmt"
	"math"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// The findings of wind.
const (
	// CodeGustBelowWind marks a gust stated below the mean wind.
	CodeGustBelowWind finding.Code = "gust_below_wind"
	// CodeWindHeightInCrop marks a wind meter that stood no higher than the crop.
	CodeWindHeightInCrop finding.Code = "wind_height_in_crop"
)

const (
	// karman is the von Karman constant.
	// Source: Businger et al. 1971; Dyer 1974 (0.40; from memory).
	karman = 0.4
	// classWindHeight is the height of the wind in the stability table.
	// Source: Pasquill 1961 (from memory).
	classWindHeight = 10 * units.Meter
	// meterAboveCrop is where the stated wind is taken to blow if its height is not stated: just
	// over the crop, about where the spray is let go, for which labels set their wind limits. Of
	// the usual heights (2 m and 10 m) it gives more wind aloft and so more drift. Own design.
	meterAboveCrop = 2 * units.Meter
)

// WindAt reports the mean wind at a height above ground, from the wind stated, the crop and the
// stability. It is zero at and below the height where the crop stops the wind, never negative,
// and never falls with height. Meant for the lowest 100 m.
// Source: Businger et al. 1971; Dyer 1974; Webb 1970 for very stable air (from memory).
func (s State) WindAt(height units.Length) units.Speed {
	if height <= s.Displacement+s.Roughness {
		return 0
	}
	return units.Speed(s.FrictionVelocity.SI() / karman * s.profile(height))
}

// profile reports the wind in units of u*/k at a height above ground, at least zero.
func (s State) profile(height units.Length) float64 {
	return logProfile(height-s.Displacement, s.Roughness, s.InverseObukhov)
}

// logProfile is the shape of the wind at a height over the displaced ground.
func logProfile(z, roughness units.Length, inverse PerLength) float64 {
	if z <= roughness || roughness <= 0 {
		return 0
	}
	// Paulson 1970 (from memory): u k/u* = ln(z/z0) - psi_m(z/L) + psi_m(z0/L), so that it starts at zero.
	return math.Log(z.SI()/roughness.SI()) - stabilityTerm(z.SI()*float64(inverse)) + stabilityTerm(roughness.SI()*float64(inverse))
}

// stabilityTerm is psi_m, the departure of the wind profile from the neutral one, at zeta = z/L.
func stabilityTerm(zeta float64) float64 {
	switch {
	case zeta > 1:
		// Webb 1970, Q. J. R. Meteorol. Soc. 96:67 (from memory): the gradient stays as at zeta = 1.
		return -5 * (1 + math.Log(zeta))
	case zeta >= 0:
		// Dyer 1974: psi = -5 zeta.
		return -5 * zeta
	default:
		// Businger et al. 1971; Dyer 1974.
		x := math.Sqrt(math.Sqrt(1 - 16*zeta))
		return 2*math.Log((1+x)/2) + math.Log((1+x*x)/2) - 2*math.Atan(x) + math.Pi/2
	}
}

// meterHeight reports the height above ground at which the stated wind is taken to blow, and
// whether it is the stated height.
func (s State) meterHeight(o Observation) (units.Length, bool) {
	if o.WindHeight != nil && *o.WindHeight > s.CropHeight && *o.WindHeight-s.Displacement >= 2*s.Roughness {
		return *o.WindHeight, true
	}
	return s.CropHeight + meterAboveCrop, false
}

// windOver reports the stated wind carried to a height above the displaced ground by the neutral
// profile. It serves the choice of the stability class, before the class is known.
func (s State) windOver(o Observation, height units.Length) units.Speed {
	meter, _ := s.meterHeight(o)
	return units.Speed(o.WindSpeed.SI() * logProfile(height, s.Roughness, 0) / logProfile(meter-s.Displacement, s.Roughness, 0))
}

// fillWind fits the wind profile through the stated wind, and settles the gust.
func (s *State) fillWind(o Observation, n *notes) {
	meter, stated := s.meterHeight(o)
	switch {
	case o.WindHeight == nil:
		n.assume(finding.Assumption{
			Subject: "/weather/wind_height",
			Assumed: fmt.Sprintf("a wind measured %s above the crop, %s above the ground", feet(meterAboveCrop, 0), feet(meter, 0)),
			Settle:  "send the height of the wind meter above the ground",
			Source:  ownBounds,
		})
	case !stated:
		n.warnMeterInCrop(*o.WindHeight, s.CropHeight, meter)
	}
	s.WindHeight = meter
	s.InverseObukhov = inverseObukhov(s.Stability, s.Roughness)
	// Businger et al. 1971; Dyer 1974: u* = k u / (the profile at the meter).
	s.FrictionVelocity = units.Speed(karman * o.WindSpeed.SI() / s.profile(meter))
	s.Gust = n.gust(o)
	n.cite(golder, surfaceLayer)
}

// warnMeterInCrop says that the wind was measured too low to show the wind over the crop.
func (n *notes) warnMeterInCrop(stated, crop, used units.Length) {
	n.find(finding.Finding{
		Code:     CodeWindHeightInCrop,
		Severity: finding.Caution,
		Subject:  "/weather/wind_height",
		Message: fmt.Sprintf("The wind was measured at %s, no higher than the crop of %s, so it does not show the wind over the crop. We took it as measured at %s. "+
			"Measure the wind above the crop.", feet(stated, 0), feet(crop, 0), feet(used, 0)),
		Measured: stated,
		Limit:    crop,
		Margin:   stated - crop,
		Source:   surfaceLayer,
	})
}

// gust reports the stated gust, or the mean wind where there is none or it is less than that.
func (n *notes) gust(o Observation) units.Speed {
	switch {
	case o.Gust == nil:
		n.assume(finding.Assumption{
			Subject: "/weather/gust",
			Assumed: fmt.Sprintf("no gusts above the mean wind of %s", mph(o.WindSpeed, 0)),
			Settle:  "send the highest gust of the last ten minutes",
			Source:  ownBounds,
		})
		return o.WindSpeed
	case units.StrictlyBelow(*o.Gust, o.WindSpeed):
		gust, mean, _ := finding.Apart(*o.Gust, o.WindSpeed, mph)
		n.find(finding.Finding{
			Code:     CodeGustBelowWind,
			Severity: finding.Caution,
			Subject:  "/weather/gust",
			Message: fmt.Sprintf("The gust of %s is less than the mean wind of %s, which cannot be. Check both. We figured with gusts as strong as the mean wind.",
				gust, mean),
			Measured: *o.Gust,
			Limit:    o.WindSpeed,
			Margin:   *o.Gust - o.WindSpeed,
			Source:   ownBounds,
		})
		return o.WindSpeed
	default:
		return *o.Gust
	}
}

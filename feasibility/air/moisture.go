package air

import (
	"math"

	"tractcheck/feasibility/units"
)

// vaporPressure reports the pressure of the water vapor in air of a relative humidity.
func vaporPressure(t units.Temperature, humidity units.Proportion) units.AbsolutePressure {
	return units.AbsolutePressure(humidity.SI() * saturationPressure(t).SI())
}

// saturationPressure reports the vapor pressure of saturated air over a flat surface of water,
// also below freezing, where a drop stays liquid. Valid from -40 to 60 C; within 0.1 % of Hyland
// and Wexler 1983 from 0 to 40 C.
// Source: Buck 1981, J. Appl. Meteor. 20:1527, as revised by Buck 1996 (from memory).
func saturationPressure(t units.Temperature) units.AbsolutePressure {
	c := t.Celsius()
	// Buck 1996: e_s = 6.1121 exp((18.678 - t/234.5) t/(257.14 + t)) hPa.
	return units.AbsolutePressure(611.21 * math.Exp((18.678-c/234.5)*c/(257.14+c)))
}

// psychrometerFactor reports the factor A of the ventilated psychrometer, per kelvin.
// Source: WMO No. 8, part I, ch. 4: A = 6.53e-4 (1 + 0.000944 t_w) (from memory).
func psychrometerFactor(wet units.Temperature) float64 {
	return 6.53e-4 * (1 + 0.000944*wet.Celsius())
}

// The search for the wet bulb: no air holds a wet bulb farther below the dry one than this, and
// fifty halvings of the span leave 1e-13 K.
const (
	widestDepression = 100 * units.KelvinDifference
	wetBulbHalvings  = 50
)

// wetBulb reports the temperature that a ventilated wet thermometer settles at, by solving the
// psychrometric equation with the station pressure. It equals the air temperature in saturated
// air. Within 0.2 K of the thermodynamic wet bulb for 10 to 35 C and 20 to 80 % humidity.
// Source: WMO No. 8, part I, ch. 4 (from memory).
func wetBulb(pressure units.AbsolutePressure, t units.Temperature, vapor units.AbsolutePressure) units.Temperature {
	low, high := t.Plus(-widestDepression), t
	for range wetBulbHalvings {
		middle := low + (high-low)/2
		// WMO No. 8: e = e_s(t_w) - A p (t - t_w).
		e := saturationPressure(middle).SI() - psychrometerFactor(middle)*pressure.SI()*t.Minus(middle).SI()
		if e < vapor.SI() {
			low = middle
		} else {
			high = middle
		}
	}
	return high
}

// fillMoisture works out the wet bulb and its depression.
func (s *State) fillMoisture(n *notes) {
	s.WetBulb = wetBulb(s.Pressure, s.Temperature, vaporPressure(s.Temperature, s.RelativeHumidity))
	s.Depression = s.Temperature.Minus(s.WetBulb)
	n.cite(psychrometer)
}

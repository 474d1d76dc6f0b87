package drift

import "math"

// drying is how fast drops of the spray shrink in one air.
type drying struct {
	rate     float64 // -d(d^2)/dt of a drop at rest, m2/s
	residue  float64 // smallest diameter over the first, from the part that never evaporates
	schmidt  float64 // cube root of the Schmidt number
	thinness float64 // inverse of the kinematic, s/m2
}

// newDrying sets up the shrinking of drops at a wet-bulb depression (K), in air at a temperature
// (degrees Celsius), for a liquid density (kg/m3) and a nonvolatile volume share.
func newDrying(m medium) drying {
	depression := max(0, m.depression)
	wet := m.celsius - depression
	film := wet + depression/3 // the one-third rule for the properties of the film around a drop
	// Linear fit to the thermal conductivity of air, W/(m K), 0 to 50 C (from memory).
	conductivity := 0.0241 + 7.0e-5*film
	// Latent heat of vaporization, J/kg: Rogers and Yau (1989), linear form (from memory).
	latent := (2500.8 - 2.36*wet) * 1000
	// Hall and Pruppacher (1976): diffusivity of vapor in air, m2/s (from memory).
	diffusivity := 2.11e-5 * math.Pow((film+273.15)/273.15, 1.94) * 101325 / m.pressure
	kinematic := m.viscosity / m.airDensity
	return drying{
		// Quasi-steady drop at the wet bulb, heat-limited: d(d^2)/dt = -8 k dT/(rho_l L);
		// Godsave (1953), Pruppacher and Klett (1997) ch. 13 (from memory).
		rate: 8 * conductivity * depression / (m.liquidDensity * latent),
		// A drop keeps its nonvolatile volume: d_min = d0 phi^(1/3), by conservation of mass.
		residue:  math.Cbrt(m.nonvolatile),
		schmidt:  math.Cbrt(kinematic / diffusivity),
		thinness: 1 / kinematic,
	}
}

// ventilation is the factor by which falling speeds up evaporation: Beard and Pruppacher (1971),
// measured on falling water drops (from memory). It is 1 for a drop at rest.
func (e drying) ventilation(diameter, speed float64) float64 {
	x := e.schmidt * math.Sqrt(speed*diameter*e.thinness)
	if x < 1.4 {
		return 1 + 0.108*x*x
	}
	return 0.78 + 0.308*x
}

// after reports the diameter of a drop a time later, m. first is its diameter at release. The mean of
// the ventilation at both ends stands for that on the way (Heun's method).
func (e drying) after(diameter, first, speed, time float64, speeds *fall) float64 {
	floor := first * e.residue
	if e.rate == 0 || diameter <= floor {
		return diameter
	}
	start := e.ventilation(diameter, speed)
	then := math.Sqrt(max(floor*floor, diameter*diameter-e.rate*start*time))
	mean := (start + e.ventilation(then, speeds.speed(then))) / 2
	return math.Sqrt(max(floor*floor, diameter*diameter-e.rate*mean*time))
}

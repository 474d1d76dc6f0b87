package flight

import (
	"math"

	"tractcheck/feasibility/units"
)

// discs is the rotor set as the model sees it.
type discs struct {
	area   units.Area
	factor float64 // on ideal power, for coaxial pairs
	stated bool
}

// discsOf reports the rotor set. Where none was stated the disc area is inferred: from a measured
// hover as the area that makes the default efficiency true, held to loadings that multirotors
// have; without one as the least that a declared spray multirotor of that mass has.
func discsOf(m Machine) discs {
	if m.Rotors.stated() {
		return discs{area: m.Rotors.DiscArea(), factor: m.Rotors.interference(), stated: true}
	}
	mass := max(0, float64(m.reference()))
	area := float64(discsByMass(m).area)
	if measured := m.points(); len(measured) > 0 && mass > 0 {
		p := measured[len(measured)-1]
		thrust := p.mass * units.StandardGravity
		// T^1.5/sqrt(2 rho A) = eta P, solved for A.
		perWatt := thrust / (defaultEfficiency * p.power)
		area = thrust * perWatt * perWatt / (2 * seaLevelDensity.SI())
		area = max(mass/mostDiscLoading, min(mass/lightestDiscLoading, area))
	}
	return discs{area: units.Area(area), factor: 1}
}

// discsByMass reports the disc area assumed where nothing but the mass speaks of the rotors.
func discsByMass(m Machine) discs {
	return discs{area: units.Area(max(0, float64(m.reference())) / discLoading), factor: 1}
}

// idealPower reports the ideal hover power at a mass in kg in sea-level air, in W; zero where
// there is no disc to hover on.
func (d discs) idealPower(mass float64) float64 {
	if d.area <= 0 || mass <= 0 {
		return 0
	}
	return d.factor * idealHover(mass*units.StandardGravity, seaLevelDensity.SI(), d.area.SI())
}

// point is one measured hover: electrical power at a mass, and the ideal power there.
type point struct {
	subject            string
	mass, power, ideal float64
}

// efficiency is what the measured hover implies, eta = P_ideal t/(share E).
func (p point) efficiency() float64 { return p.ideal / p.power }

// measurement is what came of the measured hover times.
type measurement struct {
	calibrated bool
	impossible []point // better than ideal power allows, left out
	used       []point // lightest first
	exponent   float64 // of the measured pair before it was held in range; zero without a pair
	alike      bool    // two were given at masses too near each other to tell an exponent
}

// calibrate reports the hover law in sea-level air and the rotors it stands on: through the
// measured hovers where they can be believed, by the default efficiency where there are none.
func calibrate(m Machine) (hoverLaw, discs, measurement) {
	var got measurement
	d := discsOf(m)
	for _, p := range m.points() {
		p.ideal = d.idealPower(p.mass)
		if !units.AtMost(p.efficiency(), 1) {
			got.impossible = append(got.impossible, p)
			continue
		}
		got.used = append(got.used, p)
	}
	if len(got.used) == 2 && !units.AtLeast(got.used[1].mass, leastMassRatio*got.used[0].mass) {
		got.alike = true
		got.used = got.used[1:] // the loaded hover decides
	}
	got.calibrated = len(got.used) > 0
	switch len(got.used) {
	case 0:
		if !d.stated {
			d = discsByMass(m) // a hover that cannot be believed says nothing of the rotors either
		}
		return m.uncalibrated(d), d, got
	case 1:
		p := got.used[0]
		return hoverLaw{mass: p.mass, power: p.power, exponent: hoverExponent}, d, got
	default:
		law, exponent := through(got.used[0], got.used[1])
		got.exponent = exponent
		return law, d, got
	}
}

// uncalibrated is the law by the default efficiency. It needs a disc area; the mass it is written
// at does not matter.
func (m Machine) uncalibrated(d discs) hoverLaw {
	mass := m.reference().SI()
	if mass <= 0 {
		mass = 1
	}
	return hoverLaw{mass: mass, power: d.idealPower(mass) / defaultEfficiency, exponent: hoverExponent}
}

// points lists the measured hovers that give a power, empty before full: P = share E / t.
func (m Machine) points() []point {
	share := m.measuredShare()
	list := make([]point, 0, 2)
	add := func(subject string, t *units.Duration, mass units.Mass) {
		if t == nil || !units.Finite(*t) || *t <= 0 || mass <= 0 || m.BatteryEnergy <= 0 {
			return
		}
		list = append(list, point{subject: subject, mass: mass.SI(), power: share * m.BatteryEnergy.SI() / t.SI()})
	}
	add(subjectEmptyEndurance, m.EmptyEndurance, m.EmptyMass)
	add(subjectFullEndurance, m.FullEndurance, m.FullMass)
	return list
}

// measuredShare is the part of the battery that the measured hovers used.
func (m Machine) measuredShare() float64 {
	if m.MeasuredShare != nil && *m.MeasuredShare > 0 && units.Finite(*m.MeasuredShare) {
		return m.MeasuredShare.Clamp().SI()
	}
	return 1
}

// through is the law through two hovers, and the exponent measured, n = ln(P_f/P_e)/ln(m_f/m_e),
// which with one battery is ln(t_e/t_f)/ln(m_f/m_e). The exponent is held in 0.9 to 2.1; the law
// then passes through the point that asks the more power, so that it promises less than either
// measurement, never more.
func through(empty, full point) (hoverLaw, float64) {
	measured := math.Log(full.power/empty.power) / math.Log(full.mass/empty.mass)
	law := hoverLaw{mass: full.mass, power: full.power, exponent: max(leastExponent, min(mostExponent, measured))}
	if law.exponent != measured && law.at(empty.mass) < empty.power {
		law.mass, law.power = empty.mass, empty.power
	}
	return law, measured
}

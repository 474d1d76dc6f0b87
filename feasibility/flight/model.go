package flight

import (
	"math"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Model is a calibrated power model in one air density. The zero Model needs no power and lasts no
// time.
type Model struct {
	Usable      units.Energy // energy that may be spent, reserve kept
	Calibrated  bool
	DiscArea    units.Area       // stated, or assumed where the rotors were not
	Efficiency  units.Proportion // ideal over electrical hover power, at the maker's maximum
	Findings    []finding.Finding
	Assumptions []finding.Assumption
	Sources     []finding.Source

	law      hoverLaw
	density  float64 // kg/m3
	dragArea float64 // m2
	spray    float64 // W, pump and atomizers
}

// hoverLaw is electrical hover power against mass in one air density:
// P = power x (m/mass)^exponent, in W and kg.
type hoverLaw struct {
	mass, power, exponent float64
}

// at reports the hover power at a mass in kg; zero where there is no mass or no law.
func (l hoverLaw) at(mass float64) float64 {
	if mass <= 0 || l.power <= 0 {
		return 0
	}
	return l.power * math.Pow(mass/l.mass, l.exponent)
}

// New calibrates a model for a machine in air of a density. Masses, energy and times are positive
// and of any size. With one measured hover time the law P ~ m^1.5 is fitted through it; with two
// the exponent as well; with none an overall efficiency of 0.53 is assumed and said. What cannot
// be computed is left at zero with a finding that says what to send. Within 20 percent of declared
// spray multirotors uncalibrated; as good as the measurement where calibrated.
func New(machine Machine, density units.Density) Model {
	var m Model
	density, densityKnown := airDensity(density)
	m.density = density.SI()
	share, shareStated := machine.usable()
	m.Usable = units.Energy(float64(share) * max(0, float64(machine.BatteryEnergy)))

	law, rotors, measured := calibrate(machine)
	m.Calibrated = measured.calibrated
	m.DiscArea = rotors.area
	m.law = thinned(law, density)
	reference := machine.reference()
	if atSeaLevel := law.at(reference.SI()); atSeaLevel > 0 {
		m.Efficiency = units.Proportion(rotors.idealPower(reference.SI()) / atSeaLevel)
	}
	m.dragArea = machine.dragArea().SI()
	m.spray = machine.sprayPower(m.law)

	m.Assumptions = assumptions(machine, m, given{air: densityKnown, share: shareStated, rotors: rotors.stated, oneHover: len(measured.used) == 1})
	m.Findings = findings(machine, m, rotors, measured)
	m.Sources = sourcesOf(m)
	return m
}

// thinned carries a law from sea level to air of another density. At one mass both the ideal power
// and the profile power of a rotor go as rho^-0.5: the thinner air is flung down faster, and the
// blades turn faster to fling it.
func thinned(law hoverLaw, density units.Density) hoverLaw {
	law.power *= math.Sqrt(float64(seaLevelDensity) / float64(density))
	return law
}

// airDensity reports the density, and false where standard sea-level air stands in for one that
// cannot be.
func airDensity(density units.Density) (units.Density, bool) {
	if !units.Finite(density) || density <= 0 {
		return seaLevelDensity, false
	}
	return density, true
}

// usable reports the share of the battery that may be spent, and false where it is the default.
// A share above the whole is held at the whole.
func (m Machine) usable() (units.Proportion, bool) {
	if m.UsableShare == nil || !units.Finite(*m.UsableShare) || *m.UsableShare <= 0 {
		return usableShare, false
	}
	return m.UsableShare.Clamp(), true
}

// dragArea reports the equivalent flat plate area, stated or scaled from the mass.
func (m Machine) dragArea() units.Area {
	if m.dragAreaStated() {
		return *m.DragArea
	}
	// f = 0.30 m2 x (m / 24 kg)^(2/3): areas of like shapes. Own estimate.
	return units.Area(float64(dragAreaAtMass) * math.Pow(max(0, float64(m.reference()))/float64(dragMass), 2.0/3))
}

func (m Machine) dragAreaStated() bool {
	return m.DragArea != nil && units.Finite(*m.DragArea) && *m.DragArea >= 0
}

// sprayPower reports what pump and atomizers draw, stated or allowed, in W.
func (m Machine) sprayPower(law hoverLaw) float64 {
	if m.sprayPowerStated() {
		return m.SprayPower.SI()
	}
	return sprayShare * law.at(m.reference().SI())
}

func (m Machine) sprayPowerStated() bool {
	return m.SprayPower != nil && units.Finite(*m.SprayPower) && *m.SprayPower >= 0
}

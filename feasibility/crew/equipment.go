package crew

import (
	"fmt"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Facts of charging (from memory) and of generators (common practice).
const (
	chargerEfficiency units.Proportion = 0.92 // wall to battery, of 0.88 to 0.94
	leastDepth        units.Proportion = 0.80 // share of the energy that a stated charge time refills
	generatorLoading  units.Proportion = 0.80 // of the rating, in steady running
	// A portable generator yields 5 to 7 kWh from a gallon of gasoline (from memory); the low end is
	// taken, so that the fuel lasts.
	generatorYield = 5.0

	deratingPer1000ft units.Proportion = 0.035
	deratingPer10F    units.Proportion = 0.02
	leastDerating     units.Proportion = 0.2 // own choice: no generator is derated below this
)

// equip works out the batteries, the chargers and the generator.
func (j job) equip(out *Result, in Input, r *report) {
	r.Cite(sourceBatteries)
	out.Batteries = j.batteries()
	have := count(in.Crew.Batteries, out.Batteries)
	if have >= j.loads {
		r.Find(finding.Finding{
			Code: CodeChargeBeforehand, Severity: finding.Note, Subject: "/crew/batteries",
			Message: fmt.Sprintf("The job drains %s. That many, charged beforehand, do it with no charging in the field.", r.batteriesOf(j.loads)),
			Source:  sourceBatteries,
		})
	} else {
		out.Chargers = max(1, j.rotation.chargers())
	}
	if in.Crew.Batteries == nil {
		r.Assume("/crew/batteries", fmt.Sprintf("%s, as many as the job needs; with fewer the aircraft waits", r.batteriesOf(out.Batteries)), "send the number of batteries", sourceOwn)
	}
	running := out.Chargers
	if in.Crew.Chargers != nil {
		running = min(running, max(0, *in.Crew.Chargers))
	} else if out.Chargers > 0 {
		r.Assume("/crew/chargers", chargersOf(out.Chargers)+", as many as the job needs", "send the number of chargers", sourceOwn)
	}
	out.GeneratorPower = j.generator(running, in, r)
	if out.GeneratorPower > 0 {
		charged := max(0, j.loads-have) // the sets in hand come charged
		wall := charged.SI() * j.drained.In(units.KilowattHour) / chargerEfficiency.SI()
		out.GeneratorFuel = units.Volume(wall / generatorYield * units.Gallon.SI())
		r.Assume("/crew/generator", "5 kWh from a gallon of gasoline (5 to 7 is usual), and all batteries charged before the job", "measure the fuel a day of charging takes", sourceHandling)
	}
	if g := in.Crew.Generator; g != nil && *g > 0 && units.StrictlyBelow(*g, out.GeneratorPower) {
		r.Find(finding.Finding{
			Code: CodeGeneratorShort, Severity: finding.Caution, Subject: "/crew/generator",
			Message: fmt.Sprintf("The generator is rated %s, but the chargers need one of %s. Charging slows down in proportion, and the hours here count that. Run fewer chargers at once or take a larger generator.",
				kilowatts(*g), kilowatts(out.GeneratorPower)),
			Measured: *g, Limit: out.GeneratorPower, Margin: *g - out.GeneratorPower, Source: sourceGenerator,
		})
	}
}

// batteries reports the sets with which no aircraft waits: the formula of the rotation, then more
// where the aircraft, all starting together, still wait for one; never more than the job drains.
func (j job) batteries() units.Count {
	n := j.rotation.batteries()
	free, _ := j.shift.run()
	for range 16 { // own bound
		s := j.shift
		s.batteries, s.chargers = int(min(n, j.loads)), int(max(1, j.rotation.chargers()))
		if end, _ := s.run(); n >= j.loads || units.AtMost(units.Duration(end), units.Duration(free)) {
			break
		}
		n++
	}
	return min(n, j.loads)
}

// generator reports the rating for a number of chargers at work:
// P = chargers (E depth/charge time)/charger efficiency/(0.8 derating). The derating printed in
// portable-generator manuals is 3.5 percent per 1000 ft above 1000 ft and 2 percent per 10 F above
// 85 F. Pumps and other loads are not in it.
func (j job) generator(chargers units.Count, in Input, r *report) units.Power {
	if chargers <= 0 || !(j.times.charge > 0) || j.depth <= 0 {
		return 0
	}
	if in.Elevation == nil || in.Temperature == nil {
		r.Assume("/field/elevation", "the generator runs below 1000 ft and 85 F where the height or the temperature is not known; it needs 3.5 percent more for each 1000 ft above and 2 percent more for each 10 F above", "send the field's elevation and the air temperature", sourceGenerator)
	}
	r.Cite(sourceGenerator)
	r.Cite(sourceHandling)
	energy := in.BatteryEnergy.SI() * max(leastDepth, j.depth).SI()
	wall := chargers.SI() * energy / j.times.charge.SI() / chargerEfficiency.SI()
	return units.Power(wall / generatorLoading.SI() / derating(in.Elevation, in.Temperature).SI())
}

// derating reports what is left of a generator's rating at a height and a temperature.
func derating(elevation *units.Length, temperature *units.Temperature) units.Proportion {
	left := units.Whole
	if elevation != nil {
		left *= max(0, 1-units.Proportion(max(0, elevation.In(units.Foot)-1000)/1000)*deratingPer1000ft)
	}
	if temperature != nil {
		left *= max(0, 1-units.Proportion(max(0, temperature.Fahrenheit()-85)/10)*deratingPer10F)
	}
	return max(leastDerating, left)
}

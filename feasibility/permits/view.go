package permits

import (
	"slices"
	"strings"

	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// weightLine is the line between the regimes: under it is small. 14 CFR 1.1 and 107.3.
const weightLine = 55 * units.Pound

// view is a mission's facts with what all rows share worked out once. It belongs to one check.
type view struct {
	Facts
	*scribe
	regime   Regime
	poison   Judgment     // the tank holds an economic poison
	agri     Judgment     // the flight is an agricultural aircraft operation, 14 CFR 137.3
	traits   uint64       // of the ids in holds
	shared   *judged      // nil where few rows are asked
	pointers []string     // room for the lists of facts that are missing
	compared []Comparison // room for the comparisons
}

// listed is pointers as a list of its own, from the room for them.
func (v *view) listed(p *Pointers) []string {
	if p.len() == 0 {
		return nil
	}
	if cap(v.pointers)-len(v.pointers) < p.len() {
		v.pointers = make([]string, 0, max(missingRoom, p.len()))
	}
	start := len(v.pointers)
	v.pointers = p.appendTo(v.pointers)
	return v.pointers[start:len(v.pointers):len(v.pointers)]
}

// missingRoom holds a good part of the missing facts of a usual check. Own choice.
const missingRoom = 24

// look resolves the shared facts.
func (v *view) look() {
	v.regime = LargeRegime
	if v.Small {
		v.regime = SmallRegime
	}
	v.traits = 0
	for _, id := range v.Holds {
		v.traits |= traitOf(id)
	}
	v.poison, v.agri = v.judgePoison(), v.judgeAgri()
}

// source finds a source by its key.
func (v *view) source(id string) finding.Source { return find(sourceTable, id) }

// dispensed is what leaves the tank. A load declared a pesticide is an economic poison, whatever
// else the request says; a load declared none, with nothing else said, is not known.
func dispensed(f Facts) (Dispenses, bool) {
	if f.Pesticide {
		return EconomicPoison, true
	}
	if f.Dispenses == nil || !f.Dispenses.known() {
		return "", false
	}
	return *f.Dispenses, true
}

// known reports whether the code is one of the table's.
func (d Dispenses) known() bool {
	switch d {
	case EconomicPoison, Nourishment, SoilTreatment, Seed, PestControlOther, LiveInsects, WaterTest, OtherDispensed:
		return true
	default:
		return false
	}
}

func (v *view) judgePoison() Judgment {
	substance, ok := dispensed(v.Facts)
	if !ok {
		return missing("what leaves the tank", "/operation/dispenses")
	}
	if substance == EconomicPoison {
		return fact(true, "/operation/dispenses", "the tank holds a pesticide (economic poison)", "")
	}
	return fact(false, "/operation/dispenses", "", v.say("the tank holds no pesticide: ", words(string(substance))))
}

// judgeAgri follows the definition of agricultural aircraft operation: economic poisons; other
// substances for plant nourishment, soil treatment, propagation of plant life or pest control;
// dispensing that directly affects agriculture, horticulture or forest preservation; live insects
// excepted. 14 CFR 137.3.
func (v *view) judgeAgri() Judgment {
	substance, ok := dispensed(v.Facts)
	if !ok {
		return missing("what leaves the tank", "/operation/dispenses")
	}
	because := words(string(substance))
	switch substance {
	case EconomicPoison:
		return fact(true, "/operation/dispenses",
			"dispensing a pesticide (economic poison) is an agricultural aircraft operation (14 CFR 137.3)", "")
	case LiveInsects, WaterTest:
		return fact(false, "/operation/dispenses", "",
			v.say(because, " is no agricultural aircraft operation (14 CFR 137.3)"))
	case OtherDispensed:
		return missing("whether what leaves the tank directly affects agriculture, horticulture or forests",
			"/operation/dispenses")
	default:
		return fact(true, "/operation/dispenses",
			v.say("dispensing ", because, " is an agricultural aircraft operation (14 CFR 137.3)"), "")
	}
}

// purpose judges whether the purpose is the given one.
func (v *view) purpose(p Purpose) Judgment {
	if v.Purpose != Commercial && v.Purpose != Private && v.Purpose != Public {
		return missing("the purpose of the flight", "/operation/purpose")
	}
	because := purposeWords(v.Purpose)
	return fact(v.Purpose == p, "/operation/purpose", because, because)
}

// purposeWords says a purpose; half the rows ask for it.
func purposeWords(p Purpose) string {
	switch p {
	case Commercial:
		return "the purpose is commercial"
	case Private:
		return "the purpose is private"
	default:
		return "the purpose is public"
	}
}

// civil judges whether the operator is not a public agency.
func (v *view) civil() Judgment { return Not(v.purpose(Public)) }

// airspaceIn judges whether the field lies in one of the classes.
func (v *view) airspaceIn(classes ...Airspace) Judgment {
	because := airspaceWords(v.Airspace)
	if because == "" {
		return missing("the class of the airspace over the field", "/operation/airspace")
	}
	return fact(slices.Contains(classes, v.Airspace), "/operation/airspace", because, because)
}

// airspaceWords says a class of airspace; empty where it is not one that is known.
func airspaceWords(a Airspace) string {
	switch a {
	case AirspaceG:
		return "the airspace is class G"
	case AirspaceESurface:
		return "the airspace is class E-surface"
	case AirspaceD:
		return "the airspace is class D"
	case AirspaceC:
		return "the airspace is class C"
	case AirspaceB:
		return "the airspace is class B"
	default:
		return ""
	}
}

// phase judges whether the flight is in the given part of the day.
func (v *view) phase(p daylight.Phase) Judgment {
	because := phaseWords(v.Phase)
	switch {
	case because == "" && v.At == nil:
		return missing("when the job is flown", "/weather/at")
	case because == "":
		return missing("where the job is flown", "/weather/latitude", "/weather/longitude")
	}
	if v.Alaska != nil && *v.Alaska && v.Phase != daylight.Day {
		because += " (in Alaska the almanac, not a fixed 30 minutes, bounds twilight: check it)"
	}
	return fact(v.Phase == p, "/weather/at", because, because)
}

// phaseWords says a part of the day; empty where it is not known.
func phaseWords(p daylight.Phase) string {
	switch p {
	case daylight.Day:
		return "it is day"
	case daylight.Twilight:
		return "it is twilight"
	case daylight.Night:
		return "it is night"
	default:
		return ""
	}
}

// congested judges whether the field lies in a congested area.
func (v *view) congested() Judgment {
	return stated(v.CongestedArea, "/operation/congested_area",
		"the field lies in a congested area", "the field is not in a congested area",
		"whether the field lies in a congested area")
}

// stateKnown judges whether the state was named; rows that the state decides wait for it.
func (v *view) stateKnown() Judgment {
	if v.State == nil || strings.TrimSpace(*v.State) == "" {
		return missing("the state, whose rules decide this", "/operation/state")
	}
	return Judgment{Truth: Yes, Because: v.say("the rules of ", *v.State, " apply"), Pointers: pointTo("/operation/state")}
}

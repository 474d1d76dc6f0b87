package drift

import (
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// Spray is the liquid as it leaves the atomizers.
type Spray struct {
	Atomizer    spray.Atomizer
	Droplet     spray.Droplet
	Rate        units.ApplicationRate
	Density     units.Density
	Nonvolatile *units.Proportion // volume share that does not evaporate; nil: not stated
}

// Release is how and where the spray is let go.
type Release struct {
	Height      units.Length // above the crop
	Speed       units.Speed  // over the ground
	Swath       units.Length
	Course      *units.Bearing // of the swath lines; nil: not stated
	Crosswind   *bool          // lines across the wind; nil: not stated
	UnderRotors *bool          // atomizers under the rotors; nil: not stated
	Mass        *units.Mass    // at takeoff; nil: not stated
	DiscArea    *units.Area    // total rotor disc area, coaxial pairs once; nil: not stated
}

// Ground is the field as the drift sees it.
type Ground struct {
	Area       *units.Area
	Along      *units.Length // extent along the wind; nil: not known
	Across     *units.Length // extent across the wind; nil: not known, taken as wide as spray ever spreads
	Longest    *units.Length // extent in whatever direction it reaches farthest; nil: not known
	Shortest   *units.Length // the shorter side of a rectangle whose lie to the wind is not known; nil: not so
	CropHeight units.Length
}

// LabelLimits are the drift limits of the product label; nil means not stated.
type LabelLimits struct {
	MaxWind, MinWind *units.Speed
	MaxHeight        *units.Length
	DownwindBuffer   *units.Length
	DropletClassMin  *spray.Class
	DropletClassMax  *spray.Class
}

// Input is everything the room reads.
type Input struct {
	Air       air.State
	WindSpeed units.Speed // as stated, at WindHeight
	WindFrom  units.Bearing
	Gust      *units.Speed
	Spray     Spray
	Release   Release
	Ground    Ground
	Neighbors []Neighbor
	Label     LabelLimits
	Pesticide bool
}

// Deposit is the deposit on the ground at a distance downwind of the field edge.
type Deposit struct {
	Distance      units.Length
	PercentOfRate Estimate
}

// ReferenceCurve is a published curve to hold the deposit against.
type ReferenceCurve struct {
	Name     string // ground_boom, orchard_airblast, manned_aerial
	Deposit  []ReferencePoint
	Standing finding.Standing // how its constants were checked
}

// ReferencePoint is one point of a published curve.
type ReferencePoint struct {
	Distance      units.Length
	PercentOfRate units.Proportion
}

// Result is the drift risk.
type Result struct {
	Grade           Grade
	Deposit         []Deposit
	AtNeighbors     []AtNeighbor
	Airborne        units.Proportion // of the spray, still aloft at the field's downwind edge: all that does not land in the field
	Buffer          Buffer
	Drivers         []Driver
	ReferenceCurves []ReferenceCurve
	Findings        []finding.Finding
	Assumptions     []finding.Assumption
	Sources         []finding.Source
}

// Assess works out the drift of the job: where the spray of one line lands, class by class, then
// the whole field's deposit against distance, what reaches the neighbors, the grade and the buffer.
// It computes for any input; what lies outside the model's span is held to it and said.
//
// Accuracy: a factor of 3 either way on a deposit, up to 4.8 where the rotor wake is swept back or not
// known, carried as Low and High. Sources: see Result.
func Assess(in Input) Result {
	var book ledger
	judgeWind(in, &book)
	judgeDrying(in, &book)
	judgeRelease(in, &book)
	stateAssumptions(in, &book)
	if in.Spray.Droplet.Spectrum.Dv05 <= 0 {
		return unknownSpray(in, &book)
	}
	plan, length := newPlan(in), extent(in)
	judgeModel(in, plan, &book)
	if plan.width > 0 {
		book.cite(sourceFanOut)
	}
	landed := plan.land(farthestBuffer+length, fine)
	around := places(in, landed, length)
	judgeNeighbors(in, around, &book)
	judgePattern(in, landed, &book)
	book.report(nobodyDownwind)
	result := Result{
		Deposit:         deposits(landed, length),
		AtNeighbors:     shown(around),
		Airborne:        units.Significant(units.Proportion(landed.beyond(length)), 3),
		Buffer:          buffer(in, landed, length, around, &book),
		Grade:           grade(in, landed, length, around, &book),
		Drivers:         drivers(in, plan, judgedAt(around), length, coarse),
		ReferenceCurves: referenceCurves(),
	}
	return closed(result, &book)
}

// nobodyDownwind goes with every answer: the deposit says nothing of what a person breathes.
var nobodyDownwind = finding.Finding{
	Code: CodeNobodyDownwind, Severity: finding.Note, Subject: atNeighbors, Source: sourceDesign,
	Message: "Keep everyone out of the field and out from downwind of it while you spray, and stop at once if someone comes near.",
}

// newPlan reads where and how the spray is let go.
func newPlan(in Input) flightPlan {
	f := flightPlan{
		height: hold(in.Release.Height.SI(), lowest, highest, lowest),
		rotor:  newRotor(in.Release),
		medium: newMedium(in),
		width:  extentAcross(in),
		turned: extentTurned(in),
		fan:    fanOut(in.Air.Stability),
	}
	f.speeds = newFall(f.medium.liquidDensity, f.medium.airDensity, f.medium.viscosity)
	f.count = split(in.Spray.Droplet.Spectrum, fine.classes, &f.classes)
	return f
}

// judgedAt is the distance of the nearest downwind neighbor, or 10 m where none is known, m.
func judgedAt(places []place) float64 {
	least, found := gradeDistance, false
	for _, p := range places {
		if p.downwind && (!found || p.Distance < least) {
			least, found = p.Distance, true
		}
	}
	return hold(least.SI(), 1, farthestBuffer, 1)
}

// unknownSpray answers when there is no droplet size: nothing is computed and nothing is fine.
func unknownSpray(in Input, book *ledger) Result {
	book.report(finding.Finding{Code: CodeDropletUnknown, Severity: finding.Needed, Subject: atSpray, Source: sourceDesign,
		Message: "The droplet size is not known, so drift cannot be computed. " + in.Spray.describe()})
	return closed(Result{Grade: Severe, AtNeighbors: shown(places(in, newLanding(1), 1)), ReferenceCurves: referenceCurves()}, book)
}

// closed hands the ledger over to the result, with the sources every answer stands on.
func closed(r Result, book *ledger) Result {
	book.cite(sourceDrag, sourceGunnKinzer, sourceEvaporation, sourceTurbulence, sourceMomentum, sourceTrail,
		sourceBasicDrift, sourceBasicDriftConstants, sourceFieldTrials, sourceDesign)
	r.Findings, r.Assumptions, r.Sources = book.findings, book.assumptions, book.cited()
	return r
}

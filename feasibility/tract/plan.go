package tract

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Accounting is where the ground went; Tract = Sprayed + Unsprayed + KeepOuts. Tract is the
// ground inside the boundary less its holes. Sprayed is ground under at least one swath, counted
// once. Unsprayed is ground inside the tract that no swath reaches. KeepOuts is the part of the
// keep-outs that lies inside the tract, overlaps counted once. Strips is the part of Unsprayed that is
// left for neighbors downwind.
type Accounting struct{ Tract, Sprayed, Unsprayed, KeepOuts, Strips units.Area }

// Sortie is one flight from takeoff to landing.
type Sortie struct {
	Number     units.Count
	Aircraft   units.Count  // 1-based; sorties are dealt round
	Fill       units.Volume // to load: what this sortie sprays, or the least fill where that is more
	Area       units.Area   // swath times the length sprayed
	Passes     units.Count  // touched
	SprayTime  units.Duration
	FlightTime units.Duration // takeoff to landing
	Energy     units.Energy
	EndedBy    Bound // for the last sortie: the bound it came nearest to
	// ResumeLine and ResumeAlong are where the next sortie takes up: the line's number (1-based)
	// and the distance along it. Both are 0 after the last sortie.
	ResumeLine  units.Count
	ResumeAlong units.Length
}

// Plan is the tract flown. Where Feasible is false, the sortie figures are 0 and a finding says
// why.
type Plan struct {
	Area              units.Area // the tract: Accounting.Tract
	Accounting        Accounting
	Treated           units.Area // swath times the length of all lines: the liquid used is the rate over it
	Cleared           []Clear    // strips left unsprayed for neighbors
	SprayedPastEdge   units.Area // part of Treated that lies outside of the tract
	Sorties           units.Count
	BoundBy           Bound
	AreaEach          units.Area // the most one sortie covers
	AreaPerBattery    units.Area
	SortiesPerBattery units.Count // at least 1 where a sortie is possible
	Passes            units.Count // ceil(width across the course / swath)
	Segments          units.Count // pieces that the passes are cut into by the ground's shape
	SprayLength       units.Length
	Course            units.Bearing
	CourseBy          CourseChoice
	Courses           []CourseOption // the one taken first
	Headland          Headland       // of no length where a pass round the edge would bring nothing
	FerryEach         units.Length   // mean distance one way
	SprayTime         units.Duration
	FlightTime        units.Duration // of all sorties together
	EnergyEach        units.Energy   // of the sortie that takes most
	List              []Sortie       // the first 1,000 at most
	Feasible          bool           // false where not even one sortie can be flown, or one cannot reach its line
	Findings          []finding.Finding
	Assumptions       []finding.Assumption
	Sources           []finding.Source

	drawn *drawn // what Map draws; nil where there is no boundary
}

// CourseChoice says how the course was chosen.
type CourseChoice string

// The ways a course is chosen.
const (
	CourseByCaller      CourseChoice = "caller"
	CourseByWind        CourseChoice = "crosswind"
	CourseByFewestTurns CourseChoice = "fewest_turns"
)

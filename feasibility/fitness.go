package feasibility

import (
	"fmt"
	"math"
	"strconv"

	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// Whether a drone is the right tool for the tract, and this aircraft the right drone.
const (
	CodeObstacleSensing finding.Code = "obstacle_sensing"      // caution: absent or not known, with something to hit
	CodeHeightSensing   finding.Code = "height_sensing"        // caution: absent, not known, or one that looks through the canopy
	CodeTankLevelStop   finding.Code = "tank_level_stop"       // caution: absent or not known, on a job of several loads
	CodeResumePoint     finding.Code = "resume_point"          // caution: likewise
	CodeWorkRate        finding.Code = "work_rate"             // note or caution: acres a day against the tract
	CodeOtherMachine    finding.Code = "other_machine"         // note: what another machine would do better here
	CodeTimeNotSpraying finding.Code = "time_not_spraying"     // caution: most of the job is not spraying
	CodeAccessNotStated finding.Code = "access_not_considered" // note
)

// The sources of this page.
var (
	sourceWorkRate = finding.Source{
		ID:       "duley-2023",
		Citation: "Duley et al., University of Wisconsin Extension, 15 August 2023, Thoughts on spray drones for Wisconsin farmers: users report 20 to 40 acres per hour, by size, batteries and refilling",
		Standing: finding.Read,
	}
	sourceOtherMachines = finding.Source{
		ID:       "ozkan-2023-limitations",
		Citation: "Ozkan, Ohio State University Extension, May 2023, Limitations of spray drones and obstacles to their adoption: fewer acres per hour than an airplane or a ground rig",
		Standing: finding.Read,
	}
	sourceEquipment = finding.Source{
		ID:       "aircraft-equipment-practice",
		Citation: "Equipment of spray drones: obstacle sensing beside trees and lines; height sensing by radar rather than by a narrow beam over open canopy; a stop at an empty tank and a return to the break point on jobs of several loads",
		Standing: finding.CommonPractice,
	}
	sourceFitness = finding.Source{
		ID:       "fitness-choices",
		Citation: "Choices of this program: from which height a crop counts as a canopy with gaps, and from which share of its time a job counts as mostly not spraying",
		Standing: finding.OwnDesign,
	}
)

// fitnessSources lists them.
func fitnessSources() []finding.Source {
	return []finding.Source{sourceWorkRate, sourceOtherMachines, sourceEquipment, sourceFitness}
}

// fitnessTable is fitnessSources, built once; it never changes.
var fitnessTable = fitnessSources()

// Own choices.
const (
	openCanopy         = 6 * units.Foot // a crop this tall has gaps that a narrow beam looks through
	tallObstacle       = 6 * units.Foot
	leastShareSpraying = units.Proportion(1.0 / 3)
)

// usualFitness is about how many findings the fitness has; more only take more memory.
const usualFitness = 6

// fitness holds the tract against the aircraft's equipment and its day's work. What was not stated is
// said, never taken as there.
func (m Mission) fitness(plan tract.Plan, team crew.Result) report {
	book := finding.Ledger{Findings: make([]finding.Finding, 0, usualFitness)}
	m.judgeObstacles(&book)
	m.judgeHeightSensing(&book)
	if plan.Feasible && plan.Sorties > 1 {
		m.judgeLongJob(plan, &book)
	}
	if plan.Feasible && team.WorkRate > 0 {
		m.judgeDay(plan, team, &book)
	}
	return report{findings: book.Findings, assumptions: book.Assumptions,
		sources: book.Cited(fitnessTable)}
}

// obstacles says in words what the mission tells of things to fly into; empty where it tells of none.
func (m Mission) obstacles() string {
	if len(m.Field.Ground.KeepOuts) > 0 {
		return "there are keep-outs in the tract"
	}
	for _, polygon := range m.Field.Ground.Boundary {
		if len(polygon) > 1 {
			return "there is ground in the tract that is not part of it"
		}
	}
	if h := m.Field.CropHeight; h != nil && units.AtLeast(*h, tallObstacle) {
		return "the crop is tall"
	}
	for _, n := range m.Field.Neighbors {
		if n.Kind == "dwelling" || n.Kind == "road" {
			return "there is a " + n.Words() + " nearby, with the lines and trees that go with it"
		}
	}
	return ""
}

// judgeObstacles holds obstacle sensing against what stands near.
func (m Mission) judgeObstacles(book *finding.Ledger) {
	has, near := m.Aircraft.Sensing.Obstacle, m.obstacles()
	f := finding.Finding{Code: CodeObstacleSensing, Severity: finding.Caution, Subject: "/aircraft/sensing/obstacle", Source: sourceEquipment}
	switch {
	case has != nil && *has:
		return
	case has != nil && near != "":
		f.Message = "The aircraft does not sense obstacles, and " + near + ". Walk the edges, mark wires, poles and trees, and keep a wide margin round each."
	case has != nil:
		f.Message = "The aircraft does not sense obstacles. Walk the edges for wires, poles and trees before the job, and keep a wide margin round each."
	case near != "":
		f.Message = "Whether the aircraft senses obstacles was not stated, and " + near + ". Find out, and until then fly as if it does not: walk the edges, mark wires, poles and trees."
	default:
		f.Message = "Whether the aircraft senses obstacles was not stated. Find out, and walk the edges for wires, poles and trees before the job."
	}
	book.Find(f)
}

// judgeHeightSensing holds height sensing against the canopy. A narrow laser beam falls through the
// gaps of a tall or open canopy, the aircraft takes the ground for the crop, and sinks.
func (m Mission) judgeHeightSensing(book *finding.Ledger) {
	crop := m.Field.CropHeight
	f := finding.Finding{Code: CodeHeightSensing, Severity: finding.Caution, Subject: "/aircraft/sensing/height", Source: sourceEquipment}
	switch sensor := m.Aircraft.Sensing.Height; {
	case sensor == nil:
		f.Message = "How the aircraft senses its height above the crop was not stated. Without it the spray height drifts with the ground. Find out before the job."
	case *sensor == NoHeight:
		f.Message = "The aircraft does not sense its height above the crop. Over rolling ground it flies too high or too low: fly level ground only, watch the height, and fly slower."
	case *sensor == LaserHeight && crop == nil:
		f.Subject, f.Source = "/field/crop_height", sourceFitness
		f.Message = "The aircraft senses height by laser, and the height of the crop was not stated. Over an open canopy the beam falls through the gaps and the aircraft sinks. Send the crop's height, and check how it holds height over this crop."
	case *sensor == LaserHeight && units.AtLeast(*crop, openCanopy):
		f.Source, f.Measured, f.Limit, f.Margin = sourceFitness, *crop, openCanopy, openCanopy-*crop
		f.Message = fmt.Sprintf("The aircraft senses height by laser, over a crop %.3g ft tall. Through the gaps of an open canopy the beam reaches the ground, and the aircraft sinks. Use radar height sensing, or fly higher above the tops.", crop.In(units.Foot))
	default:
		return
	}
	book.Find(f)
}

// judgeLongJob holds a job of several loads against the stop at an empty tank and the way back to the
// break point.
func (m Mission) judgeLongJob(plan tract.Plan, book *finding.Ledger) {
	loads := strconv.Itoa(int(plan.Sorties))
	for _, need := range []struct {
		has         *bool
		code        finding.Code
		pointer     string
		does, lacks string
		without     string
	}{
		{m.Aircraft.Sensing.TankLevel, CodeTankLevelStop, "/aircraft/sensing/tank_level",
			"stops at an empty tank", "does not stop at an empty tank",
			"it may fly on dry and leave a stripe unsprayed. Load by the sorties listed here and end each where the list says"},
		{m.Aircraft.Sensing.Resume, CodeResumePoint, "/aircraft/sensing/resume",
			"goes back to where it stopped", "does not go back to where it stopped",
			"the pilot must find the place by eye, and stripes are missed or sprayed twice. Mark each break point listed here"},
	} {
		if need.has != nil && *need.has {
			continue
		}
		said, what, then := "it was not stated whether the aircraft ", need.does, ". If not, "
		if need.has != nil {
			said, what, then = "the aircraft ", need.lacks, ": "
		}
		book.Find(finding.Finding{
			Code: need.code, Severity: finding.Caution, Subject: need.pointer, Source: sourceEquipment,
			Message:  "The job takes " + loads + " loads, and " + said + what + then + need.without + ".",
			Measured: plan.Sorties,
		})
	}
}

// judgeDay holds a day's acres against the tract, and says what another machine would do better.
func (m Mission) judgeDay(plan tract.Plan, team crew.Result, book *finding.Ledger) {
	ground := plan.Accounting.Sprayed
	perDay := units.Area(team.WorkRate.SI() * team.HoursPerDay.SI())
	f := finding.Finding{
		Code: CodeWorkRate, Severity: finding.Note, Subject: "/field", Source: sourceWorkRate,
		Message: "At " + three(team.WorkRate.In(units.AcrePerHour)) + " acres an hour this set-up does about " + three(perDay.In(units.Acre)) +
			" acres in a day of " + three(team.HoursPerDay.In(units.Hour)) + " hours, before any weather hold; the tract has " + three(ground.In(units.Acre)) +
			" to spray. Users of such drones report 20 to 40 acres an hour.",
	}
	if perDay > 0 {
		f.Measured, f.Limit, f.Margin = ground, perDay, perDay-ground
	}
	late := !units.AtMost(ground, perDay)
	if late {
		f.Severity = finding.Caution
	}
	book.Find(f)
	m.judgeOthers(plan, late, book)
	if share := team.FieldEfficiency; share > 0 && !units.AtLeast(share, leastShareSpraying) {
		book.Find(finding.Finding{
			Code: CodeTimeNotSpraying, Severity: finding.Caution, Subject: "/field", Source: sourceFitness,
			Message:  fmt.Sprintf("Only %.0f percent of the job's time is spraying; the rest goes into turns, ferries, refills and waiting. Launch nearer, carry a larger load, or bring help to refill.", math.Round(100*share.SI())),
			Measured: share, Limit: leastShareSpraying, Margin: share - leastShareSpraying,
		})
	}
}

// judgeOthers says where another machine would do better, and what was not weighed.
func (m Mission) judgeOthers(plan tract.Plan, late bool, book *finding.Ledger) {
	broken := m.obstacles() != "" || plan.Segments > plan.Passes
	if late {
		message := "An airplane or a ground rig does more acres an hour than a drone. On a tract this size, ask for their price and their first free day as well"
		if broken {
			message += "; what stands in or beside the tract may keep the airplane off parts of it, and a drone can do those"
		}
		book.Find(finding.Finding{Code: CodeOtherMachine, Severity: finding.Note, Subject: "/aircraft", Source: sourceOtherMachines, Message: message + "."})
	}
	book.Find(finding.Finding{
		Code: CodeAccessNotStated, Severity: finding.Note, Subject: "/field", Source: sourceOtherMachines,
		Message: "What another machine can reach was not weighed: wet ground, levees, standing water and tall crops keep a ground rig out, and wires, trees and short strips keep an airplane off. Where they can work they are faster; where they cannot, a drone has its place.",
	})
}

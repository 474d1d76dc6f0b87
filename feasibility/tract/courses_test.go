package tract

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

// A tract of 602 m by 98 m in a west wind: the fewest turns run with the wind, the course across it
// takes six times the passes; both are shown whichever is flown, and either tells the other's cost.
func TestBothCoursesAreShown(t *testing.T) {
	t.Parallel()
	field := Field{Boundary: []Polygon{placed(box(0, 0, 602, 98))}, FerryDistance: new(100 * units.Meter)}
	job := tankJob(2)
	job.WindFrom, job.WindSpeed = 270*units.BearingDegree, 3*units.MeterPerSecond
	long := Fly(field, job)
	job.Crosswind = new(true)
	across := Fly(field, job)
	for name, tc := range map[string]struct {
		plan Plan
		by   []CourseChoice
	}{
		"fewest turns": {long, []CourseChoice{CourseByFewestTurns, CourseByWind}},
		"across":       {across, []CourseChoice{CourseByWind, CourseByFewestTurns}},
	} {
		t.Run(name, func(t *testing.T) {
			require.Len(t, tc.plan.Courses, 2)
			for i, o := range tc.plan.Courses {
				assert.Equal(t, tc.by[i], o.By)
				assert.Equal(t, i == 0, o.Chosen)
				passes := units.Count(14)
				if o.By == CourseByWind {
					passes = 86
				}
				assert.Equal(t, passes, o.Passes)
				assert.Equal(t, passes-1, o.Turns)
				assert.InDelta(t, passes.SI()*5-5, o.TurnTime.SI(), 0.1, "five seconds each")
			}
			assert.Equal(t, tc.plan.FlightTime, tc.plan.Courses[0].FlightTime)
		})
	}
	assert.InDelta(t, 72*5, (across.FlightTime - long.FlightTime).SI(), 10, "72 turns more")
	assert.InDelta(t, across.FlightTime.SI(), long.Courses[1].FlightTime.SI(), 60, "the estimate of the course not taken")
	assert.InDelta(t, long.FlightTime.SI(), across.Courses[1].FlightTime.SI(), 60)
	with := long.Courses[0]
	assert.InDelta(t, 10, with.Against.SI(), 1e-6)
	assert.InDelta(t, 4, with.With.SI(), 1e-6)
	assert.Contains(t, with.Note, "22.4 mph one way and 8.95 mph the other")
	assert.Contains(t, long.Courses[1].Note, "minutes more in the air")
	assert.Contains(t, long.Courses[1].Note, "Across the wind")
	assert.Contains(t, across.Courses[1].Note, "minutes less in the air")
}

func TestCoursesThatAreTheSameAreShownOnce(t *testing.T) {
	t.Parallel()
	field := Field{Boundary: []Polygon{placed(box(0, 0, 600, 100))}}
	job := tankJob(2)
	assert.Len(t, Fly(field, job).Courses, 1, "no wind is known")
	job.WindFrom, job.WindSpeed = 0, 3*units.MeterPerSecond
	assert.Len(t, Fly(field, job).Courses, 1, "the fewest turns lie across the wind")
	job.Course = new(30 * units.BearingDegree)
	assert.Len(t, Fly(field, job).Courses, 2, "the caller's, and the fewest turns, which lie across the wind")
	area := 10 * units.Acre
	assert.Len(t, Fly(Field{Area: &area}, job).Courses, 1)
}

// A rectangle's headland is its perimeter less four swaths; a triangle loses a swath for the half
// tangent of every corner.
func TestHeadlandLength(t *testing.T) {
	t.Parallel()
	rectangle, corners := inset(orb.Ring{{0, 0}, {300, 0}, {300, 200}, {0, 200}, {0, 0}}, 7)
	assert.InDelta(t, 1000-28, rectangle, 1e-9)
	assert.Equal(t, 4, corners)
	side := 300.0
	triangle, _ := inset(orb.Ring{{0, 0}, {side, 0}, {side / 2, side * math.Sqrt(3) / 2}, {0, 0}}, 7)
	// Its inner triangle has a side of 300 - 2 x 3.5 x sqrt 3.
	assert.InDelta(t, 3*(side-7*math.Sqrt(3)), triangle, 1e-9)
	notched, _ := inset(orb.Ring{{0, 0}, {100, 0}, {100, 100}, {50, 100}, {50, 50}, {0, 50}, {0, 0}}, 10)
	assert.InDelta(t, 400-5*10+10, notched, 1e-9, "five corners turn left and one right")
	tiny, _ := inset(orb.Ring{{0, 0}, {1, 0}, {1, 1}, {0, 0}}, 7)
	assert.Zero(t, tiny)
}

func TestHeadlandIsOfferedWhereItHelps(t *testing.T) {
	t.Parallel()
	square := Field{Boundary: []Polygon{placed(box(0, 0, 210, 210))}}
	job := tankJob(2)
	job.Course = new(units.Bearing(0))
	assert.Empty(t, Fly(square, job).Headland, "the lines end square")
	job.Course = new(45 * units.BearingDegree)
	ragged := Fly(square, job).Headland
	require.NotEmpty(t, ragged)
	assert.InDelta(t, 840-28, ragged.Length.SI(), 0.01)
	assert.InDelta(t, 812.0/7+4*5, ragged.Time.SI(), 0.01)
	assert.InDelta(t, 812*7*job.Rate.SI(), ragged.Volume.SI(), 1e-6)
	job.Course = new(units.Bearing(0))
	square.KeepOuts = []Polygon{placed(box(100, 100, 120, 120))}
	assert.NotEmpty(t, Fly(square, job).Headland, "lines break at the keep-out")
	side := 210 * units.Meter
	assert.Empty(t, Fly(Field{Length: &side, Width: &side}, job).Headland)
}

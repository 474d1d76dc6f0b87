package tract

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/units"
)

// TestWhatEarlierMissionsKnewChangesNothing: a mission on a land that others were planned on gets the plans and
// the counted work that it gets on a land of its own, also where lines are given up.
func TestWhatEarlierMissionsKnewChangesNothing(t *testing.T) {
	t.Parallel()
	fields := map[string]Field{
		"spikes": hostile()["spikes"],
		"plain": {
			Boundary: []Polygon{placed(spikes(40, 120, 300))}, KeepOuts: []Polygon{placed(box(-20, -20, 20, 20))},
			FerryDistance: new(100 * units.Meter),
		},
		"off the map": {Area: new(40 * units.Acre), FerryDistance: new(100 * units.Meter)},
	}
	strip := []Clear{{Kind: "yard", Bearing: 1, Buffer: 20 * units.Meter}}
	swaths := []units.Length{4, 8, 4}
	for name, field := range fields {
		shared := NewLand(field)
		given := map[bool]int{}
		for mission, swath := range swaths {
			if mission > 0 {
				shared.Begin()
			}
			alone := NewLand(field)
			for i := range 3 {
				job := tankJob(1)
				job.Swath, job.WindSpeed, job.WindFrom = swath, 2, 3
				job.Speed *= units.Speed(1 + float64(i)/10)
				job.Headland = units.Count(i % 2)
				if i != 1 {
					job.Clear = strip
				}
				want, got := alone.Fly(job), shared.Fly(job)
				given[found(want, CodeOutlineTooRagged).Code != ""]++
				assert.Equal(t, want.SetBack(strip), got.SetBack(strip), "%s, mission %d, job %d", name, mission, i)
				want.drawn, got.drawn = nil, nil
				assert.Equal(t, want, got, "%s, mission %d, job %d", name, mission, i)
				assert.Equal(t, alone.Work(), shared.Work(), "%s, mission %d, job %d", name, mission, i)
			}
		}
		if name == "spikes" {
			assert.Len(t, given, 2, "some are given up and some are not: %v", given)
		}
	}
}

// TestALaterMissionLaysNoLinesAgain: what is counted as if it were worked out anew is not.
func TestALaterMissionLaysNoLinesAgain(t *testing.T) {
	t.Parallel()
	land, job := NewLand(hostile()["spikes"]), tankJob(1)
	land.Fly(job)
	first := land.laid[0]
	for range 3 {
		land.Begin()
		job.Fill *= 0.9
		land.Fly(job)
		assert.Same(t, first, land.laid[0])
	}
}

// TestWhatIsKnownIsBounded: however many ways missions lay their lines, few are kept.
func TestWhatIsKnownIsBounded(t *testing.T) {
	t.Parallel()
	land := NewLand(Field{Boundary: []Polygon{placed(spikes(40, 120, 300))}, FerryDistance: new(100 * units.Meter)})
	for i := range 3 * mostKnown {
		job := tankJob(1)
		job.Swath = 4 + units.Length(i)/100
		job.Clear = []Clear{{Bearing: 1, Buffer: units.Length(10 + i)}}
		land.Fly(job).SetBack([]Clear{{Bearing: 2, Buffer: units.Length(20 + i)}})
		land.Begin()
	}
	assert.Len(t, land.known.laid, mostKnown)
	assert.Len(t, land.known.cleared, mostKnown)
}

// TestOfAFieldMeansThatVeryField: a field that differs in anything is another.
func TestOfAFieldMeansThatVeryField(t *testing.T) {
	t.Parallel()
	field := func() Field {
		return Field{Boundary: []Polygon{placed(box(0, 0, 300, 200))}, KeepOuts: []Polygon{placed(box(10, 10, 20, 20))}, FerryDistance: new(100 * units.Meter)}
	}
	land := NewLand(field())
	assert.True(t, land.Of(field()))
	for name, change := range map[string]func(*Field){
		"a corner":    func(f *Field) { f.Boundary[0][0][1].Latitude += 1e-9 },
		"a keep-out":  func(f *Field) { f.KeepOuts = nil },
		"the ferry":   func(f *Field) { *f.FerryDistance++ },
		"no ferry":    func(f *Field) { f.FerryDistance = nil },
		"an area":     func(f *Field) { f.Area = new(1 * units.Acre) },
		"the launch":  func(f *Field) { f.LaunchPoint = &Position{} },
		"another one": func(f *Field) { f.Boundary = append(f.Boundary, placed(box(400, 0, 500, 100))) },
	} {
		other := field()
		change(&other)
		assert.False(t, land.Of(other), name)
	}
}

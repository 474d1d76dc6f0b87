package permits

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// nextHour draws other facts for what the hour moves.
func nextHour(t *rapid.T, f Facts) Facts {
	if f.At != nil {
		f.At = new(f.At.Add(time.Duration(rapid.IntRange(0, 336).Draw(t, "later")) * time.Hour))
	}
	f.Phase = some(t, "phase then", daylight.Day, daylight.Twilight, daylight.Night, daylight.Unknown)
	f.WindSpeed = some(t, "wind then", units.MilePerHour, 5*units.MilePerHour, 15*units.MilePerHour)
	f.CalmMeasured = f.WindSpeed == 0
	f.Visibility = perhaps(t, "visibility then", units.Mile, 10*units.Mile)
	f.CloudBelow = perhaps(t, "below then", 100*units.Foot, 1000*units.Foot)
	f.CloudSide = perhaps(t, "side then", 100*units.Foot, 3000*units.Foot)
	f.CloudFree = nil
	f.Neighbors = slices.Clone(f.Neighbors)
	for i := range f.Neighbors {
		f.Neighbors[i].Downwind = rapid.Bool().Draw(t, "downwind then")
		f.Neighbors[i].Distance = some(t, "distance then", 20*units.Foot, 90*units.Foot, 900*units.Foot)
	}
	return f
}

// told is what findings say, those that count rows left out: they may count another hour's.
func told(found []finding.Finding) []finding.Finding {
	return slices.DeleteFunc(slices.Clone(found), func(f finding.Finding) bool {
		return f.Code == CodeDutiesEachJob || f.Code == CodeSideNotSettled
	})
}

// Asked hour by hour, the table says what it says when asked afresh: no row moves that is taken to stay.
func TestHourlySaysWhatCheckSays(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		first := anyFacts(t)
		hourly := ByHour()
		for range 3 {
			f := nextHour(t, first)
			papers, moving := hourly.At(f)
			both := told(papers.Findings)
			for _, m := range moving {
				both = append(both, m.Finding)
			}
			for _, want := range told(Check(f).Findings) {
				at := slices.Index(both, want)
				if at < 0 {
					t.Fatalf("the hour leaves out %s: %s", want.Code, want.Message)
				}
				both = slices.Delete(both, at, at+1)
			}
			if len(both) > 0 {
				t.Fatalf("the hour adds %s: %s", both[0].Code, both[0].Message)
			}
			for _, m := range moving {
				if m.Severity == finding.Stop && !m.Binds {
					t.Fatalf("%s stops and does not bind", m.Code)
				}
			}
		}
	})
}

func TestHourlyTellsTheHourFromThePapers(t *testing.T) {
	t.Parallel()
	binding := func(change func(*Facts)) []finding.Code {
		f := fullJob(false)
		change(&f)
		_, moving := ByHour().At(f)
		var codes []finding.Code
		for _, m := range moving {
			if m.Binds {
				codes = append(codes, m.Code)
			}
		}
		return codes
	}
	assert.Empty(t, binding(func(*Facts) {}))
	assert.Equal(t, []finding.Code{"permit_night_lights"}, binding(func(f *Facts) {
		f.Phase, f.Lights3SM, f.NightTrained = daylight.Night, new(false), new(true)
	}))
	assert.Equal(t, []finding.Code{"permit_twilight_lights"}, binding(func(f *Facts) { f.Phase, f.Lights3SM = daylight.Twilight, new(false) }))
	assert.Equal(t, []finding.Code{"permit_visibility"}, binding(func(f *Facts) { f.Visibility = new(1 * units.Mile) }))
	assert.Equal(t, []finding.Code{"permit_night_training", "permit_night_lights"}, binding(func(f *Facts) {
		f.Phase, f.Lights3SM, f.NightTrained = daylight.Night, nil, nil
	}), "what the dark asks for must be known")
	assert.Equal(t, []finding.Code{"permit_night_training", "permit_night_lights", "permit_twilight_lights"}, binding(func(f *Facts) {
		f.Phase, f.Lights3SM, f.NightTrained = daylight.Unknown, nil, nil
	}), "a light that is not known is no daylight")
	assert.Empty(t, binding(func(f *Facts) { f.Visibility = nil }), "what is not known asks to be found out, every hour alike")
	assert.Empty(t, binding(func(f *Facts) { f.Airspace = AirspaceD }), "a paper that every hour needs is not the hour's")
}

// A paper that runs out on the third day counts on two.
func TestHourlyChecksExpiriesDayByDay(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.At = new(time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC))
	f.Holds = []string{"remote-pilot-certificate"}
	f.Expiries = []Expiry{{ID: "remote-pilot-certificate", Date: time.Date(2026, 12, 2, 0, 0, 0, 0, time.UTC)}}
	hourly := ByHour()
	for day, lapsed := range []bool{false, false, true, true} {
		then := f
		then.At = new(f.At.AddDate(0, 0, day))
		papers, _ := hourly.At(then)
		found := slices.ContainsFunc(papers.Findings, func(f finding.Finding) bool { return f.Code == CodeOf("remote-pilot-certificate") })
		assert.Equal(t, lapsed, found, "day %d", day)
	}
	assert.Len(t, hourly.kept, 2, "the table is evaluated twice, not once a day")
}

func BenchmarkHourly(b *testing.B) {
	f := fullJob(false)
	hourly := ByHour()
	b.ReportAllocs()
	for b.Loop() {
		hourly.At(f)
	}
}

package feasibility_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility"
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// steady is good weather at moments on an invented June day: the levee strip's own.
func steady(moments ...time.Time) []feasibility.Forecast {
	all := make([]feasibility.Forecast, len(moments))
	for i, at := range moments {
		all[i] = feasibility.Forecast{Weather: *leveeStrip().Weather}
		all[i].At = &at
	}
	return all
}

// chicago is the time zone of the levee strip in summer.
var chicago = time.FixedZone("", -5*3600)

// june is an hour of June 12, 2026, on the levee.
func june(hour, minute int) time.Time { return time.Date(2026, 6, 12, hour, minute, 0, 0, chicago) }

func TestWindowsEndAtGapsAndBadHours(t *testing.T) {
	f := steady(june(8, 0), june(9, 0), june(10, 0), june(12, 0), june(13, 0), june(14, 0), june(15, 0))
	f[5].WindSpeed = 12 * units.MilePerHour // over the label's 10 mph
	f[5].Gust = nil
	a := assessHours(t, leveeStrip(), f)
	require.Len(t, a.Windows, 3, a.Headline)
	for i, want := range []struct {
		from, to time.Time
		hours    float64
	}{{june(8, 0), june(11, 0), 3}, {june(12, 0), june(14, 0), 2}, {june(15, 0), june(16, 0), 1}} {
		w := a.Windows[i]
		assert.True(t, want.from.Equal(w.From), "window %d opens at %s", i, w.From)
		assert.True(t, want.to.Equal(w.To), "window %d closes at %s", i, w.To)
		assert.InDelta(t, want.hours, w.Length.In(units.Hour), 1e-9)
		assert.False(t, w.EnoughForJob, "the job takes 4 hours")
	}
	assert.False(t, a.Hours[5].Go)
	assert.Contains(t, a.Hours[5].BoundBy, finding.Code("wind_over_label"))
	require.NotNil(t, a.Best)
	assert.Equal(t, []int{0, 1}, a.Best.Windows, "3 and 2 hours are enough for 4, in the order of time")
	assert.Contains(t, a.Best.Because, "no window is that long")
	assert.Contains(t, a.Headline, "split it over 2 windows")
}

// An hour speaks for the time up to the next, one hour at most.
func TestHalfHoursAndLooseHours(t *testing.T) {
	a := assessHours(t, leveeStrip(), steady(june(9, 0), june(9, 30), june(10, 0), june(10, 50), june(12, 0)))
	require.Len(t, a.Windows, 2)
	assert.True(t, june(11, 50).Equal(a.Windows[0].To))
	assert.InDelta(t, 2+50.0/60, a.Windows[0].Length.In(units.Hour), 1e-9)
	assert.True(t, june(12, 0).Equal(a.Windows[1].From))
}

// A missing humidity is that of the air nearby in time, else dry air; both are said and shown.
func TestMissingHumidity(t *testing.T) {
	f := steady(june(8, 0), june(9, 0), june(10, 0), june(20, 0))
	for _, i := range []int{1, 3} {
		f[i].HumidityMissing, f[i].RelativeHumidity = true, 0
	}
	f[1].Temperature = units.FromFahrenheit(90)
	a := assessHours(t, leveeStrip(), f)
	assert.Nil(t, a.Hours[0].Humidity)
	require.NotNil(t, a.Hours[1].Humidity)
	assert.Equal(t, air.Carried(f[0].RelativeHumidity, f[0].Temperature, f[1].Temperature), *a.Hours[1].Humidity)
	assert.Less(t, *a.Hours[1].Humidity, f[0].RelativeHumidity, "warmer air that holds as much is drier")
	require.NotNil(t, a.Hours[3].Humidity)
	assert.Equal(t, 20*units.Percent, *a.Hours[3].Humidity, "ten hours off no air is the same")
	said := 0
	for _, s := range a.Assumptions {
		if s.Subject == "/weather/relative_humidity" {
			said++
		}
	}
	assert.Equal(t, 2, said)

	// What was taken is what is judged.
	f[1].RelativeHumidity, f[3].RelativeHumidity = *a.Hours[1].Humidity, *a.Hours[3].Humidity
	for i, h := range agrees(t, leveeStrip(), f).Hours {
		assert.Equal(t, a.Hours[i].BoundBy, h.BoundBy)
	}
}

// A place that no hour states is that of the mission's weather, else the middle of the boundary.
func TestMissingPlace(t *testing.T) {
	f := steady(june(9, 0))
	f[0].Latitude, f[0].Longitude = nil, nil
	m := leveeStrip()
	assert.Equal(t, daylight.Day, assessHours(t, m, f).Hours[0].Phase, "the mission's weather has the place")
	m.Weather = nil
	a := assessHours(t, m, f)
	assert.Equal(t, daylight.Unknown, a.Hours[0].Phase)
	m.Field.Ground = tract.Field{Boundary: []tract.Polygon{square(33.42, -90.85)}}
	a = assessHours(t, m, f)
	assert.Equal(t, daylight.Day, a.Hours[0].Phase)
	assert.Contains(t, a.Assumptions[len(a.Assumptions)-1].Assumed+join(a.Assumptions), "middle of the field's boundary")
}

func join(taken []finding.Assumption) (all string) {
	for _, s := range taken {
		all += s.Assumed
	}
	return all
}

// square is a tract of 20 acres round a place.
func square(latitude, longitude float64) tract.Polygon {
	const half = 0.00128 // degrees
	at := func(north, east float64) tract.Position {
		return tract.Position{Latitude: units.Angle(latitude+north*half) * units.Degree, Longitude: units.Angle(longitude+east*half) * units.Degree}
	}
	return tract.Polygon{{at(-1, -1), at(-1, 1), at(1, 1), at(1, -1), at(-1, -1)}}
}

// The strip left for a neighbor hangs on the wind: an hour that blows toward the water leaves one, and
// agrees with its assessment.
func TestHoursWithStripsForNeighbors(t *testing.T) {
	m := leveeStrip()
	m.Field.Ground = tract.Field{Boundary: []tract.Polygon{square(33.42, -90.85)}, FerryDistance: new(250 * units.Foot)}
	m.Load.Label.DownwindBuffer = new(150 * units.Foot)
	m.Field.Neighbors = append(m.Field.Neighbors, m.Field.Neighbors[0])
	m.Field.Neighbors[1].Kind, m.Field.Neighbors[1].Distance, m.Field.Neighbors[1].Bearing = "water", 60*units.Foot, 180*units.BearingDegree
	m.Field.Neighbors[1].Tolerance = new(5 * units.Percent)
	f := steady(june(9, 0), june(10, 0), june(11, 0), june(12, 0))
	for i := range f {
		f[i].WindFrom = units.Bearing(90*i) * units.BearingDegree
		f[i].WindSpeed = units.Speed(4+i) * units.MilePerHour
	}
	agrees(t, m, f)
}

// A course that is to lie across the wind forbids the hours in which it does not.
func TestACourseAlongTheWindForbidsTheHour(t *testing.T) {
	m := leveeStrip()
	m.Flight.Course, m.Flight.Crosswind = new(135*units.BearingDegree), new(true)
	f := steady(june(9, 0), june(10, 0))
	f[0].WindFrom, f[1].WindFrom = 315*units.BearingDegree, 225*units.BearingDegree
	a := assessHours(t, m, f)
	assert.Contains(t, a.Hours[0].BoundBy, feasibility.CodeCourseAlongWind)
	assert.True(t, a.Hours[1].Go, "%v", a.Hours[1].BoundBy)
}

// A battery that serves in a breeze and not in a wind forbids the windy hours alone: the plan for the
// strongest wind fails, and the hours are looked at one by one.
func TestABatteryTooSmallForTheWind(t *testing.T) {
	m := leveeStrip()
	m.Load.Label.MaxWind = nil
	m.Aircraft.FullEndurance = new(5 * units.Minute)
	m.Field.Neighbors[0].Tolerance = new(90 * units.Percent)
	f := steady(june(9, 0), june(10, 0), june(11, 0), june(12, 0))
	for i := range f {
		f[i].WindSpeed = units.Speed(3+3.5*float64(i)) * units.MilePerHour
		f[i].Gust = new(1.1 * f[i].WindSpeed) // under 15 mph, so that no gust forbids an hour
	}
	some := 0
	for _, ferry := range []units.Length{9000 * units.Foot, 9900 * units.Foot, 10400 * units.Foot, 12000 * units.Foot} {
		m.Field.Ground.FerryDistance = new(ferry)
		a := agrees(t, m, f)
		good := 0
		for _, h := range a.Hours {
			if h.Go {
				good++
			} else {
				assert.Equal(t, []finding.Code{tract.CodeBatteryTooSmall}, h.BoundBy)
			}
		}
		if good > 0 && good < len(f) {
			some++
			assert.Positive(t, a.Job.Elapsed, "the job is planned for the hours that are left")
		}
	}
	assert.Equal(t, 2, some, "two of the ferries are too far in some winds only")
}

// Windows and the best time follow from the hours, whatever they are.
func TestWindowsFollowFromTheHours(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var f []feasibility.Forecast
		at := june(rapid.IntRange(0, 23).Draw(t, "start"), 0)
		for range rapid.IntRange(1, 12).Draw(t, "hours") {
			w := anyWeather(t, at)
			if rapid.Bool().Draw(t, "fine") {
				w = *leveeStrip().Weather
				w.At = new(at)
			}
			f = append(f, feasibility.Forecast{Weather: w})
			at = at.Add(time.Duration(rapid.SampledFrom([]int{20, 60, 60, 60, 90}).Draw(t, "step")) * time.Minute)
		}
		m := leveeStrip()
		m.Field.Ground.Area = new(units.Area(rapid.Float64Range(1, 60).Draw(t, "acres")) * units.Acre)
		a, err := feasibility.AssessHours(m, f)
		if err != nil {
			t.Fatal(err)
		}
		inside := func(at time.Time) int {
			for i, w := range a.Windows {
				if !at.Before(w.From) && at.Before(w.To) {
					return i
				}
			}
			return -1
		}
		for i, w := range a.Windows {
			if !w.From.Before(w.To) || i > 0 && w.From.Before(a.Windows[i-1].To) {
				t.Fatalf("window %d runs from %s to %s", i, w.From, w.To)
			}
		}
		for _, h := range a.Hours {
			if at := inside(h.At); h.Go != (at >= 0) {
				t.Fatalf("hour %s is good: %v, in window %d", h.At, h.Go, at)
			}
		}
		if b := a.Best; b != nil && len(b.Windows) == 1 {
			w := a.Windows[b.Windows[0]]
			if !w.EnoughForJob || b.From.Before(w.From) || b.To.After(w.To) {
				t.Fatalf("the best time %s to %s is not in window %s to %s", b.From, b.To, w.From, w.To)
			}
		}
	})
}

func TestNoHoursAndNoParts(t *testing.T) {
	a, err := feasibility.AssessHours(leveeStrip(), nil)
	require.NoError(t, err)
	assert.Contains(t, a.Headline, "No hour was sent")
	_, err = feasibility.AssessHours(feasibility.Mission{}, steady(june(9, 0)))
	assert.ErrorContains(t, err, "aircraft")
}

// Where no hour is good the headline says why, also where the reason is the same in every hour and so
// stands among the findings of all, and where it is a paper.
func TestAHeadlineWithoutAGoodHourSaysWhy(t *testing.T) {
	m := leveeStrip()
	night := steady(june(22, 0), june(23, 0), june(24, 0))
	for i := range night {
		night[i].InversionObserved = new(false)
	}
	for name, f := range map[string][]feasibility.Forecast{"one": night[:1], "all": night} {
		t.Run(name, func(t *testing.T) {
			a := assessHours(t, m, f)
			require.NotEmpty(t, a.Hours[0].BoundBy)
			require.False(t, a.Hours[0].Go)
			said := "What stops every hour: "
			if len(f) == 1 {
				said = "What stops it: "
			}
			_, why, told := strings.Cut(a.Headline, said)
			assert.True(t, told && len(why) > 20, a.Headline)
			t.Log(a.Headline)
		})
	}
	mixed := slices.Concat(steady(june(9, 0), june(10, 0), june(11, 0)), night)
	for i := range 3 {
		mixed[i].WindSpeed, mixed[i].Gust = units.Speed(12+i)*units.MilePerHour, nil
	}
	a := assessHours(t, m, mixed[:5])
	assert.Contains(t, a.Headline, "What stops most of them (3)")
}

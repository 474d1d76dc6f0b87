package feasibility_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility"
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

// forecasts is an invented fortnight for the levee strip, hour by hour: warm days with a breeze in the
// afternoon, still and damp nights, a front now and then.
func forecasts(hours int) []feasibility.Forecast {
	random := rand.New(rand.NewPCG(20261125, 6))
	first := time.Date(2026, time.June, 12, 5, 0, 0, 0, time.FixedZone("", -5*3600))
	m := leveeStrip()
	all := make([]feasibility.Forecast, hours)
	for i := range all {
		w := *m.Weather
		at := first.Add(time.Duration(i) * time.Hour)
		w.At = &at
		day := math.Sin(2 * math.Pi * float64(at.Hour()-9) / 24) // warmest at three in the afternoon
		w.Temperature = units.FromFahrenheit(76 + 10*day + random.Float64())
		w.RelativeHumidity = units.Proportion(min(0.98, 0.66-0.25*day+0.05*random.Float64()))
		w.WindSpeed = units.Speed(max(0, 5+4*day+3*random.NormFloat64())) * units.MilePerHour
		w.Gust = new(w.WindSpeed * 1.3)
		w.WindFrom = units.Bearing(math.Mod(200+60*random.Float64(), 360)) * units.BearingDegree
		w.CloudCover = new(units.Proportion(random.Float64()))
		all[i] = feasibility.Forecast{Weather: w}
	}
	return all
}

func assessHours(t testing.TB, m feasibility.Mission, f []feasibility.Forecast) feasibility.SprayHours {
	t.Helper()
	a, err := feasibility.AssessHours(m, f)
	require.NoError(t, err)
	require.Len(t, a.Hours, len(f))
	return a
}

// neededByHour are the needed findings that make an hour bad, as the contract lists them.
var neededByHour = []finding.Code{
	drift.CodeDriftSevere, drift.CodeDepositOverAssumedTolerance, drift.CodeWindTowardSensitiveNeighbor,
	takeoff.CodeOverDensityAltitudeLimit, air.CodeWeatherImplausible,
	air.CodeAirFreezing, air.CodeInversionPossible,
}

// limitsOfHour are the rows of the table of rules that make an hour bad where they are needed; the first
// three also where it is not stated whether they are met, or not known whether it is dark.
var limitsOfHour = []string{"night-training", "night-lights", "twilight-lights", "visibility", "cloud-clearance"}

// forbids lists what of an assessment forbids the hour it was made for, by the published definition.
func forbids(a feasibility.Answer) []finding.Code {
	var codes []finding.Code
	for _, f := range a.Findings {
		if f.Severity == finding.Stop || f.Severity == finding.Needed && slices.Contains(neededByHour, f.Code) {
			codes = append(codes, f.Code)
		}
	}
	for _, item := range a.Authorizations.Items {
		broken := item.Status == permits.NeededNow && slices.Contains(limitsOfHour, item.ID)
		if broken || item.Status == permits.Unknown && slices.Contains(limitsOfHour[:3], item.ID) {
			codes = append(codes, permits.CodeOf(item.ID))
		}
	}
	slices.Sort(codes)
	return slices.Compact(codes)
}

// onDeposit are findings on what lands, which an hour forbidden by its light, air, wind or weight lacks.
var onDeposit = []finding.Code{
	drift.CodeDepositOverTolerance, drift.CodeDepositOverAssumedTolerance, drift.CodeWindTowardSensitiveNeighbor, drift.CodeDriftSevere,
}

// differs says how an hour differs from the assessment made for its weather; empty where they agree. An
// hour without a place is bad whatever else is found.
func differs(h feasibility.HourVerdict, w feasibility.Weather, a feasibility.Answer) string {
	want, got := forbids(a), slices.Sorted(slices.Values(h.BoundBy))
	if w.Latitude == nil || w.Longitude == nil {
		want = append(want, feasibility.CodeLightNotKnown)
		slices.Sort(want)
	}
	switch {
	case h.Go != (len(want) == 0):
		return fmt.Sprintf("go is %v, the assessment forbids it by %v", h.Go, want)
	case h.Grade != "" && h.Grade != a.DriftRisk.Grade:
		return fmt.Sprintf("the grade is %s, assessed %s", h.Grade, a.DriftRisk.Grade)
	case h.Go && !h.Flown:
		return "what lands was not worked out"
	}
	if !h.Flown {
		want = slices.DeleteFunc(want, func(c finding.Code) bool { return slices.Contains(onDeposit, c) })
	}
	if !slices.Equal(want, got) {
		return fmt.Sprintf("bound by %v, the assessment by %v", got, want)
	}
	return ""
}

// agrees holds every hour against an assessment of the mission with that hour's weather.
func agrees(t testing.TB, m feasibility.Mission, f []feasibility.Forecast) feasibility.SprayHours {
	t.Helper()
	a := assessHours(t, m, f)
	for i, h := range a.Hours {
		m.Weather = &f[i].Weather
		require.Empty(t, differs(h, *m.Weather, assess(t, m)), "hour %d, %s", i, h.At)
	}
	return a
}

func TestHoursAgreeWithAssessments(t *testing.T) {
	count := 336
	if testing.Short() {
		count = 48
	}
	a := agrees(t, leveeStrip(), forecasts(count))
	good := 0
	for _, h := range a.Hours {
		if h.Go {
			good++
		}
	}
	assert.Greater(t, good, count/20, "an invented June has good hours")
	assert.Less(t, good, count*3/4, "and bad ones")
	t.Log(a.Headline)
}

// Hours alike but for one reading of the weather are each judged by their own.
func TestHoursNearlyAlikeAgreeWithAssessments(t *testing.T) {
	var noons []time.Time
	for day := range 6 {
		noons = append(noons, june(12, 0).AddDate(0, 0, day))
	}
	f := steady(noons...)
	agrees(t, leveeStrip(), f)
	for name, change := range map[string]func(*feasibility.Weather){
		"wind": func(w *feasibility.Weather) { w.WindSpeed *= 1.01 }, "from": func(w *feasibility.Weather) { w.WindFrom += units.BearingDegree },
		"gust": func(w *feasibility.Weather) { w.Gust = new(*w.Gust * 1.01) }, "temperature": func(w *feasibility.Weather) { w.Temperature++ },
		"humidity": func(w *feasibility.Weather) { w.RelativeHumidity += units.Percent },
		"pressure": func(w *feasibility.Weather) { w.Pressure = new(99 * units.KilopascalAbsolute) },
		"clouds":   func(w *feasibility.Weather) { w.CloudCover = new(units.Whole) },
		"height":   func(w *feasibility.Weather) { w.WindHeight = new(7 * units.Foot) },
	} {
		f := steady(noons...)
		change(&f[2].Weather)
		t.Log(name)
		agrees(t, leveeStrip(), f)
	}
}

// An hour so hot that the load passes what thin air is estimated to leave is bad, and says so; a cool one
// with the same load is good.
func TestAnHourTooHotForTheLoadIsBad(t *testing.T) {
	m := leveeStrip()
	m.Aircraft.MaxTakeoffWeight, m.Field.Elevation = 54*units.Pound, new(1500*units.Foot)
	f := steady(june(12, 9), june(12, 14))
	f[0].Temperature, f[1].Temperature = units.FromFahrenheit(60), units.FromFahrenheit(95)
	a := agrees(t, m, f)
	assert.NotContains(t, a.Hours[0].BoundBy, takeoff.CodeOverDensityAltitudeLimit)
	assert.Contains(t, a.Hours[1].BoundBy, takeoff.CodeOverDensityAltitudeLimit)
	assert.False(t, a.Hours[1].Go)
}

// Random weather and random missions: an hour is good exactly where its assessment forbids nothing.
func TestRandomHoursAgreeWithAssessments(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := leveeStrip()
		switch rapid.IntRange(0, 7).Draw(t, "mission") {
		case 0:
			m.Operation.Lights3SM, m.Operation.NightTrained = perhapsTrue(t, "lights"), perhapsTrue(t, "trained")
		case 1:
			m.Load.Pesticide, m.Operation.Dispenses = false, new(permits.Nourishment)
		case 2:
			m.Load.Fill = nil
		case 3:
			m.Field.Neighbors[0].Tolerance, m.Field.Neighbors[0].Kind = nil, rapid.SampledFrom([]string{"crop", "apiary", "water"}).Draw(t, "neighbor")
		case 4:
			m.Operation.Airspace = permits.AirspaceD
		case 5:
			m.Aircraft.MaxTakeoffWeight = units.Mass(rapid.Float64Range(40, 60).Draw(t, "maximum")) * units.Pound
		}
		placeless := rapid.IntRange(0, 3).Draw(t, "placeless") == 0
		if placeless {
			m.Weather = nil // no place for hours that have none
		}
		f := make([]feasibility.Forecast, 4)
		at := leveeStrip().Weather.At.Add(time.Duration(rapid.IntRange(0, 24*60).Draw(t, "start")) * time.Minute)
		for i := range f {
			f[i] = feasibility.Forecast{Weather: anyWeather(t, at)}
			if placeless && rapid.Bool().Draw(t, "without") {
				f[i].Latitude, f[i].Longitude = nil, nil
			}
			at = at.Add(time.Duration(rapid.IntRange(1, 600).Draw(t, "later")) * time.Minute)
		}
		a, err := feasibility.AssessHours(m, f)
		if err != nil {
			t.Fatal(err)
		}
		for i, h := range a.Hours {
			m.Weather = &f[i].Weather
			whole, err := feasibility.Assess(m)
			if err != nil {
				t.Fatal(err)
			}
			if wrong := differs(h, *m.Weather, whole); wrong != "" {
				t.Fatalf("hour %d: %s", i, wrong)
			}
		}
	})
}

// perhapsTrue draws yes, no or not stated.
func perhapsTrue(t *rapid.T, name string) *bool {
	return rapid.SampledFrom([]*bool{nil, new(false), new(true)}).Draw(t, name)
}

// anyWeather draws the weather of an hour.
func anyWeather(t *rapid.T, at time.Time) feasibility.Weather {
	w := *leveeStrip().Weather
	w.At = &at
	w.WindSpeed = units.Speed(rapid.Float64Range(0, 18).Draw(t, "wind")) * units.MilePerHour
	w.WindFrom = units.Bearing(rapid.Float64Range(0, 359).Draw(t, "from")) * units.BearingDegree
	w.Gust = nil
	if rapid.Bool().Draw(t, "gusty") {
		w.Gust = new(1.5 * w.WindSpeed)
	}
	w.Temperature = units.FromFahrenheit(rapid.Float64Range(30, 110).Draw(t, "temperature"))
	w.RelativeHumidity = units.Proportion(rapid.Float64Range(0.05, 1).Draw(t, "humidity"))
	if rapid.Bool().Draw(t, "no clouds") {
		w.CloudCover, w.CloudBelow, w.CloudSide = nil, nil, nil
	} else {
		w.CloudCover = new(units.Proportion(rapid.Float64Range(0, 1).Draw(t, "clouds")))
		w.CloudBelow = new(units.Length(rapid.Float64Range(300, 3000).Draw(t, "below")) * units.Foot)
	}
	w.Visibility = rapid.SampledFrom([]*units.Length{nil, new(1 * units.Mile), new(10 * units.Mile)}).Draw(t, "visibility")
	w.InversionObserved = rapid.SampledFrom([]*bool{nil, new(false), new(true)}).Draw(t, "inversion")
	return w
}

// Whatever positive figures come in, the answer holds numbers and comes back.
func TestHoursBearAbsurdFigures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := leveeStrip()
		f := steady(june(9, 0), june(10, 0), june(11, 0))
		w := &f[1].Weather
		switch rapid.IntRange(0, 5).Draw(t, "what") {
		case 0:
			m.Aircraft.EmptyWeight, m.Load.Fill = units.Mass(wild(t, "empty")), nil
		case 1:
			m.Flight.Speed, m.Flight.Swath = units.Speed(wild(t, "speed")), units.Length(wild(t, "swath"))
		case 2:
			w.WindSpeed, w.Gust = units.Speed(wild(t, "wind")), new(units.Speed(wild(t, "gust")))
		case 3:
			w.Temperature, w.RelativeHumidity = units.Temperature(wild(t, "temperature")), units.Proportion(wild(t, "humidity"))
			f[2].HumidityMissing = true
		case 4:
			m.Field.Ground.Area = new(units.Area(wild(t, "area")))
			w.Pressure = new(units.AbsolutePressure(wild(t, "pressure")))
		case 5:
			w.At = new(time.Date(rapid.IntRange(1, 9999).Draw(t, "year"), 1, 1, 0, 0, 0, 0, time.UTC))
		}
		a, err := feasibility.AssessHours(m, f)
		if err != nil {
			t.Fatal(err)
		}
		walkFloats(reflect.ValueOf(a), "answer", func(path string, x float64) {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("%s is %v", path, x)
			}
		})
	})
}

func BenchmarkAssessHours(b *testing.B) {
	m, f := leveeStrip(), forecasts(336)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := feasibility.AssessHours(m, f); err != nil {
			b.Fatal(err)
		}
	}
}

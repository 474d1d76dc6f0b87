package air

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

// stabler reports the more stable of the classes that a table names ("A-B").
func stabler(classes string) Stability {
	return Stability(classes[strings.LastIndex(classes, "-")+1:])
}

func TestStabilityTable(t *testing.T) {
	t.Parallel()
	open, cloudy, covered := 30*units.Percent, 70*units.Percent, units.Whole
	columns := []struct {
		name  string
		sun   Sun
		cloud units.Proportion
	}{
		{"strong", Sun{Elevation: 65 * units.Degree}, open},
		{"moderate", Sun{Elevation: 45 * units.Degree}, open},
		{"slight", Sun{Elevation: 20 * units.Degree}, open},
		{"night_cloudy", Sun{Elevation: -20 * units.Degree, NightForStability: true, InversionHours: true}, cloudy},
		{"night_clear", Sun{Elevation: -20 * units.Degree, NightForStability: true, InversionHours: true}, open},
	}
	for _, r := range published(t, "stability-classes.csv") {
		from := units.Speed(r.number(t, "wind_from"))
		winds := []units.Speed{from, from + 0.5}
		if r["wind_to"] != "" {
			winds = append(winds, units.Speed(r.number(t, "wind_to"))-0.01)
		}
		for _, wind := range winds {
			for _, column := range columns {
				assert.Equal(t, stabler(r[column.name]), inferredClass(wind, &column.sun, &column.cloud), "%s, wind %v", column.name, wind)
				assert.Equal(t, Neutral, inferredClass(wind, &column.sun, &covered), "overcast, wind %v", wind)
			}
		}
	}
}

func TestCloudWeakensTheSun(t *testing.T) {
	t.Parallel()
	cases := []struct {
		name      string
		elevation units.Angle
		cloud     units.Proportion
		want      Stability
	}{
		{"strong sun, clear", 70, 0, VeryUnstable},
		{"strong sun, half covered", 70, 0.5, VeryUnstable},
		{"strong sun, over half covered, as moderate", 70, 0.6, Unstable},
		{"slight sun, over half covered, as weak", 20, 0.8, SlightlyUnstable},
		{"exactly 60 degrees is moderate", 60, 0, Unstable},
		{"below 15 degrees", 12, 0, SlightlyUnstable},
		{"below 15 degrees, over half covered", 12, 0.9, SlightlyUnstable},
		{"just short of overcast", 70, 0.94, Unstable},
		{"overcast", 70, 0.95, Neutral},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			assert.Equal(t, tc.want, inferredClass(1, &Sun{Elevation: tc.elevation * units.Degree}, &tc.cloud))
		})
	}
}

func TestUnknownSkyIsReadAsTheStablerOne(t *testing.T) {
	t.Parallel()
	assert.Equal(t, Neutral, inferredClass(1, nil, nil))
	night, day := &Sun{NightForStability: true}, &Sun{Elevation: 70 * units.Degree}
	for _, wind := range []units.Speed{0, 1, 2, 2.5, 3, 4, 5, 5.5, 6, 20} {
		for _, cloud := range []units.Proportion{0, 0.3, 0.5, 0.7, 1} {
			assert.GreaterOrEqual(t, inferredClass(wind, night, nil), inferredClass(wind, night, &cloud))
			assert.GreaterOrEqual(t, inferredClass(wind, day, nil), inferredClass(wind, day, &cloud))
		}
	}
}

func TestTableRowsAreCited(t *testing.T) {
	t.Parallel()
	for _, row := range append([]windRow{strongestWind}, pasquillTable...) {
		assert.NotEmpty(t, row.source)
	}
	for _, row := range golderTable {
		assert.NotEmpty(t, row.source)
	}
	for _, row := range sunTable {
		assert.NotEmpty(t, row.source)
	}
	for _, row := range ratioClasses {
		assert.NotEmpty(t, row.source)
	}
}

func TestObukhovLength(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "obukhov-length.csv") {
		t.Run(r["class"]+" over "+r["roughness_m"]+" m", func(t *testing.T) {
			got := inverseObukhov(Stability(r["class"]), units.Length(r.number(t, "roughness_m")))
			if r["length_m"] == "" {
				assert.Zero(t, got)
				return
			}
			printed := 0.05
			if !strings.Contains(r["length_m"], ".") {
				printed = 0.5
			}
			assert.InDelta(t, r.number(t, "length_m"), 1/got.In(PerMeter), printed, "L, m")
		})
	}
	assert.Zero(t, inverseObukhov("", 0.1), "no class is neutral")
	assert.Equal(t, inverseObukhov(Stable, 0.5), inverseObukhov(Stable, 3), "held at the roughest surface of the fit")
}

func TestObukhovLengthKeepsItsSign(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		roughness := units.Length(rapid.Float64Range(barestRoughness.SI(), 5).Draw(r, "roughness"))
		require.Negative(r, inverseObukhov(VeryUnstable, roughness))
		require.Negative(r, inverseObukhov(Unstable, roughness))
		require.Negative(r, inverseObukhov(SlightlyUnstable, roughness))
		require.Positive(r, inverseObukhov(SlightlyStable, roughness))
		require.Greater(r, inverseObukhov(Stable, roughness), inverseObukhov(SlightlyStable, roughness))
	})
}

func TestStabilityRatio(t *testing.T) {
	t.Parallel()
	classes := map[string]Stability{"very stable": Stable, "stable": SlightlyStable, "neutral": Neutral, "unstable": SlightlyUnstable}
	for _, r := range published(t, "stability-ratio.csv") {
		d, wind := units.TemperatureDifference(r.number(t, "difference_c")), units.Speed(r.number(t, "wind_m_s"))
		assert.InDelta(t, r.number(t, "ratio"), ratioOf(d, wind), 0.005)
		pair := Lapse{units.FromCelsius(20), units.FromCelsius(20).Plus(d), ratioLower, ratioUpper}
		class, ok := pair.class(wind)
		require.True(t, ok)
		assert.Equal(t, classes[r["class"]], class)
	}
}

func TestStabilityRatioAtItsEdges(t *testing.T) {
	t.Parallel()
	cases := []struct {
		name  string
		upper units.TemperatureDifference
		wind  units.Speed
		want  Stability
	}{
		{"far beyond stable", 3, 0.2, Stable},
		{"dead calm and warmer above", 0.2, 0, Stable},
		{"neutral", 0.05, 5, Neutral},
		{"unstable, stronger half", -0.4, 2, Unstable},
		{"beyond unstable", -1, 1, VeryUnstable},
		{"dead calm and cooler above", -0.2, 0, VeryUnstable},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			class, ok := Lapse{units.FromCelsius(20), units.FromCelsius(20).Plus(tc.upper), ratioLower, ratioUpper}.class(tc.wind)
			require.True(t, ok)
			assert.Equal(t, tc.want, class)
		})
	}
}

func TestMeasuredPairDecidesTheClass(t *testing.T) {
	t.Parallel()
	o := fairDay()
	o.Lapse = &Lapse{units.FromCelsius(24), units.FromCelsius(26), 2.5, 10}
	s := Observe(o)
	assert.False(t, s.StabilityInferred)
	assert.Equal(t, SlightlyStable, s.Stability)
	// Written upside down it means the same.
	o.Lapse = &Lapse{units.FromCelsius(26), units.FromCelsius(24), 10, 2.5}
	assert.Equal(t, s.Stability, Observe(o).Stability)
}

package feasibility_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

func assess(t testing.TB, m feasibility.Mission) feasibility.Answer {
	t.Helper()
	a, err := feasibility.Assess(m)
	require.NoError(t, err)
	return a
}

func codes(a feasibility.Answer, s finding.Severity) []finding.Code {
	var found []finding.Code
	for _, f := range a.Findings {
		if f.Severity == s {
			found = append(found, f.Code)
		}
	}
	return found
}

// The weights, the margin and the flow follow from the definitions alone: 24.0 + 10.5 + 2.0 x 8.345
// lb, and 2 x 10 x 13 / 495 gal/min (Mesa County, Stationary calibration method for boom sprayers);
// the pressure from the square law (ch. 11 of the national core applicator manual).
func TestTheMainJob(t *testing.T) {
	a := assess(t, leveeStrip())
	assert.InDelta(t, 51.19, a.TakeoffWeight.Total.In(units.Pound), 0.005)
	limit := a.TakeoffWeight.Limits[0]
	assert.Equal(t, takeoff.SmallUnmannedAircraft, limit.Code)
	assert.InDelta(t, 3.81, limit.Margin.In(units.Pound), 0.005)
	assert.InDelta(t, 2.457, a.TakeoffWeight.LargestFill.Volume.In(units.Gallon), 0.0005)
	assert.Equal(t, takeoff.SmallUnmannedAircraft, a.TakeoffWeight.LargestFill.BoundBy)
	assert.InDelta(t, 0.5253, a.RatePressure.FlowTotal.In(units.GallonPerMinute), 0.00005)
	assert.InDelta(t, 30.7, a.RatePressure.Pressure.In(units.PoundPerSquareInch), 0.05)
	assert.True(t, a.SortiePlan.Feasible)
	assert.NotEmpty(t, a.Headline)
	assert.NotEmpty(t, a.Assumptions)
	assert.NotEmpty(t, a.Cautions)
	assert.NotEmpty(t, a.Sources)
	t.Log(a.Headline)
	for _, f := range a.Findings {
		t.Logf("%-8s %-34s %s", f.Severity, f.Code, f.Message)
	}
}

func TestAssessIsDeterministicAndLeavesTheMissionAlone(t *testing.T) {
	m := leveeStrip()
	before := fmt.Sprintf("%#v %#v", *m.Load.Fill, *m.Flight)
	first, second := assess(t, m), assess(t, m)
	assert.Equal(t, first, second)
	assert.Equal(t, before, fmt.Sprintf("%#v %#v", *m.Load.Fill, *m.Flight))
	assert.Equal(t, leveeStrip(), m)
}

func TestMissingPartsAreNamed(t *testing.T) {
	for name, call := range map[string]func(feasibility.Mission) (feasibility.Answer, error){
		"assess":         feasibility.Assess,
		"takeoff weight": feasibility.AssessTakeoffWeight,
		"rate pressure":  feasibility.AssessRatePressure,
		"drift risk":     feasibility.AssessDriftRisk,
		"sortie plan":    feasibility.AssessSortiePlan,
		"authorizations": feasibility.AssessAuthorizations,
	} {
		t.Run(name, func(t *testing.T) {
			_, err := call(feasibility.Mission{})
			require.Error(t, err)
			assert.Contains(t, err.Error(), "mission lacks")
		})
	}
}

func TestPartsAgreeWithTheWhole(t *testing.T) {
	m := leveeStrip()
	whole := assess(t, m)
	weight, err := feasibility.AssessTakeoffWeight(m)
	require.NoError(t, err)
	assert.Equal(t, whole.TakeoffWeight, weight.TakeoffWeight)
	rate, err := feasibility.AssessRatePressure(m)
	require.NoError(t, err)
	assert.Equal(t, whole.RatePressure, rate.RatePressure)
	plan, err := feasibility.AssessSortiePlan(m)
	require.NoError(t, err)
	assert.Equal(t, whole.SortiePlan, plan.SortiePlan)
	assert.Equal(t, whole.CrewPlan, plan.CrewPlan)
	papers, err := feasibility.AssessAuthorizations(m)
	require.NoError(t, err)
	assert.Equal(t, whole.Authorizations.Regime, papers.Authorizations.Regime)
	risk, err := feasibility.AssessDriftRisk(m)
	require.NoError(t, err)
	assert.Equal(t, whole.DriftRisk, risk.DriftRisk)
}

func TestPartsRunOnTheFactsAtHand(t *testing.T) {
	full := leveeStrip()
	bare := feasibility.Mission{Aircraft: full.Aircraft, SpraySystem: full.SpraySystem, Load: full.Load, Flight: full.Flight, Field: full.Field}
	weight, err := feasibility.AssessTakeoffWeight(bare)
	require.NoError(t, err)
	assert.InDelta(t, 51.19, weight.TakeoffWeight.Total.In(units.Pound), 0.005)
	assert.Contains(t, subjects(weight), "/weather", "air not stated is an assumption, not a silence")
	plan, err := feasibility.AssessSortiePlan(bare)
	require.NoError(t, err)
	assert.True(t, plan.SortiePlan.Feasible)
	bare.Aircraft, bare.Weather = nil, full.Weather
	risk, err := feasibility.AssessDriftRisk(bare)
	require.NoError(t, err)
	assert.NotEmpty(t, risk.DriftRisk.Deposit)
	full.Weather, full.Flight, full.SpraySystem = nil, nil, nil
	papers, err := feasibility.AssessAuthorizations(full)
	require.NoError(t, err)
	assert.NotEmpty(t, papers.Authorizations.Items)
}

func subjects(a feasibility.Answer) []string {
	var all []string
	for _, s := range a.Assumptions {
		all = append(all, s.Subject)
	}
	return all
}

func TestFindingsComeGravestFirstAndAreComplete(t *testing.T) {
	m := leveeStrip()
	m.Flight.Speed = 30 * units.MilePerHour
	m.Operation.Holds = nil
	a := assess(t, m)
	for i, f := range a.Findings {
		if i > 0 {
			assert.LessOrEqual(t, a.Findings[i-1].Severity.Rank(), f.Severity.Rank())
		}
		assert.NotEmpty(t, f.Message, f.Code)
		assert.True(t, f.Source.Cited(), "%s has no source", f.Code)
		assert.Regexp(t, `^(/[a-z0-9_]+)*$`, f.Subject, f.Code)
	}
	seen := map[string]bool{}
	for _, s := range a.Sources {
		assert.False(t, seen[s.ID], "source %s twice", s.ID)
		seen[s.ID] = true
	}
	for _, f := range a.Findings {
		assert.True(t, seen[f.Source.ID], "source %s of %s is not listed", f.Source.ID, f.Code)
	}
}

func TestEveryFigureIsFiniteAndRounded(t *testing.T) {
	walkFloats(reflect.ValueOf(assess(t, leveeStrip())), "answer", func(path string, x float64) {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Errorf("%s is %v", path, x)
		}
		if again := float64(units.Significant(units.Mass(x), 9)); again != x {
			t.Errorf("%s = %.17g leaves with more than nine digits", path, x)
		}
	})
}

// walkFloats visits every exported float of a value.
func walkFloats(v reflect.Value, path string, visit func(string, float64)) {
	switch v.Kind() {
	case reflect.Float64:
		visit(path, v.Float())
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				walkFloats(v.Field(i), path+"."+v.Type().Field(i).Name, visit)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			walkFloats(v.Index(i), fmt.Sprintf("%s[%d]", path, i), visit)
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			walkFloats(v.Elem(), path, visit)
		}
	}
}

func BenchmarkAssess(b *testing.B) {
	m := leveeStrip()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := feasibility.Assess(m); err != nil {
			b.Fatal(err)
		}
	}
}

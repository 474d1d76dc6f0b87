package permits

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/units"
)

// The truth tables of strong Kleene logic: Kleene 1952, Introduction to Metamathematics, section 64.
func TestTruthTables(t *testing.T) {
	t.Parallel()
	var texts scribe
	y, n, u := Judgment{Truth: Yes}, Judgment{Truth: No}, Judgment{Truth: CannotTell}
	for _, row := range []struct {
		a, b    Judgment
		and, or Truth
	}{
		{y, y, Yes, Yes}, {y, n, No, Yes}, {y, u, CannotTell, Yes},
		{n, y, No, Yes}, {n, n, No, No}, {n, u, No, CannotTell},
		{u, y, CannotTell, Yes}, {u, n, No, CannotTell}, {u, u, CannotTell, CannotTell},
	} {
		assert.Equal(t, row.and, texts.and(row.a, row.b).Truth, "%s and %s", row.a.Truth, row.b.Truth)
		assert.Equal(t, row.or, texts.or(row.a, row.b).Truth, "%s or %s", row.a.Truth, row.b.Truth)
	}
	assert.Equal(t, No, Not(y).Truth)
	assert.Equal(t, Yes, Not(n).Truth)
	assert.Equal(t, CannotTell, Not(u).Truth)
	assert.Equal(t, CannotTell, Judgment{}.Truth, "a condition forgotten is unknown")
}

func TestJudgment_keepsTheReasonsThatDecide(t *testing.T) {
	t.Parallel()
	var texts scribe
	wet := fact(true, "/a", "wet", "dry")
	cold := fact(false, "/b", "cold", "warm")
	who := missing("who", "/c", "/a")
	assert.Equal(t, "warm", texts.and(wet, who, cold).Because)
	assert.Equal(t, "who", texts.and(wet, who).Because)
	or := texts.or(cold, who, who)
	assert.Equal(t, []string{"/c", "/a"}, or.Pointers.list())
	assert.Equal(t, "wet", texts.or(wet, who, cold, wet).Because)
}

func TestBounds_equalIsInside(t *testing.T) {
	t.Parallel()
	limit := 400 * units.Foot
	for _, tc := range []struct {
		measured    units.Length
		over, under Truth
	}{
		{limit, No, No},
		{limit * (1 + units.Tolerance/2), No, No},
		{limit * (1 + 3*units.Tolerance), Yes, No},
		{limit * (1 - 3*units.Tolerance), No, Yes},
	} {
		assert.Equal(t, tc.over, over(&view{}, tc.measured, limit, "/x", "").Truth, tc.measured)
		assert.Equal(t, tc.under, under(&view{}, tc.measured, limit, "/x", "").Truth, tc.measured)
	}
	assert.Zero(t, over(&view{}, limit, limit, "/x", "").Compared.Margin.SI())
	assert.InDelta(t, (100 * units.Foot).SI(), over(&view{}, 300*units.Foot, limit, "/x", "").Compared.Margin.SI(), 1e-9)
}

func TestTruth_words(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "yes no cannot tell", Yes.String()+" "+No.String()+" "+CannotTell.String())
}

func TestFigure(t *testing.T) {
	t.Parallel()
	for want, x := range map[string]float64{"0": 0, "54.98": 54.98329, "3.81": 3.81001, "100": 100, "1e-09": 1e-9, "1e+12": 1e12, "-0.25": -0.25} {
		assert.Equal(t, want, figure(x))
	}
	for want, x := range map[string]float64{"54.9833": 54.98329, "55.0001": 55.0001, "55.000001": 55.000001, "55": 55, "51.19": 51.19} {
		assert.Equal(t, want, beside(x, 55))
	}
}

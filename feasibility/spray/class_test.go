package spray

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

func TestClassOrder(t *testing.T) {
	t.Parallel()
	order := []Class{ExtremelyFine, VeryFine, Fine, Medium, Coarse, VeryCoarse, ExtremelyCoarse, UltraCoarse}
	for i, c := range order {
		assert.True(t, c.Known())
		for j, other := range order {
			assert.Equal(t, i > j, c.CoarserThan(other), "%s against %s", c, other)
		}
	}
	assert.False(t, Class("").Known())
	assert.False(t, Coarse.CoarserThan("mist"))
	assert.False(t, Class("mist").CoarserThan(Fine))
}

func TestClassify(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name         string
		by           scale
		dv05         float64
		class, other Class
	}{
		{"finest", modelScale, 20, ExtremelyFine, ""},
		{"on a boundary is the coarser", modelScale, 236, Medium, Fine},
		{"a hair under by rounding is on it", modelScale, 236 * (1 - 1e-12), Medium, Fine},
		{"just under", modelScale, 235.9, Fine, Medium},
		{"10 % under", modelScale, 236 * 0.9, Fine, Medium},
		{"over 10 % under", modelScale, 236 * 0.899, Fine, ""},
		{"10 % over", modelScale, 236 * 1.1, Medium, Fine},
		{"over 10 % over", modelScale, 236 * 1.101, Medium, ""},
		{"nearer boundary of a narrow class, below", modelScale, 360, Coarse, Medium},
		{"nearer boundary of a narrow class, above", modelScale, 385, Coarse, VeryCoarse},
		{"coarsest", modelScale, 900, UltraCoarse, ""},
		{"coarsest, near", modelScale, 670, UltraCoarse, ExtremelyCoarse},
		{"zero", modelScale, 0, ExtremelyFine, ""},
		{"model scale has 504", modelScale, 503, VeryCoarse, ExtremelyCoarse},
		{"measured scale has 502", measuredScale, 503, ExtremelyCoarse, VeryCoarse},
		{"tables disagree", measuredScale, 120, VeryFine, Fine},
		{"tables disagree only when measured", modelScale, 120, VeryFine, ""},
		{"tables agree below 105", measuredScale, 100, VeryFine, ""},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			class, other := tc.by.classify(units.Length(tc.dv05) * um)
			assert.Equal(t, tc.class, class)
			assert.Equal(t, tc.other, other)
		})
	}
}

func TestClassMiddleLiesInTheClass(t *testing.T) {
	t.Parallel()
	last := units.Length(0)
	for _, r := range DropletClasses() {
		middle, half := r.Class.middle()
		class, _ := modelScale.classify(middle)
		assert.Equal(t, r.Class, class)
		assert.Greater(t, middle, last)
		assert.GreaterOrEqual(t, half, units.Proportion(0))
		last = middle
	}
}

func TestCoarserSizeIsNeverAFinerClass(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		a := units.Length(rapid.Float64Range(0, 1500).Draw(t, "a")) * um
		b := units.Length(rapid.Float64Range(0, 1500).Draw(t, "b")) * um
		by := scale(rapid.Bool().Draw(t, "measured"))
		if a > b {
			a, b = b, a
		}
		fine, _ := by.classify(a)
		coarse, other := by.classify(b)
		if fine.CoarserThan(coarse) {
			t.Fatalf("%v is %s but %v is %s", a, fine, b, coarse)
		}
		if other == coarse {
			t.Fatalf("the other class of %v is its own", b)
		}
	})
}

func TestTablesAreCopies(t *testing.T) {
	t.Parallel()
	classes, sizes := DropletClasses(), NozzleSizes()
	classes[0].Symbol, sizes[0].Code = "changed", "changed"
	assert.Equal(t, "XF", DropletClasses()[0].Symbol)
	assert.Equal(t, "005", NozzleSizes()[0].Code)
}

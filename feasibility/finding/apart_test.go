package finding_test

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/finding"
)

func TestApart(t *testing.T) {
	decimals := func(x float64, more int) string { return strconv.FormatFloat(x, 'f', 1+more, 64) }
	for _, tc := range []struct {
		name            string
		measured, limit float64
		want            int
	}{
		{"the usual digits do", 14.8, 15, 0},
		{"one more", 1.96, 2, 1},
		{"three more", 10.0003, 10, 3},
		{"from below", 9.9996, 10, 3},
		{"equal", 10, 10, 0},
		{"equal within the tolerance", 10 * (1 + 1e-12), 10, 0},
		{"nearer than any digits show", 10 * (1 + 3e-9), 10, 7},
		{"no number", math.NaN(), 10, 0},
	} {
		t.Run(tc.name, func(t *testing.T) {
			measured, limit, more := finding.Apart(tc.measured, tc.limit, decimals)
			assert.Equal(t, tc.want, more)
			assert.Equal(t, decimals(tc.measured, more), measured)
			assert.Equal(t, decimals(tc.limit, more), limit)
		})
	}
}

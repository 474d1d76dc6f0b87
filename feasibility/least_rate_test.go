package feasibility_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// A plan of sorties asked for alone keeps the label's least rate too, or says that it does not know it.
func TestSortiePlanKeepsTheLabelsRate(t *testing.T) {
	t.Parallel()
	for name, tc := range map[string]struct {
		least      *units.ApplicationRate
		pesticide  bool
		told, take bool
	}{
		"under":     {new(5 * units.GallonPerAcre), true, true, false},
		"at":        {new(leveeStrip().Load.ApplicationRate), true, false, false},
		"unknown":   {nil, true, false, true},
		"not bound": {new(5 * units.GallonPerAcre), false, false, false},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			m := leveeStrip()
			m.Load.Pesticide, m.Load.Label.MinRate = tc.pesticide, tc.least
			plan, err := feasibility.AssessSortiePlan(m)
			require.NoError(t, err)
			told := false
			for _, f := range plan.Findings {
				if f.Code == feasibility.CodeRateUnderLabel {
					told = true
					assert.Equal(t, finding.Stop, f.Severity)
					assert.Equal(t, "product-label", f.Source.ID)
					assert.Contains(t, f.Message, "5 gal/ac")
				}
			}
			assert.Equal(t, tc.told, told)
			taken := false
			for _, a := range plan.Assumptions {
				taken = taken || a.Subject == "/load/product_label/min_rate"
			}
			assert.Equal(t, tc.take, taken)
		})
	}
}

package feasibility_test

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

// A fill left open goes past the 55 lb line only under an authority that is valid on the day.
func TestAnOpenFillPassesTheLineOnlyUnderAValidAuthority(t *testing.T) {
	lastYear := time.Date(2025, time.June, 1, 0, 0, 0, 0, time.UTC)
	for name, tc := range map[string]struct {
		purpose  permits.Purpose
		hold     string
		expiries []permits.Expiry
		small    bool
	}{
		"nothing held":        {permits.Commercial, "", nil, true},
		"exemption":           {permits.Commercial, "exemption-large-agricultural", nil, false},
		"expired exemption":   {permits.Commercial, "exemption-large-agricultural", []permits.Expiry{{ID: "exemption-large-agricultural", Date: lastYear}}, true},
		"public authority":    {permits.Public, "public-operation-authority", nil, false},
		"authority, commerce": {permits.Commercial, "public-operation-authority", nil, true},
	} {
		t.Run(name, func(t *testing.T) {
			m := leveeStrip()
			m.Load.Fill = nil
			m.Operation.Purpose, m.Operation.Expiries = tc.purpose, tc.expiries
			m.Operation.Holds = append(m.Operation.Holds, tc.hold)
			a := assess(t, m)
			assert.Equal(t, tc.small, a.TakeoffWeight.Small)
			assert.NotContains(t, codes(a, finding.Needed), takeoff.CodeOverSmallLimit)
		})
	}
}

func TestTheLineItselfIsNoPaper(t *testing.T) {
	m := leveeStrip()
	m.Operation.Holds = nil
	m.Aircraft.EmptyWeight, m.Aircraft.MaxTakeoffWeight = 60*units.Pound, 120*units.Pound
	a := assess(t, m)
	open := 0
	for _, item := range a.Authorizations.Items {
		asked := item.Status == permits.NeededNow || item.Status == permits.Unknown
		if asked && (item.Kind == permits.Permit || item.Kind == permits.Limit) && item.ID != "weight-small-limit" {
			open++
		}
	}
	require.Greater(t, open, 2)
	assert.Contains(t, a.Headline, "get or confirm the "+units.Count(open).String()+" permits and checks on the list")
}

func TestAFillAcrossTheLineSaysThatOtherPapersCount(t *testing.T) {
	m := leveeStrip()
	m.Load.Fill = new(2.6 * units.Gallon)
	a := assess(t, m)
	require.NotEmpty(t, a.Remedies)
	assert.Contains(t, a.Remedies[0].Costs, "other papers count, those for under 55 lb")
}

func TestAFillNotWorthFlyingIsNoRemedy(t *testing.T) {
	m := leveeStrip()
	m.Aircraft.EmptyWeight = 44.4 * units.Pound // leaves 0.012 gal under the line
	a := assess(t, m)
	require.Contains(t, codes(a, finding.Stop), takeoff.CodeOverMakerMaximum)
	assert.Empty(t, a.Remedies)
	assert.Equal(t, feasibility.No, a.Verdict)
}

func TestANeededPointOfTheSprayIsRemediedToo(t *testing.T) {
	m := leveeStrip()
	m.Flight.Height = 60 * units.Foot
	m.Load.Label.MaxReleaseHeight = new(80 * units.Foot)
	a := assess(t, m)
	require.Contains(t, codes(a, finding.Needed), drift.CodeDriftSevere)
	require.NotEmpty(t, a.Remedies)
	lifted := a.Remedies[0].Lifts
	assert.Contains(t, lifted, drift.CodeDriftSevere)
	assert.NotContains(t, codes(assess(t, applied(t, m, a.Remedies[0])), finding.Needed), drift.CodeDriftSevere)
}

func TestALabelNotReadIsSaidUpFront(t *testing.T) {
	m := leveeStrip()
	m.Load.Label.AerialAllowed = nil
	assert.Contains(t, assess(t, m).Headline, "make sure that the label allows spraying by air and by drone")
}

func TestDiscsTooFastAreSlowedDown(t *testing.T) {
	m := leveeStrip()
	m.SpraySystem = &feasibility.SpraySystem{System: spray.System{
		Atomizer: spray.RotaryAtomizer, Count: 4,
		Rotary: &spray.Rotary{
			DiscDiameter: 7 * units.Centimeter, Rotation: 12000 * units.RevolutionPerMinute,
			MinRotation: new(3000 * units.RevolutionPerMinute), MaxRotation: new(16000 * units.RevolutionPerMinute),
		},
	}}
	m.Load.Label.DropletClassMin = new(spray.Fine)
	a := assess(t, m)
	require.NotEmpty(t, codes(a, finding.Stop))
	slowed := slices.IndexFunc(a.Remedies, func(r feasibility.Remedy) bool {
		return r.Changes[0].Pointer == "/spray_system/rotary/rotation"
	})
	require.GreaterOrEqual(t, slowed, 0, "%v", codes(a, finding.Stop))
	then := codes(assess(t, applied(t, m, a.Remedies[slowed])), finding.Stop)
	for _, lifted := range a.Remedies[slowed].Lifts {
		assert.NotContains(t, then, lifted)
	}
}

package permits

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// itemOf finds an item that must be there.
func itemOf(t *testing.T, c Checklist, id string) Item {
	t.Helper()
	at := slices.IndexFunc(c.Items, func(i Item) bool { return i.ID == id })
	require.GreaterOrEqual(t, at, 0, "item %s is missing", id)
	return c.Items[at]
}

// findingOf finds a finding that must be there.
func findingOf(t *testing.T, c Checklist, code finding.Code) finding.Finding {
	t.Helper()
	at := slices.IndexFunc(c.Findings, func(f finding.Finding) bool { return f.Code == code })
	require.GreaterOrEqual(t, at, 0, "finding %s is missing", code)
	return c.Findings[at]
}

func TestCheck_expiries(t *testing.T) {
	t.Parallel()
	flown := time.Date(2026, 12, 1, 23, 30, 0, 0, time.FixedZone("west", -6*3600))
	for _, tc := range []struct {
		name    string
		at      *time.Time
		expiry  *time.Time
		want    Status
		because string
	}{
		{"valid", &flown, new(time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC)), Held, "valid through 2027-01-01"},
		{"last day", &flown, new(time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)), Held, "valid through 2026-12-01"},
		{"the day after", &flown, new(time.Date(2026, 11, 30, 0, 0, 0, 0, time.UTC)), NeededNow, "expired on 2026-11-30"},
		{"no expiry", &flown, nil, Held, "no expiry date was sent"},
		{"no date of the job", nil, new(time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)), Unknown, "so it cannot be checked"},
		{"neither", nil, nil, Held, "no expiry date was sent"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			f := fullJob(false)
			f.At, f.Holds = tc.at, []string{"recurrent-training"}
			if tc.expiry != nil {
				f.Expiries = []Expiry{{ID: "remote-id", Date: flown}, {ID: "recurrent-training", Date: *tc.expiry}}
			}
			c := Check(f)
			item := itemOf(t, c, "recurrent-training")
			assert.Equal(t, tc.want, item.Status)
			assert.Contains(t, item.Because, tc.because)
			if tc.want == Unknown {
				assert.Equal(t, []string{"/weather/at"}, item.Missing)
				assert.Equal(t, finding.Needed, findingOf(t, c, CodeOf(item.ID)).Severity)
			}
			if tc.want == NeededNow {
				assert.Equal(t, "/operation/expiries", findingOf(t, c, CodeOf(item.ID)).Subject)
			}
		})
	}
}

func TestCheck_expiryOfVariantAndOfUnknownRow(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.Holds = []string{"agricultural-operator-certificate:commercial", "species-bulletin"}
	f.Expiries = []Expiry{
		{ID: "agricultural-operator-certificate", Date: f.At.AddDate(1, 0, 0)},
		{ID: "agricultural-operator-certificate", Date: f.At.AddDate(0, -1, 0)}, // the earlier of two counts
		{ID: "species-bulletin", Date: f.At.AddDate(0, -1, 0)},
	}
	f.Label.BulletinRequired = nil
	c := Check(f)
	assert.Equal(t, NeededNow, itemOf(t, c, "agricultural-operator-certificate").Status)
	assert.Contains(t, itemOf(t, c, "species-bulletin").Because, "expired on")
	f.Expiries = nil
	assert.Contains(t, itemOf(t, Check(f), "species-bulletin").Because, "counts once the rest is known")
}

// An undated holding settles the row where another one waits for the date of the job.
func TestCheck_validBeforeOpen(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.At, f.Holds = nil, []string{"registration-small", "registration-large"}
	f.Expiries = []Expiry{{ID: "registration-small", Date: time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)}}
	item := itemOf(t, Check(f), "registration-small")
	assert.Equal(t, Held, item.Status)
	assert.Contains(t, item.Because, "you hold registration-large")
	f.Holds = f.Holds[:1]
	assert.Equal(t, Unknown, itemOf(t, Check(f), "registration-small").Status)
}

func TestAllowsLarge_dates(t *testing.T) {
	t.Parallel()
	f := fullJob(true)
	assert.False(t, AllowsLarge(f))
	f.Holds = []string{"exemption-large-agricultural"}
	assert.True(t, AllowsLarge(f))
	f.Expiries = []Expiry{{ID: "exemption-large-agricultural", Date: f.At.AddDate(0, 0, 1)}}
	assert.True(t, AllowsLarge(f))
	f.At = nil
	assert.False(t, AllowsLarge(f), "nobody can tell whether it has run out")
}

// A date under an id that is not held dates nothing, and the caller hears of it.
func TestCheck_expiriesNotMatched(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.Holds = []string{"remote-id", "waiver:over-people", "agricultural-operator-certificate:commercial"}
	day := f.At.AddDate(1, 0, 0)
	f.Expiries = []Expiry{
		{ID: "remote-id", Date: day}, {ID: "remote_id", Date: day}, {ID: "over-people", Date: day},
		{ID: "waiver:over-people", Date: day}, {ID: "agricultural-operator-certificate", Date: day}, {ID: "waiver", Date: day},
	}
	var subjects []string
	for _, found := range Check(f).Findings {
		if found.Code == CodeExpiryUnmatched {
			subjects = append(subjects, found.Subject)
			assert.Equal(t, finding.Caution, found.Severity)
		}
	}
	assert.Equal(t, []string{"/operation/expiries/1", "/operation/expiries/2", "/operation/expiries/5"}, subjects)
}

func TestCheck_order(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.Holds = []string{"recurrent-training"}
	f.LineOfSight, f.Aircraft, f.RemotePilots = true, 2, nil
	c := Check(f)
	assert.Equal(t, "weight-small-limit", c.Items[0].ID)
	var pilots []Status
	for _, item := range c.Items {
		if item.Group == GroupPilot {
			pilots = append(pilots, item.Status)
		}
	}
	assert.True(t, slices.IsSortedFunc(pilots, func(a, b Status) int { return a.rank() - b.rank() }), "%v", pilots)
	assert.Equal(t, []Status{NeededNow, Unknown, Held, NotNeeded}, slices.Compact(pilots))
}

func TestCheck_severities(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.Label.AerialAllowed, f.Label.MinRate = new(false), nil
	f.Airspace = AirspaceUnknown
	c := Check(f)
	for id, want := range map[string]finding.Severity{
		"label-aerial": finding.Stop, "label-minimum-rate": finding.Caution,
		"airspace-authorization": finding.Needed, "remote-id": finding.Needed,
	} {
		assert.Equal(t, want, findingOf(t, c, CodeOf(id)).Severity, id)
	}
	assert.Equal(t, "/load/product_label/aerial_allowed", findingOf(t, c, "permit_label_aerial").Subject)
	assert.Equal(t, "/load/product_label/min_rate", findingOf(t, c, "permit_label_minimum_rate").Subject)
	assert.Equal(t, "/operation/airspace", findingOf(t, c, "permit_airspace_authorization").Subject)
	assert.Equal(t, "/operation/holds", findingOf(t, c, "permit_remote_id").Subject)
	duties := findingOf(t, c, CodeDutiesEachJob)
	assert.Equal(t, finding.Note, duties.Severity)
	assert.Regexp(t, `^\d+ duties come with this job`, duties.Message)
}

func TestCheck_limitFindingCarriesTheFigures(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.HeightAGL = 450 * units.Foot
	found := findingOf(t, Check(f), "permit_height_limit")
	assert.Equal(t, finding.Needed, found.Severity)
	assert.Equal(t, "/flight/height", found.Subject)
	assert.InDelta(t, 450, found.Measured.(units.Length).In(units.Foot), 1e-9)
	assert.InDelta(t, 400, found.Limit.(units.Length).In(units.Foot), 1e-9)
	assert.InDelta(t, -50, found.Margin.(units.Length).In(units.Foot), 1e-3)
	assert.Contains(t, found.Message, "450 ft")
	assert.Contains(t, found.Message, "apply 90 days ahead")
}

func TestCheck_exclusionZoneFinding(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.EmployeesNear = new(true)
	f.Neighbors = []Neighbor{{Kind: "water", Distance: 5}, {Kind: "road", Distance: 40}, {Kind: "dwelling", Distance: 20}}
	found := findingOf(t, Check(f), "permit_exclusion_zone")
	assert.Equal(t, finding.Caution, found.Severity)
	assert.Contains(t, found.Message, "stop while anyone is outdoors there")
	assert.Contains(t, found.Message, "employees work near")
	assert.Equal(t, units.Length(20), found.Measured)
	f.Neighbors[2].Distance = 31
	assert.False(t, slices.ContainsFunc(Check(f).Findings, func(found finding.Finding) bool { return found.Code == "permit_exclusion_zone" }))
}

func TestCheck_holdsNotRecognized(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.Holds = []string{"remote-id", "drivers-license", "waiver:hazmat-relief", "line-of-sight", "label-aerial", "waiver:weight-small-limit"}
	var subjects, messages []string
	for _, found := range Check(f).Findings {
		if found.Code == CodeHoldingUnrecognized {
			subjects = append(subjects, found.Subject)
			messages = append(messages, found.Message)
		}
	}
	require.Equal(t, []string{"/operation/holds/1", "/operation/holds/2", "/operation/holds/3", "/operation/holds/4", "/operation/holds/5"}, subjects)
	assert.Contains(t, messages[0], "not an id of this table")
	assert.Contains(t, messages[1], "no waiver lifts")
	assert.Contains(t, messages[2], `"waiver:line-of-sight"`)
	assert.Contains(t, messages[3], "nothing that can be held lifts it")
	assert.Contains(t, messages[4], "no waiver lifts")
}

func TestCheck_notices(t *testing.T) {
	t.Parallel()
	shown := func(f Facts) (ids []string) {
		for _, item := range Check(f).Items {
			if item.Kind == Notice {
				ids = append(ids, item.ID)
			}
		}
		return ids
	}
	f := fullJob(false)
	assert.Equal(t, []string{"operational-validation", "low-flight-permission"}, shown(f))
	f.Purpose, f.Label.BoomShare = Public, new(75*units.Percent)
	assert.Equal(t, []string{"public-aircraft-operation", "low-flight-permission", "label-boom"}, shown(f))
	f.Pesticide, f.Dispenses, f.CongestedArea = false, nil, new(true)
	assert.Equal(t, []string{"public-aircraft-operation"}, shown(f))
}

func TestCheck_assumptions(t *testing.T) {
	t.Parallel()
	subjects := func(f Facts) (all []string) {
		for _, a := range Check(f).Assumptions {
			assert.NotEmpty(t, a.Assumed)
			assert.NotEmpty(t, a.Settle)
			assert.True(t, a.Source.Cited())
			all = append(all, a.Subject)
		}
		return all
	}
	assert.Empty(t, subjects(fullJob(false)))
	f := fullJob(true)
	assert.Equal(t, []string{"/flight/speed"}, subjects(f))
	f = fullJob(false)
	f.Country, f.Dispenses, f.Hazmat, f.Label.MinWind, f.Label.DropletClassMax = "", nil, nil, nil, nil
	f.Label.UnmannedAllowed, f.StateConfirmsUnmanned = nil, new(true)
	assert.Equal(t, []string{"/operation/country", "/operation/dispenses", "/operation/hazmat", "/load/product_label/min_wind",
		"/load/product_label/droplet_class_max", "/load/product_label/unmanned_allowed"}, subjects(f))
	f = fullJob(false)
	f.Dispenses = new(Nourishment) // while pesticide says otherwise: the stricter reading counts
	assert.Equal(t, []string{"/operation/dispenses"}, subjects(f))
	assert.Equal(t, NeededNow, itemOf(t, Check(f), "label-use").Status)
}

func TestCheck_cautions(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	said := strings.Join(Check(f).Cautions, " ")
	for _, words := range []string{"not legal advice", "label is the law", "Rules change", "2026-10-08", "part 108", "state lead agency", "2026-11-25", "stop and ask"} {
		assert.Contains(t, said, words)
	}
	assert.NotContains(t, said, "more than a season")
	f.At = new(AsOf().AddDate(0, 4, 0))
	assert.Contains(t, strings.Join(Check(f).Cautions, " "), "more than a season")
}

func TestCheck_citationOfTheRegime(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "14 CFR 107.35", itemOf(t, Check(fullJob(false)), "one-aircraft-per-pilot").Citation)
	item := itemOf(t, Check(fullJob(true)), "one-aircraft-per-pilot")
	assert.Equal(t, "14 CFR 107.35; a clause of the grant", item.Citation)
	assert.Contains(t, item.LeadTime, "120 days")
	assert.Contains(t, item.HowToGet, "grant of exemption")
	assert.Equal(t, "14 CFR 107.15 (from memory)", itemOf(t, Check(fullJob(false)), "condition-for-flight").Citation)
}

func TestCheck_alaskaTwilight(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.Phase, f.Alaska = daylight.Twilight, new(true)
	assert.Contains(t, itemOf(t, Check(f), "night-training").Because, "almanac")
}

func TestCheck_missingPhaseNamesWhatIsMissing(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.Phase = daylight.Unknown
	assert.Equal(t, []string{"/weather/latitude", "/weather/longitude"}, itemOf(t, Check(f), "night-training").Missing)
	f.At = nil
	assert.Equal(t, []string{"/weather/at"}, itemOf(t, Check(f), "night-training").Missing)
}

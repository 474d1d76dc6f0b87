package permits_test

import (
	"encoding/json"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// statedFacts is the facts of one worked case; keys end in their unit.
type statedFacts struct {
	Country         string             `json:"country"`
	TakeoffLb       *float64           `json:"takeoff_weight_lb"`
	TakeoffKg       *float64           `json:"takeoff_weight_kg"`
	Pesticide       bool               `json:"pesticide"`
	Dispenses       *permits.Dispenses `json:"dispenses"`
	Hazmat          *bool              `json:"hazmat"`
	Purpose         permits.Purpose    `json:"purpose"`
	OwnInterest     *bool              `json:"own_interest"`
	Paid            *bool              `json:"paid"`
	Airspace        permits.Airspace   `json:"airspace"`
	Phase           daylight.Phase     `json:"phase"`
	Alaska          *bool              `json:"alaska"`
	Lights3SM       *bool              `json:"lights_3sm"`
	NightTrained    *bool              `json:"night_trained"`
	LineOfSight     bool               `json:"line_of_sight"`
	Aircraft        units.Count        `json:"aircraft"`
	RemotePilots    *units.Count       `json:"remote_pilots"`
	VisualObservers *units.Count       `json:"visual_observers"`
	HeightFt        float64            `json:"height_ft"`
	SpeedMph        float64            `json:"speed_mph"`
	WindMph         float64            `json:"wind_mph"`
	RateGalPerAc    float64            `json:"rate_gal_per_ac"`
	VisibilityMi    *float64           `json:"visibility_mi"`
	CloudFree       *bool              `json:"cloud_free"`
	OverPeople      bool               `json:"over_people"`
	CongestedArea   *bool              `json:"congested_area"`
	OverWater       *bool              `json:"over_water"`
	WPSSite         *bool              `json:"wps_site"`
	DropletClass    spray.Class        `json:"droplet_class"`
	Holds           []string           `json:"holds"`
	Label           struct {
		AerialAllowed *bool    `json:"aerial_allowed"`
		RestrictedUse *bool    `json:"restricted_use"`
		WPSLabel      *bool    `json:"wps_label"`
		MinRate       *float64 `json:"min_rate_gal_per_ac"`
		MaxWind       *float64 `json:"max_wind_mph"`
	} `json:"label"`
	Neighbors []struct {
		Kind      string  `json:"kind"`
		DistanceM float64 `json:"distance_m"`
		Downwind  bool    `json:"downwind"`
	} `json:"neighbors"`
}

// facts turns the stated facts into the room's.
func (s statedFacts) facts() permits.Facts {
	f := permits.Facts{
		Country: s.Country, Pesticide: s.Pesticide, Dispenses: s.Dispenses, Hazmat: s.Hazmat, Purpose: s.Purpose,
		OwnInterest: s.OwnInterest, Paid: s.Paid, Airspace: s.Airspace, Phase: s.Phase, Alaska: s.Alaska,
		Lights3SM: s.Lights3SM, NightTrained: s.NightTrained, LineOfSight: s.LineOfSight, Aircraft: s.Aircraft,
		RemotePilots: s.RemotePilots, VisualObservers: s.VisualObservers, HeightAGL: units.Length(s.HeightFt) * units.Foot,
		Groundspeed: units.Speed(s.SpeedMph) * units.MilePerHour, WindSpeed: units.Speed(s.WindMph) * units.MilePerHour,
		Rate: units.ApplicationRate(s.RateGalPerAc) * units.GallonPerAcre, CloudFree: s.CloudFree, OverPeople: s.OverPeople,
		CongestedArea: s.CongestedArea, OverWater: s.OverWater, WPSSite: s.WPSSite, DropletClass: s.DropletClass, Holds: s.Holds,
	}
	if s.TakeoffLb != nil {
		f.TakeoffWeight = units.Mass(*s.TakeoffLb) * units.Pound
	}
	if s.TakeoffKg != nil {
		f.TakeoffWeight = units.Mass(*s.TakeoffKg) * units.Kilogram
	}
	f.Small = units.StrictlyBelow(f.TakeoffWeight, 55*units.Pound)
	if s.VisibilityMi != nil {
		f.Visibility = new(units.Length(*s.VisibilityMi) * units.Mile)
	}
	f.Label.AerialAllowed, f.Label.RestrictedUse, f.Label.WPSLabel = s.Label.AerialAllowed, s.Label.RestrictedUse, s.Label.WPSLabel
	if s.Label.MinRate != nil {
		f.Label.MinRate = new(units.ApplicationRate(*s.Label.MinRate) * units.GallonPerAcre)
	}
	if s.Label.MaxWind != nil {
		f.Label.MaxWind = new(units.Speed(*s.Label.MaxWind) * units.MilePerHour)
	}
	for _, n := range s.Neighbors {
		f.Neighbors = append(f.Neighbors, permits.Neighbor{Kind: n.Kind, Distance: units.Length(n.DistanceM) * units.Meter, Downwind: n.Downwind})
	}
	return f
}

// workedCase is one decision, worked out by hand from the text it cites.
type workedCase struct {
	Name       string                    `json:"name"`
	Citation   string                    `json:"citation"`
	Facts      json.RawMessage           `json:"facts"`
	Regime     permits.Regime            `json:"regime"`
	Expect     map[string]permits.Status `json:"expect"`
	Because    map[string]string         `json:"because"`
	BecauseNot map[string]string         `json:"because_not"`
	LeadTime   map[string]string         `json:"lead_time"`
	Waiver     map[string]string         `json:"waiver"`
	MarginLb   *float64                  `json:"margin_lb"`
	MarginKg   *float64                  `json:"margin_kg"`
}

// readCases reads the worked cases and the facts common to them.
func readCases(t *testing.T) (common json.RawMessage, cases []workedCase) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/published/authorization-cases.json")
	require.NoError(t, err)
	var file struct {
		Common json.RawMessage `json:"common_facts"`
		Cases  []workedCase    `json:"cases"`
	}
	require.NoError(t, json.Unmarshal(text, &file))
	require.NotEmpty(t, file.Cases)
	return file.Common, file.Cases
}

func TestCheck_workedCases(t *testing.T) {
	common, cases := readCases(t)
	for _, tc := range cases {
		t.Run(tc.Name, func(t *testing.T) {
			t.Parallel()
			require.NotEmpty(t, tc.Citation)
			var stated statedFacts
			require.NoError(t, json.Unmarshal(common, &stated))
			require.NoError(t, json.Unmarshal(tc.Facts, &stated))
			c := permits.Check(stated.facts())
			assert.Equal(t, tc.Regime, c.Regime)
			for id, want := range tc.Expect {
				item := mustItem(t, c, id)
				assert.Equal(t, want, item.Status, "%s: %s (decided by %s)", id, item.Because, tc.Citation)
			}
			for id, words := range tc.Because {
				assert.Contains(t, mustItem(t, c, id).Because, words)
			}
			for id, words := range tc.BecauseNot {
				assert.NotContains(t, mustItem(t, c, id).Because, words)
			}
			for id, words := range tc.LeadTime {
				assert.Contains(t, mustItem(t, c, id).LeadTime, words)
			}
			for id, waiver := range tc.Waiver {
				assert.Equal(t, waiver, mustItem(t, c, id).Waiver)
			}
			tc.assertMargin(t, c)
		})
	}
}

// assertMargin checks the margin to the weight line to half a unit of its last printed digit.
func (tc workedCase) assertMargin(t *testing.T, c permits.Checklist) {
	t.Helper()
	item := mustItem(t, c, "weight-small-limit")
	require.NotNil(t, item.Compared)
	margin := units.Mass(item.Compared.Margin.SI())
	if tc.MarginLb != nil {
		assert.InDelta(t, *tc.MarginLb, margin.In(units.Pound), 0.05)
	}
	if tc.MarginKg != nil {
		assert.InDelta(t, *tc.MarginKg, margin.In(units.Kilogram), 0.5e-6)
	}
}

// mustItem finds an item of a checklist.
func mustItem(t *testing.T, c permits.Checklist, id string) permits.Item {
	t.Helper()
	at := slices.IndexFunc(c.Items, func(i permits.Item) bool { return i.ID == id })
	require.GreaterOrEqual(t, at, 0, "item %s is missing", id)
	return c.Items[at]
}

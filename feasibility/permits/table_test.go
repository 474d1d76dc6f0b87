package permits

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/finding"
)

// rowCount is the number of rows of the table as of AsOf.
const rowCount = 87

func TestRules_walk(t *testing.T) {
	t.Parallel()
	rules := Rules()
	require.Len(t, rules, rowCount)
	placeholder := regexp.MustCompile(`(?i)todo|tbd|xxx|lorem|fixme|\?\?|^-$`)
	id := regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	seen := make(map[string]bool)
	for _, rule := range rules {
		assert.Regexp(t, id, rule.ID)
		assert.False(t, seen[rule.ID], "%s stands once", rule.ID)
		assert.Equal(t, AsOf(), rule.AsOf, rule.ID)
		assert.NotNil(t, rule.applies, rule.ID)
		require.NotEmpty(t, rule.Sources, rule.ID)
		for name, text := range map[string]string{
			"title": rule.Title, "applies when": rule.AppliesWhen, "demands": rule.Demands, "citation": rule.Citation,
		} {
			assert.NotEmpty(t, text, "%s: %s", rule.ID, name)
		}
		for _, text := range []string{rule.Title, rule.AppliesWhen, rule.Demands, rule.Citation, rule.LargeCitation,
			rule.HowToGet, rule.LargeHowToGet, rule.Validity, rule.LeadTime, rule.LargeLeadTime, rule.Evidence} {
			assert.NotRegexp(t, placeholder, text, rule.ID)
			assert.False(t, strings.HasSuffix(text, "."), "%s: phrases carry no full stop: %s", rule.ID, text)
		}
		if rule.Kind != Notice {
			assert.NotEmpty(t, rule.HowToGet, "%s says what to do", rule.ID)
		}
		assert.Contains(t, []Kind{Permit, Limit, OnLabel, Duty, Notice}, rule.Kind, rule.ID)
		assert.Contains(t, []Grade{GradeRead, GradeSecondHand, GradeMemory}, rule.Grade, rule.ID)
		assert.Contains(t, []Regimes{SmallOnly, LargeOnly, BothRegimes}, rule.Regimes, rule.ID)
		for _, earlier := range rule.DependsOn {
			assert.True(t, seen[earlier], "%s waits for %s, which must stand earlier", rule.ID, earlier)
		}
		if rule.Lead > 0 {
			assert.NotEmpty(t, rule.LeadTime, rule.ID)
		}
		seen[rule.ID] = true
	}
}

// The table must agree with the lists of 14 CFR 107.205 and of the two regimes.
func TestRules_regimesAndWaivers(t *testing.T) {
	t.Parallel()
	small := []string{"exemption-small-agricultural", "hazmat-relief", "registration-small", "airspace-authorization",
		"twilight-lights", "night-lights", "night-training", "over-people", "over-moving-vehicles", "from-moving-vehicle",
		"groundspeed-limit", "height-limit", "visibility", "cloud-clearance"}
	large := []string{"exemption-large-agricultural", "aircraft-on-approved-list", "coa-large", "registration-large",
		"operating-documents-at-station", "grant-groundspeed", "grant-airspace", "grant-people-distance", "grant-height", "pilot-medical"}
	// 14 CFR 107.205 lists 107.25, 107.29(a)(2) and (b), 107.31, 107.33, 107.35, 107.37(a), 107.39, 107.41, 107.51, 107.145.
	waivable := []string{"from-moving-vehicle", "night-lights", "twilight-lights", "line-of-sight", "visual-observer",
		"one-aircraft-per-pilot", "over-people", "over-moving-vehicles", "groundspeed-limit", "height-limit", "visibility", "cloud-clearance"}
	for _, rule := range Rules() {
		assert.Equal(t, slices.Contains(small, rule.ID), rule.Regimes == SmallOnly, rule.ID)
		assert.Equal(t, slices.Contains(large, rule.ID), rule.Regimes == LargeOnly, rule.ID)
		assert.Equal(t, slices.Contains(waivable, rule.ID), rule.Waivable(), rule.ID)
	}
}

func TestSources_walk(t *testing.T) {
	t.Parallel()
	cited := map[string]bool{"permits-own-design": true}
	for _, rule := range Rules() {
		for _, id := range rule.Sources {
			assert.True(t, find(sources(), id).Cited(), "%s cites %s, which is not among the sources", rule.ID, id)
			cited[id] = true
		}
		if rule.Grade != GradeMemory {
			assert.Equal(t, finding.Read, find(sources(), rule.Sources[0]).Standing, "%s is decided by a source that was read", rule.ID)
		}
	}
	for _, line := range WeightLines() {
		assert.True(t, find(sources(), line.Source).Cited(), line.Country)
		cited[line.Source] = true
	}
	seen := make(map[string]bool)
	for _, source := range sources() {
		assert.False(t, seen[source.ID], "%s stands once", source.ID)
		assert.True(t, cited[source.ID], "%s is cited nowhere", source.ID)
		seen[source.ID] = true
	}
}

// A caller who changes its copy of the table changes nobody else's.
func TestRules_freshEachTime(t *testing.T) {
	t.Parallel()
	mine := Rules()
	mine[0].ID, mine[0].Sources[0] = "changed", "changed"
	assert.Equal(t, "weight-small-limit", Rules()[0].ID)
	assert.Equal(t, "14-cfr-107-3", Rules()[0].Sources[0])
}

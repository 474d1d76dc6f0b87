package permits

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/units"
)

// A condition that always holds, or never can, leaves a row fewer statuses than its kind has.
var (
	// alwaysBinds: every flight has it, so it is never not needed.
	alwaysBinds = []string{
		"remote-pilot-in-command", "alcohol-drugs", "condition-for-flight", "preflight", "careless-operation",
		"right-of-way", "show-documents", "safety-event-report",
	}
	// dateAlone: the contract always states what the row asks, so that only a holding whose date
	// cannot be checked leaves it unknown.
	dateAlone = append([]string{"remote-id", "weight-small-limit", "line-of-sight", "over-people"}, slices.Concat(alwaysBinds, alwaysInRegime)...)
	// alwaysInRegime: the same as alwaysBinds, in its own regime; in the other it is not needed.
	alwaysInRegime = []string{"registration-small", "registration-large", "coa-large", "operating-documents-at-station"}
	// neverKnown: no fact of the contract answers it.
	neverKnown = []string{"state-and-local-rules"}
)

// reachable is every status a row can have: those of its kind, less what its condition rules out.
func reachable(r Rule) []Status {
	switch {
	case r.Kind == Notice:
		return []Status{NotNeeded}
	case slices.Contains(neverKnown, r.ID):
		return []Status{Unknown}
	case r.ID == "remote-id", slices.Contains(alwaysBinds, r.ID):
		return []Status{NeededNow, Held, Unknown}
	case r.ID == "remote-pilot-certificate", r.ID == "recurrent-training": // a public agency sets its own standard
		return []Status{NeededNow, Held, Unknown}
	case r.ID == "pilot-medical": // the grant decides, which no fact holds
		return []Status{Unknown, Held, NotNeeded}
	case r.Kind == OnLabel, r.Kind == Limit && r.Relief == ReliefNone:
		return []Status{Prohibited, Unknown, NotNeeded}
	default:
		return []Status{NeededNow, Held, Unknown, NotNeeded}
	}
}

func TestEveryRowIsReachedInEveryStatusItCanHave(t *testing.T) {
	t.Parallel()
	reached := make(map[string]bool)
	for _, tc := range rowCases() {
		reached[fmt.Sprint(tc.id, " ", tc.want)] = true
	}
	count := 0
	for _, rule := range Rules() {
		for _, status := range reachable(rule) {
			if rule.Kind == Notice {
				continue // TestCheck_notices shows and hides them
			}
			count++
			assert.True(t, reached[fmt.Sprint(rule.ID, " ", status)], "no case reaches %s %s", rule.ID, status)
		}
	}
	assert.Greater(t, count, 200)
}

// scene is a job with several things out of the ordinary at once.
type scene struct {
	name   string
	large  bool
	change func(f *Facts)
	want   map[string]Status
}

// scenes holds the rules against each other where they meet: several aircraft, night, people,
// congested ground, controlled airspace, water, restricted-use products.
func scenes() []scene {
	return []scene{
		{"three large aircraft at night, no observer", true, func(f *Facts) { // 14 CFR 107.35; grants since 2024
			f.Aircraft, f.Phase, f.Holds = 3, daylight.Night, []string{"exemption-large-agricultural"}
		}, map[string]Status{"one-aircraft-per-pilot": NeededNow, "night-lights": NotNeeded, "night-training": NotNeeded, "visual-observer": Unknown}},
		{"two small aircraft at night without lights", false, func(f *Facts) { // 14 CFR 107.29, 107.35
			f.Aircraft, f.Phase, f.Lights3SM, f.NightTrained = 2, daylight.Night, new(false), new(false)
		}, map[string]Status{"one-aircraft-per-pilot": NeededNow, "night-lights": NeededNow, "night-training": NeededNow, "twilight-lights": NotNeeded}},
		{"over people in a congested area, commercial", false, func(f *Facts) { // 14 CFR 107.39, 137.51, 137.53
			f.OverPeople, f.CongestedArea = true, new(true)
		}, map[string]Status{"over-people": NeededNow, "congested-area-approval": NeededNow, "congested-area-pilot-aircraft": NeededNow, "private-operator-limits": NotNeeded}},
		{"over people at 55 lb and over", true, func(f *Facts) { f.OverPeople = true },
			map[string]Status{"over-people": NotNeeded, "grant-people-distance": NeededNow}},
		{"class D, seen as near an airport", false, func(f *Facts) { f.Airspace, f.NearAirport = AirspaceD, nil }, // 14 CFR 107.41, 107.43, 137.43
			map[string]Status{"airspace-authorization": NeededNow, "dispensing-in-airport-surface-area": NeededNow, "airport-vicinity": NeededNow, "grant-airspace": NotNeeded}},
		{"class D at 55 lb and over", true, func(f *Facts) { f.Airspace = AirspaceD },
			map[string]Status{"airspace-authorization": NotNeeded, "dispensing-in-airport-surface-area": NeededNow, "grant-airspace": NeededNow}},
		{"restricted use, hired workers, over water", false, func(f *Facts) { // 7 CFR 110.3; 40 CFR 170, 171; Clean Water Act 402
			f.Label.RestrictedUse, f.OverWater, f.Label.BulletinRequired = new(true), new(true), new(true)
		}, map[string]Status{
			"restricted-use-certification": NeededNow, "aerial-category": NeededNow, "restricted-use-record": NeededNow,
			"commercial-restricted-use-record": NeededNow, "handler-training": NeededNow, "restricted-entry": NeededNow,
			"central-posting": NeededNow, "exclusion-zone": NeededNow, "species-bulletin": NeededNow, "water-discharge-permit": NeededNow,
		}},
		{"the same with a fertilizer", false, func(f *Facts) { // pesticide law does not reach it; water law does
			f.Pesticide, f.Dispenses, f.Hazmat = false, new(Nourishment), new(false)
			f.Label.RestrictedUse, f.OverWater = new(true), new(true)
		}, map[string]Status{
			"restricted-use-certification": NotNeeded, "restricted-use-record": NotNeeded, "handler-training": NotNeeded,
			"exclusion-zone": NotNeeded, "label-use": NotNeeded, "hazmat-relief": NotNeeded, "agricultural-operator-certificate": NeededNow,
			"water-discharge-permit": NeededNow,
		}},
		{"a public agency", false, func(f *Facts) { f.Purpose = Public }, map[string]Status{
			"public-operation-authority": NeededNow, "exemption-small-agricultural": NotNeeded, "agricultural-operator-certificate": NotNeeded,
			"remote-pilot-certificate": Unknown, "no-hazard-dispensing": NeededNow, "restricted-use-record": NotNeeded,
		}},
	}
}

func TestCheck_scenes(t *testing.T) {
	t.Parallel()
	for _, s := range scenes() {
		t.Run(s.name, func(t *testing.T) {
			t.Parallel()
			f := fullJob(s.large)
			s.change(&f)
			c := Check(f)
			for id, want := range s.want {
				item := itemOf(t, c, id)
				assert.Equal(t, want, item.Status, "%s: %s", id, item.Because)
			}
		})
	}
}

// A row that only the other side of the line asks for is unknown while the side is open.
func TestCheck_openSide(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.OtherSide, f.Unweighed = new(70*units.Pound), []string{"/load/fill", "/load/density"}
	f.Holds = []string{"registration-large"}
	c := Check(f)
	coa := itemOf(t, c, "coa-large")
	assert.Equal(t, Unknown, coa.Status)
	assert.Equal(t, f.Unweighed, coa.Missing)
	assert.Contains(t, coa.Because, "not stated: the fill and the density, which may put the takeoff at 70 lb as well")
	assert.Equal(t, []string{"exemption-large-agricultural"}, coa.DependsOn)
	assert.Equal(t, Held, itemOf(t, c, "registration-large").Status)
	assert.Equal(t, NotNeeded, itemOf(t, c, "aircraft-on-approved-list").Status, "70 lb is within the listed 100 lb")
	found := findingOf(t, c, CodeSideNotSettled)
	assert.Contains(t, found.Message, "the fill and the density")
	assert.Equal(t, units.Significant(51*units.Pound, 9), found.Measured)
	f.OtherSide = new(units.Mass(0))
	assert.Equal(t, NotNeeded, itemOf(t, Check(f), "coa-large").Status)

	f = fullJob(true)
	f.OtherSide, f.Unweighed = new(54.9*units.Pound), []string{"/load/fill"}
	assert.Equal(t, Unknown, itemOf(t, Check(f), "exemption-small-agricultural").Status)
}

func TestGroup_codes(t *testing.T) {
	t.Parallel()
	assert.Len(t, Groups(), len(groupCodes()))
	assert.Equal(t, "weight", GroupWeight.String())
	assert.Equal(t, "records", GroupRecords.String())
	assert.Equal(t, "unknown", Group(0).String())
	assert.Equal(t, "unknown", Group(99).String())
}

func TestVisualObserver_adviceIsABriefing(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.VisualObservers = new(units.Count(1))
	assert.Contains(t, itemOf(t, Check(f), "visual-observer").HowToGet, "brief the observer before the flight")
	assert.NotContains(t, itemOf(t, Check(f), "visual-observer").HowToGet, "stay inside the limit")
	assert.Contains(t, itemOf(t, Check(fullJob(true)), "visual-observer").HowToGet, "your grant says on observers")
}

package wire

import (
	"encoding/json"
	"maps"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
)

// mayTurn is a member whose removal may turn an answer into yes.
type mayTurn struct {
	pointers       string // a pattern of the whole pointer
	reason, silent string
}

// mayTurnYes are the members whose removal may turn an answer into yes, each with the reason. All else
// states a fact, and leaving it out never makes an answer yes. Where the answer then has nothing to say of
// the member, silent tells why that is right.
var mayTurnYes = []mayTurn{
	{pointers: "/load/product_label/.*",
		reason: "a bound of the label that nobody stated is a caution by the table of rules (authorizations.md, 1.2), or an assumption: who breaks it reads it on the label"},
	{pointers: "/field/neighbors/[0-9]+/tolerance",
		reason: "what a neighbor bears is a bound too: 1 % or 0.5 % is assumed and said, and what is over that by the best estimate is needed"},
	{pointers: "/field/crop_height|/weather/wind_height",
		reason: "a usual height is taken and said; a deposit near its limit may then fall under it, within the factor of 3 it is good to, and is cautioned about"},
	{pointers: "/weather/gust",
		reason: "gusts are cautioned about where the usual ones of the wind, a factor from memory, break the limit; else the answer says that none were counted. They are measured at the field, when the job begins"},
	{pointers: "/weather/lapse|/weather/inversion_observed",
		reason: "an inversion seen or measured where hour, sky and wind tell of none",
		silent: "what was looked for is no fact of the job: hour, sky and wind decide, as they do for most"},
	{pointers: "/spray_system/pump",
		reason: "a pump that nobody described is cautioned about: its bounds are not known, and the flow can be caught on the ground"},
	{pointers: "/spray_system/nozzle/spectra",
		reason: "drops are then those of the usual nozzle of its kind, said as such"},
	{pointers: "/load/density",
		reason: "a pesticide mix is taken to weigh what water does, and the answer says so"},
	{pointers: "/aircraft/battery/on_board|/aircraft/other_onboard_weight",
		reason: "what is not listed as on board is taken for nothing there, or for one battery, and the answer says so"},
	{pointers: "/aircraft/hover_endurance",
		reason: "a measured hover corrects the estimate of the power; without it the estimate is cautioned about"},
	{pointers: "/operation/expiries",
		reason: "holds alone says that a paper is held; that it has run out is said here",
		silent: "who lists a paper in holds says that it is valid"},
}

// spoiled are changes of a sample that answers yes after which it does not, a fact or two each.
var spoiled = []struct {
	name, sample string
	edits        []edit
}{
	{"dawn", cotton, []edit{{"/weather/at", "2026-06-12T06:15:00-05:00"}}},
	{"dusk", cotton, []edit{{"/weather/at", "2026-06-12T19:30:00-05:00"}}},
	{"night", cotton, []edit{{"/weather/at", "2026-06-12T23:00:00-05:00"}}},
	{"night, hardly cooler above", cotton, []edit{{"/weather/at", "2026-06-12T23:00:00-05:00"}, {"/weather/lapse", lapseOf(70, 69.99)}}},
	{"calm", cotton, []edit{{"/weather/wind_speed", of(2.5, "mph")}}},
	{"no wind, no sky", cotton, []edit{{"/weather/wind_speed", of(0, "mph")}, {"/load/product_label/min_wind", nil}, {"/weather/cloud_cover", nil}}},
	{"windy", cotton, []edit{{"/weather/wind_speed", of(11, "mph")}, {"/weather/gust", of(12, "mph")}}},
	{"gusty", cotton, []edit{{"/weather/wind_speed", of(8, "mph")}, {"/weather/gust", of(12, "mph")}}},
	{"gusts of three times the wind", cotton, []edit{{"/weather/gust", of(16, "mph")}}},
	{"dry", cotton, []edit{{"/weather/relative_humidity", of(20, "%")}, {"/weather/temperature", of(95, "degF")}}},
	{"freezing", cotton, []edit{{"/weather/temperature", of(25, "degF")}}},
	{"inversion measured", cotton, []edit{{"/weather/lapse", lapseOf(60, 62)}}},
	{"inversion seen", cotton, []edit{{"/weather/inversion_observed", true}}},
	{"hardly cooler above", cotton, []edit{{"/weather/lapse", lapseOf(70, 69.99)}}},
	{"high release", cotton, []edit{{"/flight/height", of(15, "ft")}}},
	{"fast", cotton, []edit{{"/flight/speed", of(20, "mph")}}},
	{"fast over pecans", "pecan-block-rotary.json", []edit{{"/flight/speed", of(20, "mph")}}},
	{"fine drops", cotton, []edit{{"/spray_system/nozzle/rated_flow", of(0.1, "gal/min")}}},
	{"fine drops measured", cotton, []edit{{"/spray_system/nozzle/spectra", []any{map[string]any{"pressure": of(25, "psi"), "dv05": of(180, "um")}}}}},
	{"weak pump", cotton, []edit{{"/spray_system/pump/max_flow", of(0.3, "gal/min")}}},
	{"nozzles for less pressure", cotton, []edit{{"/spray_system/nozzle/max_pressure", of(20, "psi")}, {"/spray_system/nozzle/rated_pressure", of(20, "psi")}}},
	{"heavy airframe", cotton, []edit{{"/aircraft/empty_weight", of(30, "lb")}}},
	{"heavy load", cotton, []edit{{"/load/density", of(14, "lb/gal")}}},
	{"small battery", cotton, []edit{{"/aircraft/battery/energy", of(60, "Wh")}}},
	{"two batteries on board", cotton, []edit{{"/aircraft/battery/on_board", 2.0}}},
	{"heavy camera", cotton, []edit{{"/aircraft/other_onboard_weight", of(9, "lb")}}},
	{"crop near", cotton, []edit{{"/field/neighbors", []any{neighborOf("crop", 100, of(0.1, "%"))}}}},
	{"bees near", cotton, []edit{{"/field/neighbors", []any{neighborOf("apiary", 110, nil)}}}},
	{"tolerates nothing", cotton, []edit{{"/field/neighbors", []any{neighborOf("organic", 300, of(0, "%"))}}}},
	{"short sight", cotton, []edit{{"/weather/visibility", of(1, "mi")}}},
	{"low cloud", cotton, []edit{{"/weather/cloud_below", of(200, "ft")}}},
	{"training expired", cotton, []edit{{"/operation/expiries", []any{map[string]any{"id": "recurrent-training", "date": "2026-01-01"}}}}},
	{"over people", cotton, []edit{{"/operation/over_people", true}}},
	{"near an airport", cotton, []edit{{"/operation/airspace", "D"}}},
	{"over water", cotton, []edit{{"/operation/over_water", true}}},
	{"few papers", cotton, []edit{{"/operation/holds", []any{"remote-id", "registration-small"}}}},
	{"two machines, one pilot", cotton, []edit{{"/aircraft/count", 2.0}}},
	{"label forbids drones", cotton, []edit{{"/load/product_label/unmanned_allowed", false}}},
	{"label wants more", cotton, []edit{{"/load/product_label/min_rate", of(3, "gal/ac")}}},
	{"restricted use", cotton, []edit{{"/load/product_label/restricted_use", true}, {"/operation/holds", []any{}}}},
	{"bulletin", cotton, []edit{{"/load/product_label/bulletin_required", true}}},
	{"a private person", cotton, []edit{{"/operation/purpose", "private"}}},
}

// cotton is a sample that answers yes, with nothing open.
const cotton = "cotton-forty-small.json"

func lapseOf(lower, upper float64) map[string]any {
	return map[string]any{
		"lower_temperature": of(lower, "degF"), "upper_temperature": of(upper, "degF"),
		"lower_height": of(8, "ft"), "upper_height": of(33, "ft"),
	}
}

// neighborOf is a neighbor straight down the wind of the cotton.
func neighborOf(kind string, feet float64, tolerance any) map[string]any {
	n := map[string]any{"kind": kind, "distance": of(feet, "ft"), "bearing": of(45, "deg")}
	if tolerance != nil {
		n["tolerance"] = tolerance
	}
	return n
}

// everyMember lists the pointers of every member of a body, outermost first, those of objects in lists too.
func everyMember(value any, at string) []string {
	var all []string
	switch node := value.(type) {
	case map[string]any:
		for _, name := range slices.Sorted(maps.Keys(node)) {
			all = append(append(all, at+"/"+name), everyMember(node[name], at+"/"+name)...)
		}
	case []any:
		for i, item := range node {
			all = append(all, everyMember(item, at+"/"+strconv.Itoa(i))...)
		}
	}
	return all
}

// takeOut deletes the member at a pointer, in lists too.
func takeOut(body any, pointer string) {
	parent, name := path.Split(pointer)
	for _, token := range strings.FieldsFunc(parent, func(r rune) bool { return r == '/' }) {
		switch node := body.(type) {
		case map[string]any:
			body = node[token]
		case []any:
			i, _ := strconv.Atoi(token)
			body = node[i]
		}
	}
	delete(body.(map[string]any), name)
}

// copyOf is a body that may be changed.
func copyOf(t *testing.T, body map[string]any) map[string]any {
	t.Helper()
	text, err := json.Marshal(body)
	require.NoError(t, err)
	var again map[string]any
	require.NoError(t, json.Unmarshal(text, &again))
	return again
}

// answerTo is the answer to a body; the zero Answer where it was refused.
func answerTo(t *testing.T, body map[string]any) feasibility.Answer {
	t.Helper()
	mission, faults := decoded(t, body).Mission(Assessments)
	if len(faults) > 0 {
		return feasibility.Answer{}
	}
	answer, err := feasibility.Assess(mission)
	require.NoError(t, err)
	return answer
}

// speaksOf reports whether an answer says anything, more than a note, of a member or a part of it.
func speaksOf(a feasibility.Answer, pointer string) bool {
	about := func(subject string) bool {
		return subject == pointer || strings.HasPrefix(subject, pointer+"/")
	}
	return slices.ContainsFunc(a.Assumptions, func(s finding.Assumption) bool { return about(s.Subject) }) ||
		slices.ContainsFunc(a.Findings, func(f finding.Finding) bool { return f.Severity != finding.Note && about(f.Subject) })
}

// Taking any one member out of a mission that does not answer yes never makes it answer yes, but for what
// mayTurnYes lists.
func TestAFactLeftOutNeverMakesItYes(t *testing.T) {
	t.Parallel()
	if raceDetector {
		t.Skip("thousands of answers of one goroutine each have nothing to race with")
	}
	used := make([]bool, len(mayTurnYes))
	taken := 0
	try := func(t *testing.T, name string, body map[string]any) {
		for _, pointer := range everyMember(body, "") {
			without := copyOf(t, body)
			takeOut(without, pointer)
			after := answerTo(t, without)
			if after.Verdict != "" {
				taken++
			}
			if after.Verdict != feasibility.Yes {
				continue
			}
			i := slices.IndexFunc(mayTurnYes, func(m mayTurn) bool {
				return regexp.MustCompile("^(" + m.pointers + ")$").MatchString(pointer)
			})
			if assert.GreaterOrEqual(t, i, 0, "%s answers yes without %s", name, pointer) {
				used[i] = true
				assert.True(t, mayTurnYes[i].silent != "" || speaksOf(after, pointer), "%s without %s: the answer does not say so", name, pointer)
			}
		}
	}
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "missions", "*.json"))
	require.NoError(t, err)
	for _, file := range files {
		body := sampleOf(t, filepath.Base(file))
		if verdict := answerTo(t, body).Verdict; verdict != "" && verdict != feasibility.Yes {
			try(t, filepath.Base(file), body)
		}
	}
	if testing.Short() {
		return
	}
	for _, s := range spoiled {
		body := sampleOf(t, s.sample)
		for _, e := range s.edits {
			if e.value == nil {
				takeOut(body, e.pointer)
			} else {
				put(body, e.pointer, e.value)
			}
		}
		verdict := answerTo(t, body).Verdict
		require.Contains(t, []feasibility.Verdict{feasibility.YesIf, feasibility.No}, verdict, s.name)
		try(t, s.name, body)
	}
	for i, m := range mayTurnYes {
		assert.True(t, used[i], "%s never made an answer yes: take it off the list", m.pointers)
	}
	assert.Greater(t, taken, 4000)
}

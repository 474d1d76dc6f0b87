package wire

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMissingMembersAreNamed(t *testing.T) {
	t.Parallel()
	top := map[Endpoint][]string{
		Assessments:             {"/aircraft", "/field", "/flight", "/load", "/operation", "/spray_system", "/weather"},
		TakeoffWeights:          {"/aircraft", "/load"},
		RatePressures:           {"/flight", "/load", "/spray_system"},
		DriftRisks:              {"/flight", "/load", "/spray_system", "/weather"},
		SortiePlans:             {"/aircraft", "/field", "/flight", "/load"},
		AuthorizationChecklists: {"/aircraft", "/load", "/operation"},
	}
	for endpoint, want := range top {
		_, faults := (&Request{}).Mission(endpoint)
		for i := range want {
			want[i] += " missing_member"
		}
		assert.Equal(t, want, brief(faults), endpoint)
	}
	_, faults := (*Request)(nil).Mission(TakeoffWeights)
	assert.Len(t, faults, 2)
	for _, tc := range []struct {
		endpoint Endpoint
		pointer  string
		missing  bool
	}{
		{Assessments, "/aircraft/battery/energy", true},
		{TakeoffWeights, "/aircraft/battery/energy", false},
		{Assessments, "/aircraft/battery/weight", true},
		{TakeoffWeights, "/aircraft/max_takeoff_weight", true},
		{TakeoffWeights, "/load/application_rate", false},
		{RatePressures, "/load/application_rate", true},
		{RatePressures, "/load/pesticide", false},
		{DriftRisks, "/load/pesticide", true},
		{RatePressures, "/flight/height", false},
		{DriftRisks, "/flight/height", true},
		{DriftRisks, "/weather/at", false},
		{Assessments, "/weather/at", false},
		{TakeoffWeights, "/weather/wind_from", false},
		{SortiePlans, "/weather/wind_from", true},
		{Assessments, "/operation/over_people", true},
		{Assessments, "/field/width", true},
		{Assessments, "/spray_system/nozzle", true},
		{Assessments, "/spray_system/count", true},
		{Assessments, "/weather/latitude", true},
		{Assessments, "/crew", false},
	} {
		_, faults := readEdited(t, tc.endpoint, edit{tc.pointer, nil})
		want := []string{}
		if tc.missing {
			want = append(want, tc.pointer+" missing_member")
		}
		assert.Equal(t, want, brief(faults), "%s without %s", tc.endpoint, tc.pointer)
	}
	_, faults = readEdited(t, Assessments, edit{"/field/length", nil}, edit{"/field/width", nil})
	assert.Equal(t, []string{"/field/area missing_member"}, brief(faults))
	_, faults = readEdited(t, DriftRisks, edit{"/field/length", nil}, edit{"/field/width", nil})
	assert.Empty(t, faults, "drift does not need the size of the field")
}

func TestFactsThatContradictEachOther(t *testing.T) {
	t.Parallel()
	pressureRow := func(pressure, dv01, dv05, dv09 float64) map[string]any {
		return map[string]any{"pressure": of(pressure, "psi"), "dv01": of(dv01, "um"), "dv05": of(dv05, "um"), "dv09": of(dv09, "um")}
	}
	for name, tc := range map[string]struct {
		edits []edit
		want  string // pointer of the conflict; empty for none
	}{
		"density beside specific gravity":    {[]edit{{"/load/specific_gravity", 1.0}}, "/load/specific_gravity"},
		"rotary beside hydraulic":            {[]edit{{"/spray_system/rotary", map[string]any{"disc_diameter": of(8, "cm"), "rotation": of(8000, "rpm")}}}, "/spray_system/rotary"},
		"nozzle beside rotary":               {[]edit{{"/spray_system/atomizer", "rotary"}, {"/spray_system/rotary", map[string]any{"disc_diameter": of(8, "cm"), "rotation": of(8000, "rpm")}}}, "/spray_system/nozzle"},
		"min_pressure over max_pressure":     {[]edit{{"/spray_system/nozzle/min_pressure", of(70, "psi")}}, "/spray_system/nozzle/min_pressure"},
		"min_pressure at max_pressure":       {[]edit{{"/spray_system/nozzle/min_pressure", of(60, "psi")}}, "/spray_system/nozzle/min_pressure"},
		"min_pressure just under":            {[]edit{{"/spray_system/nozzle/min_pressure", of(59.9, "psi")}}, ""},
		"spectra fall":                       {[]edit{{"/spray_system/nozzle/spectra", []any{pressureRow(30, 100, 200, 300), pressureRow(20, 100, 200, 300)}}}, "/spray_system/nozzle/spectra/1/pressure"},
		"spectra twice":                      {[]edit{{"/spray_system/nozzle/spectra", []any{pressureRow(30, 100, 200, 300), pressureRow(30, 100, 200, 300)}}}, "/spray_system/nozzle/spectra/1/pressure"},
		"spectra rise":                       {[]edit{{"/spray_system/nozzle/spectra", []any{pressureRow(20, 100, 200, 300), pressureRow(30, 90, 90, 90)}}}, ""},
		"dv01 over dv05":                     {[]edit{{"/spray_system/nozzle/spectra", []any{pressureRow(30, 201, 200, 300)}}}, "/spray_system/nozzle/spectra/0/dv01"},
		"dv05 over dv09":                     {[]edit{{"/spray_system/nozzle/spectra", []any{pressureRow(30, 100, 301, 300)}}}, "/spray_system/nozzle/spectra/0/dv05"},
		"classes fall":                       {[]edit{{"/spray_system/nozzle/classes", []any{map[string]any{"from_pressure": of(40, "psi"), "class": "fine"}, map[string]any{"from_pressure": of(15, "psi"), "class": "medium"}}}}, "/spray_system/nozzle/classes/1/from_pressure"},
		"gust under the wind":                {[]edit{{"/weather/gust", of(4, "mph")}}, "/weather/gust"},
		"gust at the wind, in another unit":  {[]edit{{"/weather/gust", of(5*0.44704, "m/s")}}, ""},
		"lapse upside down":                  {[]edit{{"/weather/lapse", map[string]any{"lower_temperature": of(70, "degF"), "upper_temperature": of(71, "degF"), "lower_height": of(30, "ft"), "upper_height": of(8, "ft")}}}, "/weather/lapse/lower_height"},
		"label winds swapped":                {[]edit{{"/load/product_label/min_wind", of(11, "mph")}}, "/load/product_label/min_wind"},
		"label classes swapped":              {[]edit{{"/load/product_label/droplet_class_min", "ultra_coarse"}}, "/load/product_label/droplet_class_min"},
		"label classes equal":                {[]edit{{"/load/product_label/droplet_class_min", "coarse"}}, ""},
		"odd coaxial rotors":                 {[]edit{{"/aircraft/rotors/coaxial", true}, {"/aircraft/rotors/count", 5}}, "/aircraft/rotors/count"},
		"full hovers longer":                 {[]edit{{"/aircraft/hover_endurance", map[string]any{"empty": of(9, "min"), "full": of(20, "min")}}}, "/aircraft/hover_endurance/full"},
		"poison that is no pesticide":        {[]edit{{"/load/pesticide", false}}, "/operation/dispenses"},
		"water test with a pesticide":        {[]edit{{"/operation/dispenses", "water_test"}}, "/operation/dispenses"},
		"seed with a pesticide":              {[]edit{{"/operation/dispenses", "seed"}}, ""},
		"mosquitoes, not at water":           {[]edit{{"/operation/use_pattern", "mosquito"}, {"/operation/over_water", false}}, "/operation/use_pattern"},
		"mosquitoes at water":                {[]edit{{"/operation/use_pattern", "mosquito"}, {"/operation/over_water", true}}, ""},
		"mosquitoes, water not stated":       {[]edit{{"/operation/use_pattern", "mosquito"}, {"/operation/over_water", nil}}, ""},
		"a field, not at water":              {[]edit{{"/operation/use_pattern", "field"}, {"/operation/over_water", false}}, ""},
		"course along the wind":              {[]edit{{"/flight/crosswind", true}, {"/flight/course", of(25, "deg")}}, "/flight/course"},
		"course across the wind":             {[]edit{{"/flight/crosswind", true}, {"/flight/course", of(110, "deg")}}, ""},
		"course across the wind, other way":  {[]edit{{"/flight/crosswind", true}, {"/flight/course", of(290, "deg")}}, ""},
		"course along, crosswind not asked":  {[]edit{{"/flight/course", of(25, "deg")}}, ""},
		"salvage over price":                 {[]edit{{"/crew/costs", map[string]any{"machine_price": of(1000, "USD"), "salvage_value": of(1001, "USD")}}}, "/crew/costs/salvage_value"},
		"an expiry twice":                    {[]edit{{"/operation/expiries", []any{map[string]any{"id": "a", "date": "2027-01-01"}, map[string]any{"id": "a", "date": "2028-01-01"}}}}, "/operation/expiries/1/id"},
		"area other than length times width": {[]edit{{"/field/area", of(9, "ac")}}, "/field/area"},
		"area like length times width":       {[]edit{{"/field/area", of(4.9, "ac")}}, ""},
		"keep-outs without a boundary":       {[]edit{{"/field/keep_outs", square(-91, 33.4, 0.001)}}, "/field/keep_outs"},
		"sides other than the boundary":      {[]edit{{"/field/boundary", square(-91, 33.4, 0.01)}}, "/field/length"},
		"fill over the tank is a finding":    {[]edit{{"/load/fill", of(5, "gal")}}, ""},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			_, faults := readEdited(t, Assessments, tc.edits...)
			want := []string{}
			if tc.want != "" {
				want = append(want, tc.want+" conflict")
			}
			require.Equal(t, want, brief(faults))
			for _, f := range faults {
				assert.NotEmpty(t, f.Allowed)
				assert.NotEmpty(t, f.Message)
			}
		})
	}
}

func TestRulesOfOneMember(t *testing.T) {
	t.Parallel()
	long := strings.Repeat("x", 201)
	for name, tc := range map[string]struct {
		e    edit
		want string
	}{
		"reference too long":     {edit{"/reference", long}, "/reference too_long_or_short"},
		"unit system":            {edit{"/units", "metric"}, "/units not_in_list"},
		"atomizer":               {edit{"/spray_system/atomizer", "ultrasonic"}, "/spray_system/atomizer not_in_list"},
		"count zero":             {edit{"/spray_system/count", 0}, "/spray_system/count out_of_range"},
		"no aircraft":            {edit{"/aircraft/count", 0}, "/aircraft/count out_of_range"},
		"sensing":                {edit{"/aircraft/sensing/height", "sonar"}, "/aircraft/sensing/height not_in_list"},
		"country":                {edit{"/operation/country", "can"}, "/operation/country wrong_format"},
		"airspace":               {edit{"/operation/airspace", "g"}, "/operation/airspace not_in_list"},
		"use pattern":            {edit{"/operation/use_pattern", "desert"}, "/operation/use_pattern not_in_list"},
		"brand without letters":  {edit{"/load/product_label/brand", ""}, "/load/product_label/brand too_long_or_short"},
		"crop too long":          {edit{"/field/crop", long}, "/field/crop too_long_or_short"},
		"applicator":             {edit{"/operation/applicator", map[string]any{"name": long}}, "/operation/applicator/name too_long_or_short"},
		"state":                  {edit{"/operation/state", "Tx"}, "/operation/state wrong_format"},
		"no pilot":               {edit{"/operation/remote_pilots", 0}, "/operation/remote_pilots out_of_range"},
		"an empty hold":          {edit{"/operation/holds", []any{""}}, "/operation/holds/0 too_long_or_short"},
		"neighbor kind":          {edit{"/field/neighbors/0/kind", "castle"}, "/field/neighbors/0/kind not_in_list"},
		"neighbor without place": {edit{"/field/neighbors", []any{map[string]any{"kind": "crop", "distance": of(9, "ft")}}}, "/field/neighbors/0/bearing missing_member"},
		"specific gravity":       {edit{"/load/specific_gravity", 9}, "/load/specific_gravity out_of_range"},
		"time without offset":    {edit{"/weather/at", "2026-06-03T09:30:00"}, "/weather/at wrong_format"},
		"time with one digit":    {edit{"/weather/at", "2026-06-03T9:30:00Z"}, "/weather/at wrong_format"},
		"time with a comma":      {edit{"/weather/at", "2026-06-03T09:30:00,5Z"}, "/weather/at wrong_format"},
		"time in small letters":  {edit{"/weather/at", "2026-06-03t09:30:00z"}, "/weather/at wrong_format"},
		"day that is none":       {edit{"/weather/at", "2026-02-30T09:30:00Z"}, "/weather/at wrong_format"},
		"leap second":            {edit{"/weather/at", "2026-06-30T23:59:60Z"}, "/weather/at wrong_format"},
		"offset that is none":    {edit{"/weather/at", "2026-06-30T23:59:00+24:00"}, "/weather/at wrong_format"},
		"year long past":         {edit{"/weather/at", "1926-06-03T09:30:00Z"}, "/weather/at out_of_range"},
		"year far off":           {edit{"/weather/at", "2126-06-03T09:30:00Z"}, "/weather/at out_of_range"},
		"expiry with a time":     {edit{"/operation/expiries", []any{map[string]any{"id": "a", "date": "2027-01-01T00:00:00Z"}}}, "/operation/expiries/0/date wrong_format"},
		"expiry on no day":       {edit{"/operation/expiries", []any{map[string]any{"id": "a", "date": "2027-02-29"}}}, "/operation/expiries/0/date wrong_format"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			edits := []edit{tc.e}
			if tc.e.pointer == "/load/specific_gravity" {
				edits = append(edits, edit{"/load/density", nil})
			}
			_, faults := readEdited(t, Assessments, edits...)
			require.Equal(t, []string{tc.want}, brief(faults))
			assert.NotEmpty(t, faults[0].Message)
			_, err := json.Marshal(faults)
			require.NoError(t, err)
		})
	}
}

func TestAFaultyWindIsNotComparedWithTheCourse(t *testing.T) {
	t.Parallel()
	_, faults := readEdited(t, Assessments, edit{"/flight/crosswind", true}, edit{"/flight/course", of(5, "deg")},
		edit{"/weather/wind_from", of(400, "deg")})
	assert.Equal(t, []string{"/weather/wind_from/value out_of_range"}, brief(faults))
}

// Every fault of a body comes at once, each at its place.
func TestAllFaultsAtOnce(t *testing.T) {
	t.Parallel()
	_, faults := readEdited(t, Assessments,
		edit{"/aircraft/empty_weight", of(24, "gal")},
		edit{"/aircraft/battery/weight", of(1e300, "lb")},
		edit{"/load/specific_gravity", 1.1},
		edit{"/weather/gust", of(1, "mph")},
		edit{"/weather/at", "yesterday"},
		edit{"/operation/purpose", "fun"},
		edit{"/flight/swath", nil},
	)
	assert.Equal(t, []string{
		"/aircraft/battery/weight/value out_of_range", "/aircraft/empty_weight/unit wrong_unit",
		"/flight/swath missing_member", "/load/specific_gravity conflict", "/operation/purpose not_in_list",
		"/weather/at wrong_format", "/weather/gust conflict",
	}, brief(faults))
}

func TestFaultsRepeatLittleOfWhatWasSent(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "short", clip("short"))
	long := clip(strings.Repeat("ä", 100))
	assert.LessOrEqual(t, len(long), clipped+3)
	assert.True(t, strings.HasSuffix(long, "ä..."))
	assert.Equal(t, "a?b", clip("a\xffb"))
	_, faults := readEdited(t, Assessments, edit{"/units", strings.Repeat("u", 500)})
	require.Len(t, faults, 1)
	text, err := json.Marshal(faults)
	require.NoError(t, err)
	assert.Less(t, len(text), 400)
}

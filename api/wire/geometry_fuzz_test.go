package wire

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
)

// FuzzGeometry draws whatever comes as a boundary and as keep-outs: it is a fault, or a tract that is
// flown whose areas close. It never hangs and never panics.
func FuzzGeometry(f *testing.F) {
	for _, text := range []string{
		`{"type":"Polygon","coordinates":[[[-91,33],[-90.99,33],[-90.99,33.01],[-91,33.01],[-91,33]]]}`,
		`{"type":"Polygon","coordinates":[[[-91,33],[-90.99,33.01],[-90.99,33],[-91,33.01],[-91,33]]]}`,
		`{"type":"Polygon","coordinates":[[[179.999,33],[-179.999,33],[-179.999,33.001],[179.999,33.001],[179.999,33]]]}`,
		`{"type":"Polygon","coordinates":[[[-91,33],[-90.99,33],[-90.99,33.01],[-91,33.01],[-91,33]],[[-90.997,33.003],[-90.995,33.003],[-90.995,33.005],[-90.997,33.003]]]}`,
		`{"type":"MultiPolygon","coordinates":[[[[0,0],[0.001,0],[0.001,0.001],[0,0]]],[[[0.002,0],[0.003,0],[0.003,0.001],[0.002,0]]]]}`,
		`{"type":"Polygon","coordinates":[[[33,-91],[33,-90],[34,-90],[33,-91]]]}`, `{"type":"Polygon","coordinates":[]}`,
	} {
		f.Add(text, `{"type":"Polygon","coordinates":[[[-90.998,33.002],[-90.997,33.002],[-90.997,33.003],[-90.998,33.002]]]}`)
		f.Add(text, "")
	}
	r := newReader(f)
	f.Fuzz(func(t *testing.T, boundary, keepOuts string) {
		if keepOuts != "" {
			keepOuts = `,"keep_outs":` + keepOuts
		}
		body := fmt.Sprintf(`{"aircraft":{"empty_weight":{"value":20,"unit":"kg"},"battery":{"weight":{"value":6,"unit":"kg"},"energy":{"value":1200,"unit":"Wh"}},
			"tank_capacity":{"value":10,"unit":"L"},"max_takeoff_weight":{"value":45,"unit":"kg"},"rotors":{"count":6,"diameter":{"value":30,"unit":"in"}}},
			"load":{"application_rate":{"value":20,"unit":"L/ha"},"pesticide":false},
			"flight":{"speed":{"value":6,"unit":"m/s"},"height":{"value":3,"unit":"m"},"swath":{"value":6,"unit":"m"}},
			"field":{"boundary":%s%s}}`, boundary, keepOuts)
		request, mission, _, faults := r.Read(SortiePlans, []byte(body))
		if len(faults) > 0 {
			return
		}
		require.NotNil(t, request)
		answer, err := feasibility.AssessSortiePlan(mission)
		require.NoError(t, err)
		a := answer.SortiePlan.Accounting
		sum := a.Sprayed + a.Unsprayed + a.KeepOuts
		require.InEpsilon(t, float64(a.Tract), float64(sum), 1e-3)
	})
}

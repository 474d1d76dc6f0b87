package flight

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/units"
)

// Every source of the room is named by some machine, and no machine names another.
func TestEverySourceIsUsed(t *testing.T) {
	t.Parallel()
	ids := map[string]bool{}
	for _, s := range sources() {
		assert.True(t, s.Cited() && s.Standing != "", "%s cites and says how it was checked", s.ID)
		assert.False(t, ids[s.ID], "%s is listed twice", s.ID)
		ids[s.ID] = true
	}
	bare := sprayer()
	bare.Rotors = nil
	used := map[string]bool{}
	for _, machine := range []Machine{bare, measured()} {
		for _, s := range New(machine, seaLevelDensity).Sources {
			assert.True(t, ids[s.ID], "%s is in the room's table", s.ID)
			used[s.ID] = true
		}
	}
	assert.Equal(t, ids, used)
}

// The stated ranges hold the defaults, and the declared machines' efficiencies lie in the range.
func TestDefaultsLieInTheirRanges(t *testing.T) {
	t.Parallel()
	assert.True(t, lowEfficiency < defaultEfficiency && defaultEfficiency < highEfficiency)
	assert.True(t, leastPartsEfficiency < lowEfficiency && highEfficiency < mostPartsEfficiency)
	assert.True(t, leastUsualExponent < hoverExponent && hoverExponent < mostUsualExponent)
	for _, r := range published(t, "spray-multirotors-declared.csv") {
		if r["hover_w"] == "" {
			continue
		}
		machine := declared(t, r)
		ideal := discsOf(machine).idealPower(r.number(t, "hover_kg"))
		eta := ideal / r.number(t, "hover_w")
		assert.True(t, lowEfficiency <= eta && eta <= highEfficiency, "%s: %.3f", r["machine"], eta)
		// The allowance for pump and atomizers stays within the 50 to 400 W such systems draw.
		spray := sprayShare * r.number(t, "hover_w")
		assert.True(t, 50 <= spray && spray <= 400, "%.0f W", spray)
		loading := machine.FullMass.SI() / machine.Rotors.DiscArea().SI()
		assert.True(t, leastDiscLoading-0.1 <= loading && loading <= discLoading+0.1, "%.1f kg/m2", loading)
	}
}

// Mass on a scaled drag area: like shapes grow with the two-thirds power of the mass.
func TestDragAreaByMass(t *testing.T) {
	t.Parallel()
	assert.InEpsilon(t, 0.30, Machine{FullMass: 24 * kg}.dragArea().SI(), 1e-12)
	assert.InEpsilon(t, 1.20, Machine{FullMass: 192 * kg}.dragArea().SI(), 1e-12, "eight times the mass, four times the area")
	assert.InEpsilon(t, 0.30, Machine{EmptyMass: 24 * kg}.dragArea().SI(), 1e-12, "by the empty mass where the full one is not known")
	assert.Zero(t, Machine{FullMass: 24 * kg, DragArea: new(units.Area(0))}.dragArea(), "a stated zero is kept")
}

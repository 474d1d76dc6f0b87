package crew

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/units"
)

// A published hour of work, 1.15 ha at 3.6 km/h, flown here with a swath of 4 m: the efficiency must
// be what swath times efficiency implies.
func TestPublishedWorkRates(t *testing.T) {
	t.Parallel()
	for _, row := range published(t, "productivity-examples.csv") {
		a, b, c := number(t, row, "a"), number(t, row, "b"), number(t, row, "c")
		switch row["row"] {
		case "rate":
			const swath = 4.0
			area := units.Area(a) * units.Hectare
			plan := sorties(1, 1, area, 50*units.Minute)
			plan.SprayTime = units.Duration(area.SI() / (swath * b / 3.6))
			in := Input{Plan: plan, Aircraft: 1, BatteryEnergy: 1500 * units.WattHour, Crew: crewOf(2, 600, 60, 600)}
			out := Plan(in) // 10 minutes of loading and 50 of flight: one hour
			assert.InDelta(t, a, out.WorkRate.SI()*3600/units.Hectare.SI(), 1e-9)
			assert.InDelta(t, c, swath*out.FieldEfficiency.SI(), halfDigit(row, "c"))
		case "person":
			area := units.Area(a/15) * units.Hectare
			assert.InDelta(t, b, area.In(units.Hectare), halfDigit(row, "b"))
			assert.InDelta(t, c, area.In(units.Acre), halfDigit(row, "c"))
		default:
			t.Errorf("unknown row %q", row["row"])
		}
	}
}

package air

import (
	"fmt"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// The findings of freezing air.
const (
	// CodeAirFreezing (needed): the air is at or below freezing.
	CodeAirFreezing finding.Code = "air_freezing"
	// CodeWetBulbFreezing (caution): the air is above freezing, and water that evaporates into it is not.
	CodeWetBulbFreezing finding.Code = "wet_bulb_freezing"
)

// freezing is the freezing point of water at sea-level pressure, 0 C or 32 F: common knowledge. A mix
// may freeze at another temperature, which its label or maker tells.
const freezing units.Temperature = 273.15

// coldBattery goes with both findings. Common practice.
const coldBattery = "Cold batteries give less: keep them warm until takeoff and fly shorter."

// judgeFreezing says where water may freeze: in the lines and nozzles and on leaves in air at or below
// freezing, and on what is wet where the wet bulb alone is. What operators do about it is common practice.
func (s *State) judgeFreezing(n *notes) {
	f := finding.Finding{Subject: "/weather/temperature", Limit: freezing, Source: freezingPractice}
	switch {
	case units.AtMost(s.Temperature, freezing):
		dry, point, _ := finding.Apart(s.Temperature, freezing, fahrenheit)
		f.Code, f.Severity, f.Measured = CodeAirFreezing, finding.Needed, s.Temperature
		f.Message = fmt.Sprintf("The air is %s, and water freezes at %s. The mix may freeze in the lines and nozzles and on leaves. "+
			"Ask the label and the makers of the product and of the aircraft how cold it may be, and spray only above that, or wait for warmer air. %s",
			dry, point, coldBattery)
	case units.AtMost(s.WetBulb, freezing):
		dry, _, _ := finding.Apart(s.Temperature, freezing, fahrenheit)
		wet, point, _ := finding.Apart(s.WetBulb, freezing, fahrenheit)
		f.Code, f.Severity, f.Measured = CodeWetBulbFreezing, finding.Caution, s.WetBulb
		f.Message = fmt.Sprintf("The air is %s, but what is wet in it cools to %s, and water freezes at %s. Ice may form on drops, nozzles and leaves. "+
			"Look for ice before and during the job, and stop where you see it. %s", dry, wet, point, coldBattery)
	default:
		return
	}
	n.find(f)
}

package takeoff

import (
	"fmt"

	"tractcheck/feasibility/finding"
)

// assumptions lists what was taken for each fact not stated, in the order of the request. None of
// the values taken is good news by design, except the number of batteries, which is one on most machines,
// and the weight of other equipment, which cannot be guessed: near the 55 lb line a finding says so.
func assumptions(in Input, r Result) []finding.Assumption {
	var list []finding.Assumption
	if in.Aircraft.BatteriesOnBoard == 0 {
		list = append(list, finding.Assumption{
			Subject: "/aircraft/battery/on_board",
			Assumed: "one battery on board",
			Settle:  "send how many fly at once; each one more weighs as much again",
			Source:  ownChoice,
		})
	}
	if in.Aircraft.OtherOnboard == nil {
		list = append(list, finding.Assumption{
			Subject: "/aircraft/other_onboard_weight",
			Assumed: "0 lb of other equipment on board; everything attached counts toward takeoff weight: radio, lights, remote-ID module, sensors",
			Settle:  "weigh the aircraft ready to fly with an empty tank and send what the airframe and battery weights leave out",
			Source:  smallAircraftRule,
		})
	}
	if in.Load.Fill == nil {
		list = append(list, finding.Assumption{
			Subject: "/load/fill",
			Assumed: fmt.Sprintf("the largest fill that is allowed and fits: %s, held there by %s", gallonsDown(r.Fill), plainName(r.LargestFill.BoundBy)),
			Settle:  "send the fill you mean to load",
			Source:  ownChoice,
		})
	}
	if _, stated := in.Load.density(); !stated {
		list = append(list, finding.Assumption{
			Subject: "/load/density",
			Assumed: "the mix weighs as much as water, 8.345 lb/gal; liquid fertilizers weigh up to 44 percent more",
			Settle:  "send the density or specific gravity from the label or the safety data sheet, or weigh a gallon of the mix",
			Source:  waterDensity,
		})
	}
	if _, known := in.ratio(); !known {
		list = append(list, finding.Assumption{
			Subject: "/weather",
			Assumed: "air as dense as at sea level on a standard day (59 degF), so the maker's maximum is not reduced for heat or height",
			Settle:  "send the weather and the field's elevation",
			Source:  deratingRule,
		})
	}
	return list
}

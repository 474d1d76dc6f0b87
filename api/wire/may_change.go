package wire

import (
	"tractcheck/feasibility"
	"tractcheck/feasibility/units"
)

// mayChange reads what a remedy may change; nil where the caller did not say. An empty list says:
// nothing.
func mayChange(names []string) []feasibility.Knob {
	if names == nil {
		return nil
	}
	knobs := make([]feasibility.Knob, 0, len(names))
	for _, name := range names {
		knobs = append(knobs, feasibility.Knob(name))
	}
	return knobs
}

// scales reads the units in which the caller writes what a remedy may change; where a member was not
// sent, the unit that the answer is written in.
func (r *Request) scales() feasibility.Scales {
	return feasibility.Scales{
		Fill:            scale[units.Volume](r, "/load/fill"),
		Speed:           scale[units.Speed](r, "/flight/speed"),
		Height:          scale[units.Length](r, "/flight/height"),
		Swath:           scale[units.Length](r, "/flight/swath"),
		ApplicationRate: scale[units.ApplicationRate](r, "/load/application_rate"),
		RatedFlow:       scale[units.Flow](r, "/spray_system/nozzle/rated_flow"),
		RatedPressure:   scale[units.Pressure](r, "/spray_system/nozzle/rated_pressure"),
	}
}

// scale is one unit of a member, as the caller writes it.
func scale[Q measure](r *Request, pointer string) Q {
	var zero Q
	d, _ := dimensionOf(zero.Dimension())
	u, _ := d.find(r.changeUnit(pointer, d))
	return Q(u.toSI(1))
}

// changeUnit is the code of the unit that a change of a member is written in.
func (r *Request) changeUnit(pointer string, d *dimension) string {
	if sent := r.quantityAt(pointer); sent != nil {
		if _, ok := d.find(sent.Unit); ok {
			return sent.Unit
		}
	}
	return d.answersIn(r.system())
}

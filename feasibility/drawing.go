package feasibility

import (
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// Drawing is the job on the ground.
type Drawing struct {
	Map       tract.Map
	Swath     units.Length
	DriftZone []tract.Polygon // empty where the drift or the wind's direction is not known
	ZoneDepth units.Length    // the buffer: how far downwind the zone reaches
	Later     []tract.Polygon // strips that the drift asks to spray another day; the plan sprays them
	Notes     []string        // what is not drawn, and why
}

// Draw puts an answer to a mission on the map; it reports false where the field has no boundary to
// place it by. The drift zone is the ground that the wind crosses within the buffer's distance after
// it leaves the sprayed ground.
func (m Mission) Draw(a Answer) (Drawing, bool) {
	ground, ok := a.SortiePlan.Map()
	if !ok {
		return Drawing{}, false
	}
	d := Drawing{Map: ground}
	if m.Flight != nil {
		d.Swath = m.Flight.Swath
	}
	if ground.Coarse {
		d.note("The swath lines are too many to draw one by one. Send the tract in parts.")
	}
	if !ground.Coarse && !a.SortiePlan.Feasible {
		d.note("The sorties could not be planned; see findings. The lines are drawn without them.")
	}
	switch depth := a.DriftRisk.Buffer.Distance; {
	case depth <= 0:
		d.note("No drift zone is drawn, because drift was not worked out. That is no sign that there is none. Ask for the whole assessment.")
	case m.Weather == nil || m.Weather.WindSpeed <= 0:
		d.note("No drift zone is drawn, because the wind has no direction. Spray may drift any way.")
	default:
		d.DriftZone, d.ZoneDepth = a.SortiePlan.Downwind(depth, m.Weather.WindFrom), depth
		d.note("The drift zone is drawn for the stated wind. It moves as the wind turns, and some spray goes beyond it.")
	}
	d.Later = a.SortiePlan.StripsAlong(m.setBacks(a))
	switch {
	case len(d.Later) == 0 && a.SetBack.Left > 0:
		d.note("The strips to spray another day are not drawn, because this outline takes too much work. That is no sign that there are none. Draw the field with fewer corners to see them.")
	case len(d.Later) > 0:
		d.note("The strips to spray another day keep the drift worked out here from a neighbor. The lines still cross them: draw them as keep-outs to plan without them.")
	}
	return d, true
}

// note adds a note.
func (d *Drawing) note(text string) { d.Notes = append(d.Notes, text) }

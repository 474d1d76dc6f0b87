package permits

import (
	"slices"
	"strconv"
	"strings"

	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// facet is what a moving row reads of the facts that an hour moves; nil lengths stand as -1. While the
// facet stays as it was, so does what the row says.
type facet struct {
	phase              daylight.Phase
	wind               units.Speed
	calm               bool
	sight, below, side units.Length
	free               int8   // 1 where the sky holds no cloud, 0 where it does, -1 where that was not stated
	nearby             string // the neighbors with their distances and which lie downwind
}

// movingRows are the rows whose condition reads the light, the weather or what lies downwind, so that
// they can turn from one hour to the next, with what they read of it. A test changes those facts and
// watches every other row.
var movingRows = map[string]func(facet) facet{
	"night-training":                     facet.light,
	"night-lights":                       facet.light,
	"twilight-lights":                    facet.light,
	"visibility":                         facet.sky,
	"cloud-clearance":                    facet.sky,
	"dispensing-in-airport-surface-area": facet.sky,
	"label-wind":                         facet.label,
	"label-buffer":                       facet.around,
	"exclusion-zone":                     facet.around,
	"neighbor-notice":                    facet.around,
	"label-limits-aviation":              facet.label,
}

func (f facet) light() facet  { return facet{phase: f.phase} }
func (f facet) sky() facet    { return facet{sight: f.sight, below: f.below, side: f.side, free: f.free} }
func (f facet) around() facet { return facet{nearby: f.nearby} }
func (f facet) label() facet  { return facet{wind: f.wind, calm: f.calm, nearby: f.nearby} }

// facetOf reads the facts that an hour moves.
func facetOf(f Facts) facet {
	length := func(l *units.Length) units.Length {
		if l == nil {
			return -1
		}
		return *l
	}
	moved := facet{
		phase: f.Phase, wind: f.WindSpeed, calm: f.CalmMeasured,
		sight: length(f.Visibility), below: length(f.CloudBelow), side: length(f.CloudSide), free: -1,
	}
	if f.CloudFree != nil {
		moved.free = 0
		if *f.CloudFree {
			moved.free = 1
		}
	}
	var nearby []byte
	for _, n := range f.Neighbors {
		nearby = strconv.AppendFloat(nearby, n.Distance.SI(), 'g', -1, 64)
		nearby = strconv.AppendBool(nearby, n.Downwind)
	}
	moved.nearby = string(nearby)
	return moved
}

// hourLimits are the moving rows that, when needed, are needed because of the hour: another hour, with
// more light or better weather, does without. A row that is needed at every hour is a paper like others.
var hourLimits = []string{"night-training", "night-lights", "twilight-lights", "visibility", "cloud-clearance"}

// lightRows are those of them that bind even where it was not stated whether they are met, in the dark and
// where nobody can tell whether it is dark: the hour asks for it, and one in known daylight does not.
var lightRows = []string{"night-training", "night-lights", "twilight-lights"}

// HourFinding is what a row says of one hour.
type HourFinding struct {
	finding.Finding
	Binds bool // the row is prohibited in this hour, a limit that its light or weather breaks, or what its darkness asks for
}

// Hourly is the table ready to be asked about one job at many hours. What the hour does not move is
// evaluated once and kept, so asking again is cheap. It is not safe for use by several goroutines.
type Hourly struct {
	rows []*row // the moving ones
	kept []*standing

	view  view          // that of the hour asked about
	found []HourFinding // what is said of it
}

// standing is the table evaluated on facts that agree in all that the other rows read, and what the
// moving rows last said.
type standing struct {
	key    string
	shared *view
	papers Checklist
	last   []said
}

// said is what a row said, and of which facts.
type said struct {
	of       facet
	asked    bool
	reported bool
	finding  HourFinding
}

// ByHour readies the table.
func ByHour() *Hourly {
	h := &Hourly{}
	for i := range table {
		if _, moves := movingRows[table[i].ID]; moves {
			h.rows = append(h.rows, &table[i])
		}
	}
	return h
}

// At evaluates the table for an hour, with facts of one job that differ in time, light, weather, takeoff
// weight and neighbors only. It reports the checklist of an hour that agrees with this one in all but
// the moving rows, its findings without theirs, and what the moving rows say of this hour. The findings
// of both together are those of Check, in another order; those that count rows may count another hour's.
// The list of what the moving rows say is the caller's until the next hour is asked about.
func (h *Hourly) At(f Facts) (Checklist, []HourFinding) {
	s := h.standing(f)
	if s.papers.Elsewhere != "" {
		return s.papers, nil
	}
	v, moved := &h.view, facetOf(f)
	pointers, compared := v.pointers[:0], v.compared[:0] // what the last hour had room for
	*v = *s.shared
	v.pointers, v.compared = pointers, compared
	v.Facts = f
	*v.shared = judged{} // some read the hour
	var found []HourFinding
	for i, r := range h.rows {
		row := &s.last[i]
		if reads := movingRows[r.ID](moved); !row.asked || row.of != reads {
			*row = v.ask(r)
			row.of, row.asked = reads, true
		}
		if row.reported && found == nil {
			found = h.found[:0]
		}
		if row.reported {
			found = append(found, row.finding)
			h.found = found
		}
	}
	return s.papers, found
}

// ask evaluates one row for an hour.
func (v *view) ask(r *row) said {
	var item Item
	shown := v.item(r, &item)
	severity, reported := item.severity()
	if !shown || !reported {
		return said{}
	}
	compared := item.Compared.Figures()
	return said{reported: true, finding: HourFinding{
		Finding: finding.Finding{
			Code: r.code, Severity: severity, Subject: item.pointer(), Message: v.message(&item),
			Measured: compared.Measured, Limit: compared.Limit, Margin: compared.Margin, Source: r.source,
		},
		Binds: severity == finding.Stop || item.Status == NeededNow && v.hourly(r) ||
			item.Status == Unknown && v.mayBeDark() && slices.Contains(lightRows, r.ID),
	}}
}

// hourly reports whether the row, where needed, is needed because of the hour. In surface class E the
// authorization to dispense is needed below the visual minimums only (14 CFR 137.43).
func (v *view) hourly(r *row) bool {
	return slices.Contains(hourLimits, r.ID) ||
		r.ID == "dispensing-in-airport-surface-area" && v.Airspace == AirspaceESurface
}

// mayBeDark reports whether the hour is not known to be day. A light that is not known is no daylight.
func (v *view) mayBeDark() bool { return v.Phase != daylight.Day }

// standing finds the evaluation that the facts share, or makes it.
func (h *Hourly) standing(f Facts) *standing {
	key := keyOf(f)
	for _, s := range h.kept {
		if s.key == key {
			return s
		}
	}
	c := Open(f)
	s := &standing{key: key, shared: &c.view, papers: c.Check(), last: make([]said, len(h.rows))}
	if s.papers.Elsewhere == "" {
		s.papers.Findings = slices.DeleteFunc(s.papers.Findings, func(found finding.Finding) bool {
			return slices.ContainsFunc(h.rows, func(r *row) bool { return r.code == found.Code })
		})
	}
	h.kept = append(h.kept, s)
	return s
}

// keyOf names what the rows that do not move can tell apart between two hours of one job: which
// holdings have run out, whether the date is known, and the takeoff weight on both sides of the line.
func keyOf(f Facts) string {
	var key strings.Builder
	for _, id := range f.Holds {
		key.WriteString(strconv.FormatBool(f.holding(id).expired))
	}
	key.WriteString(strconv.FormatBool(f.At != nil))
	for _, weight := range []*units.Mass{&f.TakeoffWeight, f.OtherSide} {
		key.WriteByte('/')
		if weight != nil {
			key.WriteString(strconv.FormatFloat(weight.SI(), 'g', -1, 64))
		}
	}
	return key.String()
}

package permits

import (
	"slices"
	"strconv"
	"strings"

	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// movingRows are the rows whose condition reads the light, the weather or what lies downwind, so that
// they can turn from one hour to the next. A test changes those facts and watches every other row.
var movingRows = []string{
	"night-training", "night-lights", "twilight-lights", "visibility", "cloud-clearance",
	"dispensing-in-airport-surface-area", "label-wind", "label-buffer", "label-limits-aviation", "exclusion-zone", "neighbor-notice",
}

// hourLimits are the moving rows that, when needed, are needed because of the hour: another hour, with
// more light or better weather, does without. A row that is needed at every hour is a paper like others.
var hourLimits = []string{"night-training", "night-lights", "twilight-lights", "visibility", "cloud-clearance"}

// lightRows are those of them that bind in the dark even where it was not stated whether they are met: the
// hour asks for it, and another does not.
var lightRows = []string{"night-training", "night-lights", "twilight-lights"}

// HourFinding is what a row says of one hour.
type HourFinding struct {
	finding.Finding
	Binds bool // the row is prohibited in this hour, a limit that its light or weather breaks, or what its darkness asks for
}

// Hourly is the table ready to be asked about one job at many hours. What the hour does not move is
// evaluated once and kept, so asking again is cheap. It is not safe for use by several goroutines.
type Hourly struct {
	rules []Rule // the moving ones
	kept  []standing
}

// standing is the table evaluated on facts that agree in all that the other rows read.
type standing struct {
	key    string
	shared view
	papers Checklist
}

// ByHour readies the table.
func ByHour() *Hourly {
	h := &Hourly{}
	for _, r := range Rules() {
		if slices.Contains(movingRows, r.ID) {
			h.rules = append(h.rules, r)
		}
	}
	return h
}

// At evaluates the table for an hour, with facts of one job that differ in time, light, weather, takeoff
// weight and neighbors only. It reports the checklist of an hour that agrees with this one in all but
// the moving rows, its findings without theirs, and what the moving rows say of this hour. The findings
// of both together are those of Check, in another order; those that count rows may count another hour's.
func (h *Hourly) At(f Facts) (Checklist, []HourFinding) {
	s := h.standing(f)
	if s.papers.Elsewhere != "" {
		return s.papers, nil
	}
	v := s.shared
	v.Facts = f
	var found []HourFinding
	for _, r := range h.rules {
		item, shown := v.item(r)
		severity, reported := item.severity()
		if !shown || !reported {
			continue
		}
		found = append(found, HourFinding{
			Finding: finding.Finding{
				Code: CodeOf(item.ID), Severity: severity, Subject: item.pointer(), Message: item.message(),
				Measured: item.Measured, Limit: item.Limit, Margin: item.Margin, Source: find(v.table, item.sources[0]),
			},
			Binds: severity == finding.Stop || item.Status == NeededNow && v.hourly(r) || item.Status == Unknown && v.dark() && slices.Contains(lightRows, r.ID),
		})
	}
	return s.papers, found
}

// hourly reports whether the row, where needed, is needed because of the hour. In surface class E the
// authorization to dispense is needed below the visual minimums only (14 CFR 137.43).
func (v view) hourly(r Rule) bool {
	return slices.Contains(hourLimits, r.ID) ||
		r.ID == "dispensing-in-airport-surface-area" && v.Airspace == AirspaceESurface
}

// dark reports whether the hour is known to be twilight or night.
func (v view) dark() bool { return v.Phase == daylight.Twilight || v.Phase == daylight.Night }

// standing finds the evaluation that the facts share, or makes it.
func (h *Hourly) standing(f Facts) standing {
	key := keyOf(f)
	for _, s := range h.kept {
		if s.key == key {
			return s
		}
	}
	s := standing{key: key, papers: Check(f)}
	if s.papers.Elsewhere == "" {
		s.shared = look(f)
		s.papers.Findings = slices.DeleteFunc(s.papers.Findings, func(found finding.Finding) bool {
			return slices.ContainsFunc(h.rules, func(r Rule) bool { return CodeOf(r.ID) == found.Code })
		})
	}
	h.kept = append(h.kept, s)
	return s
}

// keyOf names what the rows that do not move can tell apart between two hours of one job: which
// holdings have run out, whether the date is known, and the takeoff weight on both sides of the line.
func keyOf(f Facts) string {
	var key strings.Builder
	for _, held := range holdings(f) {
		key.WriteString(strconv.FormatBool(held.expired))
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

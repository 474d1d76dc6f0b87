package permits

import (
	"fmt"
	"slices"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// WeightLine is where a country draws the line for its light unmanned aircraft. Inclusive lines
// count a weight equal to the threshold as light (at most), strict ones do not (less than).
type WeightLine struct {
	Country   string // ISO 3166-1 alpha-2, or EU
	Place     string
	Threshold *units.Mass // nil: no figure known
	Inclusive bool
	Note      string
	Citation  string
	Grade     Grade
	Source    string
}

// light judges whether a takeoff weight is on the light side.
func (l WeightLine) light(w units.Mass) bool {
	if l.Inclusive {
		return units.AtMost(w, *l.Threshold)
	}
	return units.StrictlyBelow(w, *l.Threshold)
}

// operator is the comparison in words.
func (l WeightLine) operator() string {
	if l.Inclusive {
		return "at most"
	}
	return "less than"
}

// lineOf finds a country's weight line.
func lineOf(country string) (WeightLine, bool) {
	if slices.Contains(unionMembers(), country) {
		country = "EU"
	}
	lines := WeightLines()
	at := slices.IndexFunc(lines, func(l WeightLine) bool { return l.Country == country })
	if at < 0 {
		return WeightLine{}, false
	}
	return lines[at], true
}

// checkAbroad answers for a country whose rules this table does not hold: its weight line where
// one is known, everything else unknown. It never clears a mission. Regime stays the one of the
// United States, because the two names belong to its line.
func (v *view) checkAbroad(country string) Checklist {
	c := Checklist{Regime: v.regime, AsOf: AsOf()}
	own := v.source("permits-own-design")
	place, citation := country, "law of the country"
	if line, ok := lineOf(country); ok {
		place = line.Place
		c.Items = append(c.Items, weightLineItem(line, v.TakeoffWeight))
		c.Sources = append(c.Sources, v.source(line.Source))
		citation = line.Citation
	}
	c.Items = append(c.Items, nationalItems(place, citation, len(v.Holds))...)
	c.Sources = append(c.Sources, own)
	c.Elsewhere, c.Cautions = place, cautionsAbroad(place)
	c.Findings = []finding.Finding{{
		Code: CodeCountryNotCovered, Severity: finding.Needed, Subject: "/operation/country",
		Message: fmt.Sprintf("This table covers the United States only, so nothing is cleared for %s. "+
			"Ask its aviation authority and its pesticide authority what the job needs before flying.", place),
		Source: own,
	}}
	return c
}

// nationalItems is the thin table of a country whose rules are not held: what must be asked there,
// all of it unknown. Own design; the questions are those that the table of the United States answers.
func nationalItems(place, citation string, held int) []Item {
	because := "this table holds the rules of the United States only, so nothing here is known to be in order"
	if held > 0 {
		because += "; what you hold is sent by ids of that table and counts for nothing here"
	}
	ask := func(id, title string, group Group, demands, whom, evidence string) Item {
		return Item{Status: Unknown, Because: because, Entry: &Entry{
			ID: id, Title: title, Kind: Permit, Group: group, Demands: demands,
			Citation: citation, HowToGet: "ask " + whom, Evidence: evidence, Grade: GradeMemory,
		}}
	}
	const aviation, pesticides = "the country's aviation authority", "the country's pesticide authority"
	return []Item{
		ask("national-pilot-rules", "Rules on the pilot in "+place, GroupPilot, "licenses, training and duties of whoever flies", aviation, "written answer"),
		ask("national-aircraft-rules", "Rules on the aircraft in "+place, GroupAircraft, "registration, marking, approval and remote identification", aviation, "written answer"),
		ask("national-rules", "Rules on spraying from the air in "+place, GroupExemption, "whatever the country asks before anything is sprayed or dropped from an unmanned aircraft", aviation+" and "+pesticides, "written answers"),
		ask("national-applicator-rules", "Rules on the applicator in "+place, GroupCertification, "licenses of operator and applicator", pesticides, "written answer"),
		ask("national-flight-rules", "Rules on the flight in "+place, GroupJob, "airspace, height, people, sight and hours", aviation, "written answer"),
		ask("national-label-rules", "Label and product rules in "+place, GroupLabel, "whether the product may be sprayed from the air there, and how", pesticides, "label in force there"),
	}
}

// weightLineItem places a takeoff weight at a country's line. It stays unknown, because being on
// the light side clears nothing.
func weightLineItem(line WeightLine, w units.Mass) Item {
	item := Item{Status: Unknown, Missing: []string{"/operation/country"}, Entry: &Entry{
		ID: "weight-line", Title: "Weight line of " + line.Place, Kind: Limit, Group: GroupWeight,
		Citation: line.Citation, Grade: line.Grade, Demands: line.Note,
		HowToGet: "ask the country's aviation authority", Evidence: "weight sheet",
	}}
	if line.Grade == GradeMemory {
		item.Citation += " (from memory)"
	}
	switch {
	case line.Threshold == nil:
		item.Because = "no figure of this country's line is known here; " + line.Note
		return item
	case !known(w):
		item.Because, item.Missing = "not stated: the takeoff weight", []string{"/aircraft/empty_weight"}
		return item
	}
	side := "over"
	if line.light(w) {
		side = "inside" // which clears nothing: see the note
	}
	item.Compared = &Comparison{w, *line.Threshold, margin(*line.Threshold, w)}
	item.Because = fmt.Sprintf("%s kg on takeoff is %s the line of %s %s kg; %s",
		beside(w.In(units.Kilogram), line.Threshold.In(units.Kilogram)), side, line.operator(), figure(line.Threshold.In(units.Kilogram)), line.Note)
	return item
}

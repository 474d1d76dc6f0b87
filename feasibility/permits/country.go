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
func checkAbroad(f Facts, country string) Checklist {
	v := look(f)
	c := Checklist{Regime: v.regime, AsOf: AsOf(), Cautions: cautions(f.At)}
	own := v.source("permits-own-design")
	place, citation := country, "law of the country"
	if line, ok := lineOf(country); ok {
		place = line.Place
		c.Items = append(c.Items, weightLineItem(line, f.TakeoffWeight))
		c.Sources = append(c.Sources, v.source(line.Source))
		citation = line.Citation
	}
	c.Items = append(c.Items, Item{
		ID: "national-rules", Title: "Rules of the country", Status: Unknown, Kind: Permit, Group: GroupExemption,
		Because:  "this table holds the rules of the United States only",
		Demands:  "whatever the country asks of aircraft, pilot, operator, spraying and product",
		Citation: citation, HowToGet: "ask the country's aviation authority and its pesticide authority",
		Evidence: "written answers", Grade: GradeMemory, Missing: []string{"/operation/country"},
	})
	c.Sources = append(c.Sources, own)
	c.Findings = []finding.Finding{{
		Code: CodeCountryNotCovered, Severity: finding.Needed, Subject: "/operation/country",
		Message: fmt.Sprintf("This table covers the United States only, so nothing is cleared for %s. "+
			"Ask its aviation authority and its pesticide authority what the job needs before flying.", place),
		Source: own,
	}}
	return c
}

// weightLineItem places a takeoff weight at a country's line. It stays unknown, because being on
// the light side clears nothing.
func weightLineItem(line WeightLine, w units.Mass) Item {
	item := Item{
		ID: "weight-line", Title: "Weight line of " + line.Place, Status: Unknown, Kind: Limit, Group: GroupWeight,
		Citation: line.Citation, Grade: line.Grade, Demands: line.Note,
		HowToGet: "ask the country's aviation authority", Evidence: "weight sheet", Missing: []string{"/operation/country"},
	}
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
		side = "inside"
	}
	item.Measured, item.Limit, item.Margin = w, *line.Threshold, margin(*line.Threshold, w)
	item.Because = fmt.Sprintf("%s kg on takeoff is %s the line of %s %s kg; %s",
		beside(w.In(units.Kilogram), line.Threshold.In(units.Kilogram)), side, line.operator(), figure(line.Threshold.In(units.Kilogram)), line.Note)
	return item
}

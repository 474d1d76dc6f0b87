package wire

import (
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
)

// DriftGradeTable is how a drift grade is drawn.
type DriftGradeTable struct {
	ReadAt      Quantity     `json:"read_at"`
	Rows        []DriftGrade `json:"rows"`
	RaisedBy    Quantity     `json:"raised_by_fines_over"`
	SevereCodes []string     `json:"severe_codes"`
	Source      string       `json:"source"`
	Sources     []Source     `json:"sources"`
}

// DriftGrade is one grade and the most deposit it admits; the last has no bound.
type DriftGrade struct {
	Grade string    `json:"grade"`
	UpTo  *Quantity `json:"up_to,omitzero"`
	Plain string    `json:"plain"`
}

func newDriftGradeTable() DriftGradeTable {
	rules := drift.Grading()
	table := DriftGradeTable{
		ReadAt: express(rules.ReadAt, "m"), RaisedBy: express(rules.FinesOver, "%"), Source: rules.Source.ID,
		SevereCodes: []string{string(air.CodeInversionObserved), string(air.CodeInversionPresumed)},
		Sources:     sourcesOnWire([]finding.Source{rules.Source}),
	}
	for _, step := range rules.Steps {
		bound := express(step.UpTo, "%")
		table.Rows = append(table.Rows, DriftGrade{Grade: string(step.Grade), UpTo: &bound, Plain: step.Plain})
	}
	table.Rows = append(table.Rows, DriftGrade{Grade: string(drift.Severe), Plain: "more than that, or a stop of the weather"})
	for _, code := range rules.Severe {
		table.SevereCodes = append(table.SevereCodes, string(code))
	}
	return table
}

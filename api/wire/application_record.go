package wire

import (
	"time"

	"tractcheck/feasibility/permits"
)

// ApplicationRecord is the record of the application, filled as far as the mission goes.
type ApplicationRecord struct {
	Duty     string        `json:"duty"`
	Because  string        `json:"because"`
	WriteBy  string        `json:"write_by,omitzero"`
	KeepFor  string        `json:"keep_for"`
	Citation string        `json:"citation"`
	Fields   []RecordField `json:"fields"`
}

// RecordField is one entry of the record; text and quantity are both absent for a blank.
type RecordField struct {
	Name     string    `json:"name"`
	Title    string    `json:"title"`
	Filled   bool      `json:"filled"`
	Text     string    `json:"text,omitzero"`
	Quantity *Quantity `json:"quantity,omitzero"`
	Write    string    `json:"write"`
	Citation string    `json:"citation"`
}

// record writes the application record; nil where there is none.
func (w *writer) record(r permits.ApplicationRecord) *ApplicationRecord {
	if len(r.Fields) == 0 {
		return nil
	}
	out := &ApplicationRecord{
		Duty: string(r.Duty), Because: r.Because, KeepFor: r.KeepFor, Citation: r.Citation,
		Fields: make([]RecordField, 0, len(r.Fields)),
	}
	if r.WriteBy != nil {
		out.WriteBy = r.WriteBy.Format(time.DateOnly)
	}
	for _, f := range r.Fields {
		out.Fields = append(out.Fields, RecordField{
			Name: f.Name, Title: f.Title, Filled: f.Filled(), Text: f.Text, Quantity: w.maybe(f.Quantity, ""),
			Write: f.Write, Citation: f.Citation,
		})
	}
	return out
}

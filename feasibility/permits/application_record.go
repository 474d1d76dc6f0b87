package permits

import (
	"time"

	"tractcheck/feasibility/units"
)

// Applicator is who answers for the application.
type Applicator struct {
	Name        *string
	Certificate *string // number of the applicator's certificate
}

// Application is what a mission states of the record of its own application. Nil and empty are not
// stated.
type Application struct {
	Product    *units.Volume // of the product itself, over the whole job
	Mix        *units.Volume // of the spray mix, over the whole job
	Area       *units.Area   // to be treated
	Place      string        // where the field is, in words
	Crop       *string       // crop, commodity or site
	Applicator Applicator
}

// RecordDuty says whether federal law asks for the application record.
type RecordDuty string

// The duties of a record.
const (
	RecordRequired    RecordDuty = "required"     // the product is restricted use
	RecordUnknown     RecordDuty = "unknown"      // it is not known whether it is
	RecordNotRequired RecordDuty = "not_required" // no federal rule of this table asks; a state may
)

// RecordField is one entry of the record. Text or Quantity hold what is known before the job; both
// are empty for a blank. Write says what to write or to correct.
type RecordField struct {
	Name     string
	Title    string
	Text     string
	Quantity units.Quantity
	Write    string
	Citation string
}

// Filled reports whether the mission filled the entry.
func (f RecordField) Filled() bool { return f.Text != "" || f.Quantity != nil }

// ApplicationRecord is the record of a pesticide application as 7 CFR 110.3 asks for it, with what a
// commercial applicator adds (40 CFR 171.303(b)(7)), filled from the mission as far as it goes. It
// records a plan: every entry is to be made true after the job.
type ApplicationRecord struct {
	Duty     RecordDuty
	Because  string
	WriteBy  *time.Time // last day to write it; nil where the job has no date
	KeepFor  string
	Citation string
	Fields   []RecordField // none where the tank holds no pesticide, or the country is another
}

// Times of the federal record, as given by a state department of agriculture and a state university:
// written within 14 days, kept 2 years. 7 CFR 110.3.
const (
	recordDays = 14
	recordKept = "2 years"
)

const (
	privateRecord    = "7 CFR 110.3"
	commercialRecord = "40 CFR 171.303(b)(7)"
)

// Record fills the record of an application. It has no fields where the tank holds no pesticide or
// the table does not hold the country's rules.
func (c *Case) Record(a Application) ApplicationRecord {
	v := &c.view
	if !Covers(v.Country) || v.poison.Truth == No {
		return ApplicationRecord{}
	}
	private := v.purpose(Private).Truth == Yes
	record := ApplicationRecord{KeepFor: recordKept, Citation: privateRecord, Fields: v.recordFields(a, private)}
	record.Duty, record.Because = v.recordDuty()
	if v.At != nil {
		by := v.At.AddDate(0, 0, recordDays)
		record.WriteBy = &by
	}
	if !private {
		record.Citation = privateRecord + "; " + commercialRecord
	}
	return record
}

// recordDuty says whether the record is asked for, and why.
func (v *view) recordDuty() (RecordDuty, string) {
	switch j := v.restrictedUse(); j.Truth {
	case Yes:
		return RecordRequired, j.Because
	case No:
		return RecordNotRequired, v.say(j.Because, "; many states ask for the same record of any pesticide (common practice), so ask yours")
	default:
		return RecordUnknown, v.say(notStated, j.Because)
	}
}

// recordFields fills the entries of the record, in their order. A private applicator keeps the first
// ones only.
func (v *view) recordFields(a Application, private bool) []RecordField {
	entries := recordEntries
	if private {
		entries = entries[:privateEntries]
	}
	fields := make([]RecordField, len(entries))
	for i := range entries {
		e := &entries[i]
		fields[i] = RecordField{Name: e.name, Title: e.title, Write: e.blank, Citation: e.citation}
		if fill := e.fill; fill != nil {
			fields[i].Text, fields[i].Quantity = fill(v, a)
		}
		if fields[i].Filled() {
			fields[i].Write = e.filled
		}
		if e.name == "total_amount" {
			fields[i].Write = v.say(fields[i].Write, v.mixNote(a.Mix))
		}
	}
	return fields
}

// mixNote tells the amount of mix, so that nobody writes it for the product.
func (v *view) mixNote(mix *units.Volume) string {
	if mix == nil || !known(*mix) {
		return ""
	}
	return v.say(" (the plan sprays ", v.number(mix.In(units.Gallon), " gal of mix)"))
}

// textOf is a stated text, or none.
func textOf(text *string) string {
	if text == nil {
		return ""
	}
	return *text
}

// asQuantity is a stated positive quantity, or none.
func asQuantity[Q quantity](q *Q) units.Quantity {
	if q == nil || !known(*q) {
		return nil
	}
	return *q
}

// formatted writes a moment in its own time zone; empty where there is none.
func formatted(at *time.Time, layout string) string {
	if at == nil {
		return ""
	}
	return at.Format(layout)
}

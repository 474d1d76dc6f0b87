package permits

import (
	"fmt"
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
func Record(f Facts, a Application) ApplicationRecord {
	v := look(f)
	if !Covers(f.Country) || v.poison.Truth == No {
		return ApplicationRecord{}
	}
	record := ApplicationRecord{KeepFor: recordKept, Citation: privateRecord, Fields: commonFields(v, a)}
	record.Duty, record.Because = v.recordDuty()
	if v.At != nil {
		by := v.At.AddDate(0, 0, recordDays)
		record.WriteBy = &by
	}
	if v.purpose(Private).Truth != Yes {
		record.Citation += "; " + commercialRecord
		record.Fields = append(record.Fields, commercialFields(v)...)
	}
	return record
}

// recordDuty says whether the record is asked for, and why.
func (v view) recordDuty() (RecordDuty, string) {
	switch j := v.restrictedUse(); j.Truth {
	case Yes:
		return RecordRequired, j.Because
	case No:
		return RecordNotRequired, j.Because + "; many states ask for the same record of any pesticide (common practice), so ask yours"
	default:
		return RecordUnknown, notStated + j.Because
	}
}

// commonFields is the entries of every record, in the order of 7 CFR 110.3.
func commonFields(v view, a Application) []RecordField {
	return []RecordField{
		entry("brand", "Brand or product name", v.Label.Brand, "the brand name as the label prints it"),
		entry("epa_registration_number", "EPA registration number", v.Label.EPARegistrationNumber,
			"the number after \"EPA Reg. No.\" on the label"),
		measuredEntry("total_amount", "Total amount of product", asQuantity(a.Product),
			"the total amount of the product itself, not of the spray mix"+mixNote(a.Mix)),
		planned("place", "Location of the application", a.Place,
			"where the field is: county with range, township and section, a map number, or the legal description (from memory)"),
		measuredEntry("area", "Size of the area treated", asQuantity(a.Area), "the area that was really sprayed"),
		entry("crop_or_site", "Crop, commodity, stored product or site", a.Crop, "the crop or site that was sprayed"),
		planned("date", "Month, day and year", formatted(v.At, "January 2, 2006"), "the date of the application"),
		entry("applicator_name", "Name of the certified applicator", a.Applicator.Name,
			"the name of the certified applicator who applied or supervised"),
		entry("applicator_certificate_number", "Certification number of the applicator", a.Applicator.Certificate,
			"the number on that person's applicator certificate, not on the pilot's"),
	}
}

// commercialFields is what a commercial applicator adds.
func commercialFields(v view) []RecordField {
	fields := []RecordField{
		planned("customer_name", "Name of the customer", "", "the name of the person the work was done for"),
		planned("customer_address", "Address of the customer", "", "the address of that person"),
		planned("start_time", "Start time", formatted(v.At, "15:04 (UTC-07:00)"), "the time the spraying started"),
		planned("supervised_applicators", "Anyone who applied under supervision", "",
			"the name of each noncertified person who applied under supervision, or \"none\""),
	}
	for i := range fields {
		fields[i].Citation = commercialRecord
	}
	return fields
}

// entry is a field that does not change with the job.
func entry(name, title string, text *string, write string) RecordField {
	field := RecordField{Name: name, Title: title, Write: "write " + write, Citation: privateRecord}
	if text != nil && *text != "" {
		field.Text, field.Write = *text, "check it against the label or the card"
		if name == "crop_or_site" {
			field.Write = "check it after the job"
		}
	}
	return field
}

// planned is a field filled from the plan, which the job may change.
func planned(name, title, text, write string) RecordField {
	field := RecordField{Name: name, Title: title, Text: text, Write: "write " + write, Citation: privateRecord}
	if text != "" {
		field.Write = "this is the plan; after the job " + field.Write
	}
	return field
}

// measuredEntry is a planned field that is a quantity.
func measuredEntry(name, title string, q units.Quantity, write string) RecordField {
	field := RecordField{Name: name, Title: title, Quantity: q, Write: "write " + write, Citation: privateRecord}
	if q != nil {
		field.Write = "this is the plan; after the job " + field.Write
	}
	return field
}

// mixNote tells the amount of mix, so that nobody writes it for the product.
func mixNote(mix *units.Volume) string {
	if mix == nil || !known(*mix) {
		return ""
	}
	return fmt.Sprintf(" (the plan sprays %s gal of mix)", figure(mix.In(units.Gallon)))
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

package permits

import "tractcheck/feasibility/units"

// recordEntry is one entry of the record of an application: what to write where it is blank, what to
// do about it where the mission filled it, and what fills it.
type recordEntry struct {
	name, title   string
	blank, filled string
	citation      string
	fill          func(*view, Application) (string, units.Quantity) // nil where no mission can
}

// privateEntries is how many of recordEntries every applicator keeps (7 CFR 110.3); the others are
// those that a commercial one adds (40 CFR 171.303(b)(7)).
const privateEntries = 9

// recordEntries are the entries of the record, in the order of 7 CFR 110.3. They never change.
var recordEntries = []recordEntry{
	printed("brand", "Brand or product name", "the brand name as the label prints it",
		func(v *view, _ Application) *string { return v.Label.Brand }),
	printed("epa_registration_number", "EPA registration number", "the number after \"EPA Reg. No.\" on the label",
		func(v *view, _ Application) *string { return v.Label.EPARegistrationNumber }),
	planned("total_amount", "Total amount of product", privateRecord,
		"the total amount of the product itself, not of the spray mix",
		func(_ *view, a Application) (string, units.Quantity) { return "", asQuantity(a.Product) }),
	planned("place", "Location of the application", privateRecord,
		"where the field is: county with range, township and section, a map number, or the legal description (from memory)",
		func(_ *view, a Application) (string, units.Quantity) { return a.Place, nil }),
	planned("area", "Size of the area treated", privateRecord, "the area that was really sprayed",
		func(_ *view, a Application) (string, units.Quantity) { return "", asQuantity(a.Area) }),
	sprayedCrop(),
	planned("date", "Month, day and year", privateRecord, "the date of the application",
		func(v *view, _ Application) (string, units.Quantity) { return formatted(v.At, "January 2, 2006"), nil }),
	printed("applicator_name", "Name of the certified applicator", "the name of the certified applicator who applied or supervised",
		func(_ *view, a Application) *string { return a.Applicator.Name }),
	printed("applicator_certificate_number", "Certification number of the applicator",
		"the number on that person's applicator certificate, not on the pilot's",
		func(_ *view, a Application) *string { return a.Applicator.Certificate }),

	planned("customer_name", "Name of the customer", commercialRecord, "the name of the person the work was done for", nil),
	planned("customer_address", "Address of the customer", commercialRecord, "the address of that person", nil),
	planned("start_time", "Start time", commercialRecord, "the time the spraying started",
		func(v *view, _ Application) (string, units.Quantity) {
			return formatted(v.At, "15:04 (UTC-07:00)"), nil
		}),
	planned("supervised_applicators", "Anyone who applied under supervision", commercialRecord,
		"the name of each noncertified person who applied under supervision, or \"none\"", nil),
}

// printed is an entry that does not change with the job.
func printed(name, title, write string, text func(*view, Application) *string) recordEntry {
	return recordEntry{
		name: name, title: title, citation: privateRecord,
		blank: "write " + write, filled: "check it against the label or the card",
		fill: func(v *view, a Application) (string, units.Quantity) { return textOf(text(v, a)), nil },
	}
}

// sprayedCrop is the entry of the crop, which the caller states and only the job shows.
func sprayedCrop() recordEntry {
	e := printed("crop_or_site", "Crop, commodity, stored product or site", "the crop or site that was sprayed",
		func(_ *view, a Application) *string { return a.Crop })
	e.filled = "check it after the job"
	return e
}

// planned is an entry filled from the plan, which the job may change.
func planned(name, title, citation, write string, fill func(*view, Application) (string, units.Quantity)) recordEntry {
	return recordEntry{
		name: name, title: title, citation: citation,
		blank: "write " + write, filled: "this is the plan; after the job write " + write, fill: fill,
	}
}

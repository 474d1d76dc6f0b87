package form

// field is one line of the form: where its value goes in the request, and how a person reads it.
// Everything else about it (kind, range, choices) is the contract's.
type field struct {
	at     string // pointer in the request; in the rows of a list, from the row on
	label  string
	us, si string // of a quantity, the unit offered first in each unit system
	hint   string // what to write; the range is added from the contract
}

// part is a group of fields under one title.
type part struct {
	id, title string
	note      string
	folded    bool   // shown closed: less usual facts
	list      string // pointer of the list whose rows the fields are
	none      string // the tick that says the list is empty, which is not the same as not said
	only      only
	fields    []field
	parts     []part
}

// only is when the facts of a part are sent: where another member has this value. What was typed
// stays in the form all the same.
type only struct{ at, value string }

// layout is the whole form, in the order it is filled in.
func layout() []part {
	return []part{
		jobPart(), aircraftPart(), sprayPart(), loadPart(), flightPart(), fieldPart(), weatherPart(),
		operationPart(), crewPart(), changePart(),
	}
}

// changePart is what may be changed to make the job work.
func changePart() part {
	return part{
		id: "change", title: "What may change", folded: true,
		note: "If the job does not work as it is, changes are looked for. Tick what you could change; with no tick at all, everything may.",
		fields: []field{
			{at: "/may_change", label: "May change"},
		},
	}
}

// jobPart is what names the job.
func jobPart() part {
	return part{id: "job", title: "The job", fields: []field{
		{at: "/reference", label: "Your name for this job", hint: "It is printed on the answer. Leave out what is private."},
		{at: "/units", label: "Units of the answer", hint: "US units where nothing is chosen."},
	}}
}

package permits

import (
	"fmt"
	"time"
)

// seasonOld is the age at which the table must be checked again: about a season; own choice.
const seasonOld = 90 * 24 * time.Hour

// lastRead is the last day whose publications could be read for this table.
const lastRead = "2026-10-08"

// StandingCautions is what the table is not, whatever the job.
func StandingCautions() []string { return cautions(nil) }

// cautionsAbroad is what an answer for another country is not.
func cautionsAbroad(place string) []string {
	return []string{
		"The rules of " + place + " are not in this table. Nothing in this answer says that the job is allowed there, " +
			"and the warnings that name a rule of the United States may not be the right ones.",
		"It is not legal advice and gives no permission to fly or to spray. Ask the aviation authority and the pesticide authority of the country.",
		"The label in force in the country is the law for the product.",
	}
}

// cautions is what the checklist is not, in words for the answer sheet.
func cautions(at *time.Time) []string {
	said := append(make([]string, 0, len(usualCautions)+1), usualCautions...)
	if at != nil && at.Sub(AsOf()) > seasonOld {
		said = append(said, fmt.Sprintf("The job is on %s, more than a season after the date of this table: its rules may have changed.",
			at.Format(time.DateOnly)))
	}
	return said
}

// usualCautions is what the checklist is not, whatever the job. It never changes.
var usualCautions = []string{
	"This is a checklist of published federal rules as of " + AsOf().Format(time.DateOnly) +
		". It is not legal advice and gives no permission to fly.",
	"Rules change. Nothing published after " + lastRead + " was read for it, and whether part 108 " +
		"(flight beyond sight) has become final was not known. Check the sources again before you rely on it.",
	"Your own exemption, air-traffic authorization or waiver decides wherever it differs from this list.",
	"The label is the law for the product. Keep it on site and follow it.",
	"State, county, tribal and town rules are not in it. Ask your state lead agency and the local authority.",
	"It is no weather, airspace or notice briefing. Get those on the day.",
	"It does not replace a licensed applicator, a certificated pilot, an aviation lawyer, an FAA inspector or any other licensed professional.",
	"\"Not needed\" means that no rule in this table asks for it on the facts given, not that the flight is safe. " +
		"\"Unknown\" means stop and ask.",
}

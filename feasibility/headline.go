package feasibility

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

// headline says the answer in plain words: the verdict, what comes first, and what the job takes.
func headline(a Answer) string {
	if a.Authorizations.Elsewhere != "" {
		return headlineElsewhere(a)
	}
	switch a.Verdict {
	case Yes:
		then := a.outlook()
		if then.label {
			return "Yes. " + then.words("As planned") + " First make sure that the label allows spraying by air and by drone, and read the cautions."
		}
		return "Yes. " + then.words("As planned") + " Read the cautions before you fly."
	case YesIf:
		if len(a.Remedies) > 0 && a.Remedies[0].AnswerThen != No {
			then := a.Remedies[0].then
			return "Yes, if you " + steps(change(a.Remedies[0]), then) + ". " + then.words("Then")
		}
		then := a.outlook()
		return "Yes, if you " + steps("", then) + ". " + then.words("As planned")
	default:
		return "No, not as planned. " + why(a)
	}
}

// headlineElsewhere is the headline where the country's rules are not held: it clears nothing,
// whatever the computation says.
func headlineElsewhere(a Answer) string {
	place := a.Authorizations.Elsewhere
	said := "Not cleared: the rules of " + place + " are not in this table, so nobody should fly on this answer. " +
		"Ask the aviation authority and the pesticide authority there first."
	switch {
	case a.Verdict == No:
		return "No, not as planned. " + why(a) + " " + said
	case len(a.Remedies) > 0 && len(stops(a)) > 0:
		return said + " The computation alone also asks that you " + change(a.Remedies[0]) + "."
	case a.outlook().planned:
		return said + " The computation alone: " + strings.Replace(a.outlook().words("as planned"), " can spray ", " would spray ", 1)
	default:
		return said + " " + a.outlook().words("")
	}
}

// words says what the work takes.
func (o outlook) words(opening string) string {
	if !o.planned {
		return "The flights could not be planned from the facts given."
	}
	aircraft := "the drone"
	if o.aircraft > 1 {
		aircraft = fmt.Sprintf("%d drones", o.aircraft)
	}
	said := opening + ", " + aircraft + " can spray " + o.ground() + " in " + counted(int(o.sorties), "flight", "flights") + ", " +
		spell(o.elapsed) + ". Drift risk is " + string(o.grade) + "."
	if o.stopBy != "" {
		said += " By " + o.stopBy + " you must stop, before the job is done."
	}
	return said
}

// muchLeft is the share of a tract that stays dry from which the headline says of how much ground the
// job is a part. Own choice.
const muchLeft = 0.05

// ground says what is sprayed, and of how much where much stays dry.
func (o outlook) ground() string {
	said := acres(o.sprayed)
	if o.left <= muchLeft*o.tract {
		return said
	}
	return strings.TrimSuffix(said, " acres") + " of the " + acres(o.tract)
}

// acres prints an area; a tenth of an acre hides a plot.
func acres(a units.Area) string {
	if x := a.In(units.Acre); x >= 0.1 {
		return strconv.FormatFloat(x, 'f', 1, 64) + " acres"
	}
	return three(a.In(units.Acre)) + " acres"
}

// spell says how long the work takes; zero is a time that could not be worked out.
func spell(t units.Duration) string {
	switch {
	case t <= 0:
		return "but the hours cannot be worked out yet"
	case t < 0.1*units.Hour:
		return "about " + counted(max(1, int(math.Round(t.In(units.Minute)))), "minute", "minutes")
	default:
		return "about " + strconv.FormatFloat(t.In(units.Hour), 'f', 1, 64) + " hours"
	}
}

// steps names what must be changed or obtained before the job may go on.
func steps(change string, o outlook) string {
	all := make([]string, 0, 4)
	if change != "" {
		all = append(all, change)
	}
	switch n := len(o.papers); {
	case n == 1:
		all = append(all, fmt.Sprintf("get or confirm 1 permit or check (%s)", o.papers[0]))
	case n > 1 && change == "":
		all = append(all, fmt.Sprintf("get or confirm the %d permits and checks on the list", n))
	case n > 1: // the list is that of the job as it was sent
		all = append(all, fmt.Sprintf("get or confirm the %d permits and checks that the changed job needs", n))
	}
	switch n := len(o.points); {
	case n == 1:
		all = append(all, fmt.Sprintf("settle 1 more point (%s)", o.points[0]))
	case n > 1:
		all = append(all, fmt.Sprintf("settle %d more points (first: %s)", n, o.points[0]))
	}
	if o.label {
		all = append(all, "make sure that the label allows spraying by air and by drone")
	}
	return strings.Join(all, ", and ")
}

// counted says a number of things.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// isAuthorization tells the findings that papers settle from the others: those of the rules table,
// and the one that calls for the papers of 55 lb and over.
func isAuthorization(code finding.Code) bool {
	return strings.HasPrefix(string(code), "permit_") || code == takeoff.CodeOverSmallLimit
}

// papers lists the titles of the authorizations needed or not known. The 55 lb line is none: what
// lifts it is a row of its own.
func papers(a Answer) []string {
	titles := make([]string, 0, usualPapers)
	for i := range a.Findings {
		f := &a.Findings[i]
		if f.Severity != finding.Needed || !isAuthorization(f.Code) || f.Code == takeoff.CodeOverSmallLimit || f.Code == codeWeightRow {
			continue
		}
		title, _, _ := strings.Cut(f.Message, ": ")
		titles = append(titles, title)
	}
	return titles
}

// usualPapers is about how many papers a job asks for; more only take more memory.
const usualPapers = 24

// Codes of rows that the headline tells apart.
var (
	codeWeightRow     = permits.CodeOf(weightRow)
	codeLabelAerial   = permits.CodeOf("label-aerial")
	codeLabelUnmanned = permits.CodeOf("label-unmanned")
)

// points lists the needed findings that are not authorizations, by their first sentence.
func points(a Answer) []string {
	var said []string
	for i := range a.Findings {
		if f := &a.Findings[i]; f.Severity == finding.Needed && !isAuthorization(f.Code) {
			said = append(said, firstSentence(f.Message))
		}
	}
	return said
}

// firstSentence is the first sentence of a message, without its stop.
func firstSentence(message string) string {
	sentence, _, _ := strings.Cut(message, ". ")
	return strings.TrimSuffix(sentence, ".")
}

// labelOpen reports whether it is unknown that the label allows spraying by air or by drone.
func labelOpen(a Answer) bool {
	return slices.ContainsFunc(a.Findings, func(f finding.Finding) bool {
		return f.Severity == finding.Caution && (f.Code == codeLabelAerial || f.Code == codeLabelUnmanned)
	})
}

// toWords says what a fact is changed to.
func (c Change) toWords() string {
	switch c.Pointer {
	case nozzleType:
		return strings.ReplaceAll(c.ToWord, "_", " ")
	case "/weather/at":
		at, err := time.Parse(time.RFC3339, c.ToWord)
		if err != nil {
			return c.ToWord
		}
		return at.Format("15:04 on 2 January, UTC offset -07:00")
	default:
		return inUS(c.To)
	}
}

// inUS prints a quantity in the unit a US grower uses, with three digits, so that the order stays
// inside the limit it was found by; volumes are cut, not rounded, since a fill has a strict limit.
func inUS(q units.Quantity) string {
	switch v := q.(type) {
	case units.Volume:
		return three(units.SignificantDown(v.In(units.Gallon), 3)) + " gal"
	case units.ApplicationRate:
		return three(v.In(units.GallonPerAcre)) + " gal/ac"
	case units.Speed:
		return three(v.In(units.MilePerHour)) + " mph"
	case units.Length:
		return three(v.In(units.Foot)) + " ft"
	case units.Flow:
		return fmt.Sprintf("%.2f gal/min", v.In(units.GallonPerMinute))
	case units.RotationRate:
		return fmt.Sprintf("%.0f rpm", v.In(units.RevolutionPerMinute))
	case units.Pressure:
		return fmt.Sprintf("%.0f psi", v.In(units.PoundPerSquareInch))
	case units.Bearing:
		return fmt.Sprintf("%.0f degrees", v.In(units.BearingDegree))
	case units.Count:
		return counted(int(v), "drone", "drones")
	default:
		return q.String()
	}
}

// three prints three significant digits, without an exponent.
func three(x float64) string {
	return strconv.FormatFloat(units.Significant(x, 3), 'f', -1, 64)
}

// why names what stops the job: the stop that no remedy lifts, else the first stop of the machine,
// the spray or the weather, else of the rules; how many more there are; and whether a change was found
// that lifts it.
func why(a Answer) string {
	all := stops(a)
	gravest := all[0]
	if i := slices.IndexFunc(all, func(f finding.Finding) bool { return !isAuthorization(f.Code) }); i >= 0 {
		gravest = all[i]
	}
	said := ""
	if i := slices.IndexFunc(all, func(f finding.Finding) bool { return f.Code == a.binding }); i >= 0 {
		gravest, said = all[i], " No change of these settings lifts that."
	}
	if len(all) > 1 {
		said += fmt.Sprintf(" In all, %d findings stop the job; see the list.", len(all))
	}
	return gravest.Message + said
}

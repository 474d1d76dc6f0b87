package feasibility

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// clock and dayClock print a moment in the caller's own time zone.
const (
	clock    = "15:04"
	dayClock = "January 2, 15:04"
)

// spanWords says a span of time in the time zone it was sent in.
func spanWords(from, to time.Time) string {
	zone := from.Format(" (UTC-07:00)")
	if _, offset := from.Zone(); offset == 0 {
		zone = " (UTC)"
	}
	if from.Format(time.DateOnly) == to.In(from.Location()).Format(time.DateOnly) {
		return from.Format(dayClock) + " to " + to.In(from.Location()).Format(clock) + zone
	}
	return from.Format(dayClock) + " to " + to.In(from.Location()).Format(dayClock) + zone
}

// percentWords says a share with two digits.
func percentWords(p units.Proportion) string {
	return three(units.Significant(p.In(units.Percent), 2)) + " percent"
}

// becauseBest says why a stretch is the best.
func becauseBest(a SprayHours, s stretch) string {
	enough := 0
	for _, w := range a.Windows {
		if w.EnoughForJob {
			enough++
		}
	}
	w := a.Windows[s.window]
	said := fmt.Sprintf("The job takes %s, and this window is open for %s.", spell(w.takes), spell(w.Length))
	if enough == 1 {
		said += " It is the only one long enough."
	} else {
		said += fmt.Sprintf(" Of the %d windows long enough it has the hours with the least drift, the earliest of equals.", enough)
	}
	return said + fmt.Sprintf(" At worst about %s of the rate lands where drift was judged (%s).", percentWords(s.deposit), s.grade)
}

// becauseSplit says that the job must be split.
func becauseSplit(a SprayHours, b Best, sum, takes units.Duration) string {
	return fmt.Sprintf("The job takes %s, and no window is that long: the longest is %s. These %d windows together are open for %s. "+
		"Each start takes time to set up and mix that is not counted, so leave room for it.",
		spell(takes), spell(longest(a.Windows)), len(b.Windows), spell(sum))
}

func longest(windows []Window) units.Duration {
	var most units.Duration
	for _, w := range windows {
		most = max(most, w.Length)
	}
	return most
}

// hoursHeadline says the answer in plain words, and which fact to send where one that is missing stands in
// the way of hours.
func hoursHeadline(a SprayHours) string {
	said := hoursSaid(a)
	dark := 0
	for _, h := range a.Hours {
		if slices.Contains(h.BoundBy, CodeLightNotKnown) {
			dark++
		}
	}
	if dark > 0 && !strings.Contains(said, "latitude") {
		said += fmt.Sprintf(" In %s the light is not known: send the latitude and longitude.", counted(dark, "hour", "hours"))
	}
	if dry := wantsHumidity(a.Hours); dry > 0 && !strings.Contains(said, "relative humidity") {
		said += fmt.Sprintf(" In %s only the missing humidity stands in the way: send the relative humidity.", counted(dry, "hour", "hours"))
	}
	return said
}

// hoursSaid says which hours are good and which are best, or why none is.
func hoursSaid(a SprayHours) string {
	good := 0
	for _, h := range a.Hours {
		if h.Go {
			good++
		}
	}
	if good == 0 {
		return noHour(a)
	}
	said := fmt.Sprintf("%d of %s %s good to spray, in %s.", good, counted(len(a.Hours), "hour", "hours"),
		isAre(good), counted(len(a.Windows), "window", "windows"))
	switch {
	case a.Job.Elapsed <= 0:
		said += " How long the job takes could not be worked out, so no window can be said to be long enough."
	case a.Best == nil:
		said += fmt.Sprintf(" Together they are too short for the job's %s.", plainSpan(a.Job.Elapsed))
	case len(a.Best.Windows) > 1:
		said += fmt.Sprintf(" None is long enough for the job's %s: split it over %d windows, from %s.", plainSpan(a.Job.Elapsed), len(a.Best.Windows), spanWords(a.Best.From, a.Best.To))
	default:
		said += fmt.Sprintf(" Best for the job's %s: %s.", plainSpan(a.Job.Elapsed), spanWords(a.Best.From, a.Best.To))
	}
	return said + firstOf(a)
}

// firstOf says what comes first whatever the hour.
func firstOf(a SprayHours) string {
	whole := Answer{Findings: a.Findings}
	if todo := steps("", outlook{papers: papers(whole), points: points(whole), label: labelOpen(whole)}); todo != "" {
		return " First " + todo + "."
	}
	return ""
}

// plainSpan is a time without "about".
func plainSpan(t units.Duration) string { return strings.TrimPrefix(spell(t), "about ") }

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// noHour says that nothing is good, and what stops most hours.
func noHour(a SprayHours) string {
	said := fmt.Sprintf("None of %s is good to spray.", counted(len(a.Hours), "hour", "hours"))
	if len(a.Hours) == 1 {
		said = "The hour sent is not good to spray."
	}
	all := stops(Answer{Findings: a.Findings})
	if i := slices.IndexFunc(all, func(f finding.Finding) bool { return !isAuthorization(f.Code) }); i > 0 {
		all = all[i:]
	}
	if len(all) > 0 {
		return said + " What stops every hour: " + all[0].Message
	}
	for _, c := range commonest(a.Hours) {
		for _, h := range a.Hours {
			if f, told := withCode(h.Findings, c.code); told {
				if len(a.Hours) == 1 {
					return said + " What stops it: " + f.Message
				}
				return said + fmt.Sprintf(" %s, first at %s: %s", stopped(c.hours, len(a.Hours)), h.At.Format(dayClock), f.Message)
			}
		}
		if f, told := withCode(a.Findings, c.code); told { // what every hour shares stands there
			return said + " " + stopped(c.hours, len(a.Hours)) + ": " + f.Message
		}
	}
	return said
}

// stopped says how many of the hours something stops.
func stopped(count, of int) string {
	switch {
	case count == of:
		return "What stops every hour"
	case 2*count > of:
		return fmt.Sprintf("What stops most of them (%d)", count)
	default:
		return fmt.Sprintf("What stops more of them than anything else (%d)", count)
	}
}

// withCode is the first finding of a code.
func withCode(found []finding.Finding, code finding.Code) (finding.Finding, bool) {
	i := slices.IndexFunc(found, func(f finding.Finding) bool { return f.Code == code })
	if i < 0 {
		return finding.Finding{}, false
	}
	return found[i], true
}

// bound is how many hours a code binds.
type bound struct {
	code  finding.Code
	hours int
}

// commonest are the codes that bind, the one that binds the most hours first, of equals the first.
func commonest(hours []HourVerdict) []bound {
	var all []bound
	for _, h := range hours {
		for _, code := range h.BoundBy {
			i := slices.IndexFunc(all, func(b bound) bool { return b.code == code })
			if i < 0 {
				all = append(all, bound{code: code})
				i = len(all) - 1
			}
			all[i].hours++
		}
	}
	slices.SortStableFunc(all, func(a, b bound) int { return b.hours - a.hours })
	return all
}

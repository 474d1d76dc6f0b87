package crew

import (
	"fmt"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Hours of a day.
const (
	defaultWorkHours = 8 * units.Hour  // own choice
	defaultDaylight  = 10 * units.Hour // own choice: a short day
	// Spraying waits until an hour after sunrise and ends an hour and a half before sunset, since
	// inversions are usual outside of that. GRDC 2025, module 10.8.
	afterSunrise = 1 * units.Hour
	beforeSunset = 1.5 * units.Hour
)

// days works out the days: the clock time over the hours inside both the work day and the
// daylight in which inversions are unlikely. Weather holds are not known here.
func days(out *Result, in Input, r *report) {
	work, daylight := defaultWorkHours, defaultDaylight
	if w := in.Crew.WorkHours; w != nil && *w > 0 && units.Finite(*w) {
		work = *w
	} else {
		r.Assume("/crew/work_hours", hours(work)+" of work a day", "send the work hours of a day", sourceOwn)
	}
	if in.Daylight != nil && units.Finite(*in.Daylight) {
		daylight = *in.Daylight
	} else {
		r.Assume("/weather/at", hours(daylight)+" between sunrise and sunset", "send the date and the place of the job", sourceOwn)
	}
	r.Cite(sourceWindow)
	out.HoursPerDay = max(0, min(work, daylight-afterSunrise-beforeSunset))
	if out.Elapsed <= 0 {
		return
	}
	if out.HoursPerDay <= 0 {
		r.Find(finding.Finding{
			Code: CodeNoHoursInDay, Severity: finding.Caution, Subject: "/weather/at",
			Message:  fmt.Sprintf("The day has %s of daylight, and an hour after sunrise and an hour and a half before sunset go off for fear of inversions. No time is left. Pick a longer day.", hours(daylight)),
			Measured: daylight, Limit: afterSunrise + beforeSunset, Margin: daylight - afterSunrise - beforeSunset, Source: sourceWindow,
		})
		return
	}
	out.Days = capped(whole(out.Elapsed.SI() / out.HoursPerDay.SI()))
	if out.Days > 1 {
		r.Find(finding.Finding{
			Code: CodeDaysMoreThanOne, Severity: finding.Note, Subject: "/crew/work_hours",
			Message: fmt.Sprintf("The job takes %s of spraying, and a day has %s for it: %s days, before any weather hold. Another aircraft, more batteries or a nearer launch point shortens it.",
				hours(out.Elapsed), hours(out.HoursPerDay), out.Days),
			Measured: out.Elapsed, Limit: out.HoursPerDay, Margin: out.HoursPerDay - out.Elapsed, Source: sourceWindow,
		})
	}
}

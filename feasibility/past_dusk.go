package feasibility

import (
	"fmt"
	"time"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// CodeJobRunsPastDusk (caution): the job lasts into hours in which the same weather forbids it, or nobody
// can tell. What is sprayed before is sound.
const CodeJobRunsPastDusk finding.Code = "job_runs_past_dusk"

// longestSession bounds the time that is looked at. Own choice: past two days nothing new comes up.
const longestSession = 48 * units.Hour

// session is how long the crew is at it from the start on: the whole job, or the work hours of a day where
// they were stated; zero where the time could not be worked out.
func (r *rooms) session() time.Duration {
	takes := min(r.team().Elapsed, longestSession)
	if hours := r.m.Crew.WorkHours; hours != nil && *hours > 0 {
		takes = min(takes, *hours)
	}
	if !units.Finite(takes) || takes <= 0 {
		return 0
	}
	return time.Duration(takes.In(units.Second) * float64(time.Second)).Round(time.Second)
}

// pastDusk holds the end of the job against the times at dusk at which light and air turn, and reports the
// clock by which it must stop; empty where it ends before. The turns are those that close the windows of
// spray-hours.
func (r *rooms) pastDusk() (report, string) {
	at, light, takes := r.m.Weather.At, r.light(), r.session()
	if at == nil || light.Phase == daylight.Unknown || takes <= 0 {
		return report{}, ""
	}
	if s := r.sky().Inversion; s == air.InversionObserved || s == air.InversionPresumed {
		return report{}, "" // the start itself is stopped
	}
	if light.Sunset == nil || !at.Add(takes).After(light.Sunset.Add(closings[0])) {
		return report{}, ""
	}
	var start *conditions
	for _, turn := range turnsAtDusk(*light) {
		if !turn.After(*at) || !turn.Before(at.Add(takes)) {
			continue
		}
		if start == nil {
			start = new(r.conditionsAt(*at))
		}
		if why, source := r.conditionsAt(turn).against(*start); why != "" {
			return report{findings: []finding.Finding{r.mustStop(turn, why, source, *start)}}, turn.Format(clock)
		}
	}
	return report{}, ""
}

// mustStop is the finding of a turn at which the job must stop.
func (r *rooms) mustStop(turn time.Time, why string, source finding.Source, start conditions) finding.Finding {
	at, takes := *r.m.Weather.At, r.session()
	whole, left := spanOf(at, at.Add(takes)), spanOf(at, turn)
	what, advice := "The job takes ", "Stop by then, and do the rest another day: no start on this day leaves enough time."
	if takes := r.team().Elapsed; units.StrictlyBelow(whole, min(takes, longestSession)) {
		what = "A day's work on this job takes "
	}
	if latest := turn.Add(-takes).Truncate(time.Minute); r.soundFrom(latest, start) {
		advice = "Stop by then, or start by " + latest.Format(clock) + "."
	}
	return finding.Finding{
		Code: CodeJobRunsPastDusk, Severity: finding.Caution, Subject: "/weather/at", Source: source,
		Message:  fmt.Sprintf("%s%s, but by %s %s. %s", what, spell(whole), turn.Format(clock), why, advice),
		Measured: whole, Limit: left, Margin: left - whole,
	}
}

// soundFrom reports whether a time of the day that holds the start is no worse than the start that was sent,
// and leaves no inversion open; a day gets no worse from sunrise to the turns at dusk.
func (r *rooms) soundFrom(t time.Time, start conditions) bool {
	light := r.light()
	if light.Sunrise == nil || t.Before(*light.Sunrise) {
		return false
	}
	then := r.conditionsAt(t)
	worse, _ := then.against(start)
	return worse == "" && then.inversion == air.InversionAbsent
}

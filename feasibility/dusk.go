package feasibility

import (
	"slices"
	"strings"
	"time"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
)

// closings are the times before and after sunset at which the light or the presumption of stable air
// turns: the hours of inversions begin, the night of the stability classes begins, the sun sets, the
// twilight of the aviation rule ends. See the daylight room for the sources.
var closings = []time.Duration{-2 * time.Hour, -time.Hour, 0, 30 * time.Minute}

// turnsAtDusk are those times of a day, with the end of civil twilight, in order; none where the sun does
// not set.
func turnsAtDusk(light daylight.Light) []time.Time {
	if light.Sunset == nil {
		return nil
	}
	turns := make([]time.Time, 0, len(closings)+1)
	for _, offset := range closings {
		turns = append(turns, light.Sunset.Add(offset))
	}
	if light.CivilDusk != nil {
		turns = append(turns, *light.CivilDusk)
		slices.SortFunc(turns, time.Time.Compare)
	}
	return turns
}

// turnsAtDawn are the times around sunrise at which they turn back.
func turnsAtDawn(light daylight.Light) []time.Time {
	var turns []time.Time
	if light.CivilDawn != nil {
		turns = append(turns, *light.CivilDawn)
	}
	if light.Sunrise != nil {
		turns = append(turns, light.Sunrise.Add(-30*time.Minute), *light.Sunrise, light.Sunrise.Add(time.Hour))
	}
	slices.SortFunc(turns, time.Time.Compare)
	return turns
}

// conditions are what the time of day alone decides of a job whose weather stays as stated.
type conditions struct {
	phase     daylight.Phase
	inversion air.InversionState
	source    finding.Source    // of what is said of the inversion
	asked     []finding.Finding // what the light asks for and is not there, or not stated
}

// conditionsAt judges a moment, a second after it, so that a turn counts as past.
func (r *rooms) conditionsAt(t time.Time) conditions {
	m, weather := r.m, *r.m.Weather
	weather.At = new(t.Add(time.Second))
	m.Weather = &weather
	light := m.light()
	sky := air.Observe(m.observation(light))
	facts := m.operationFacts()
	facts.At, facts.Phase = weather.At, light.Phase
	facts.TakeoffWeight, facts.Small, facts.Pesticide = r.weight().Total, r.weight().Small, m.Load.Pesticide
	c := conditions{phase: light.Phase, inversion: sky.Inversion, asked: permits.ForLight(facts)}
	for _, f := range sky.Findings {
		if f.Code == air.CodeInversionPresumed || f.Code == air.CodeInversionPossible {
			c.source = f.Source
		}
	}
	return c
}

// inverted reports whether an inversion lies over the field, or hour, sky and wind are those of one.
func (c conditions) inverted() bool {
	return c.inversion == air.InversionObserved || c.inversion == air.InversionPresumed
}

// sound reports whether the time of day asks for nothing more.
func (c conditions) sound() bool { return c.inversion == air.InversionAbsent && len(c.asked) == 0 }

// against says what of these conditions was not there under others, with its source; empty where nothing
// is worse.
func (c conditions) against(before conditions) (string, finding.Source) {
	switch {
	case c.inverted() && !before.inverted():
		return "an inversion is likely, by the time of day and by sky and wind as stated", c.source
	case c.inversion == air.InversionPossible && before.inversion == air.InversionAbsent:
		return "an inversion cannot be ruled out any more, since the cloud cover was not stated", c.source
	}
	var titles []string
	for _, f := range c.asked {
		if !slices.ContainsFunc(before.asked, func(g finding.Finding) bool { return g.Code == f.Code }) {
			title, _, _ := strings.Cut(f.Message, ": ")
			titles = append(titles, title)
		}
	}
	if len(titles) == 0 {
		return "", finding.Source{}
	}
	return "it is " + string(c.phase) + ", and what that asks for is not there, or not stated (" + strings.Join(titles, "; ") + ")", c.asked[0].Source
}

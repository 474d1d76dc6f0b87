package feasibility

import (
	"slices"
	"strings"
	"time"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// CodeCourseAlongWind says that the wind of an hour runs along a course that is to lie across it.
const CodeCourseAlongWind finding.Code = "course_along_wind"

// leastAcrossWind is the least angle between a course and the wind's line that counts as across. Own
// choice: half a right angle.
const leastAcrossWind = 45 * units.Degree

// neededByTheHour are the needed findings of air, weight and drift that an hour brings: another hour,
// with another wind or cooler air, does without. Those of the table of rules are told by permits.Hourly.
var neededByTheHour = []finding.Code{
	drift.CodeDriftSevere, drift.CodeDepositOverAssumedTolerance, drift.CodeWindTowardSensitiveNeighbor, CodeCourseAlongWind,
	takeoff.CodeOverDensityAltitudeLimit, air.CodeAirFreezing, air.CodeInversionPossible,
	CodeLightNotKnown, drift.CodeDeltaTTooHigh, drift.CodeDepositOverTolerance, // the last two of a humidity that was taken
}

// day judges the hours of one request.
type day struct {
	mission     Mission
	land        *tract.Land // the field of all hours
	weather     []Weather
	taken       []*units.Proportion
	assumptions []finding.Assumption
	rate        spray.Result
	table       *permits.Hourly
	hours       []hour
	plans       []*planned // one for each set of strips
}

// hour is one hour on its way through the rooms.
type hour struct {
	weather  *Weather
	taken    *units.Proportion // the humidity, where none was stated
	light    daylight.Light
	sky      air.State
	weight   takeoff.Result
	strips   string
	risk     drift.Judged
	papers   permits.Checklist // what the table says whatever the hour
	findings []finding.Finding // the hour's own
	binding  []finding.Code
}

// good reports whether nothing of the hour's own forbids it.
func (h *hour) good() bool { return len(h.binding) == 0 }

// find adds findings of the hour.
func (h *hour) find(found ...finding.Finding) {
	h.findings = append(h.findings, found...)
	h.bindBy(found)
}

// bindBy notes the codes of the findings that forbid the hour.
func (h *hour) bindBy(found []finding.Finding) {
	for i := range found {
		if bindsTheHour(&found[i]) {
			h.bind(found[i].Code)
		}
	}
}

// bind notes codes of what forbids the hour, once each.
func (h *hour) bind(codes ...finding.Code) {
	for _, code := range codes {
		if !slices.Contains(h.binding, code) {
			if h.binding == nil {
				h.binding = make([]finding.Code, 0, usualBinding)
			}
			h.binding = append(h.binding, code)
		}
	}
}

// usualBinding is about how many codes forbid an hour; more only take more memory.
const usualBinding = 4

// bindsTheHour reports whether a finding of the air, the weight, the tract or the drift forbids an hour.
func bindsTheHour(f *finding.Finding) bool {
	switch f.Severity {
	case finding.Stop:
		return true
	case finding.Needed:
		return slices.Contains(neededByTheHour, f.Code) ||
			f.Code == air.CodeWeatherImplausible && strings.HasPrefix(f.Subject, "/weather/")
	default:
		return false
	}
}

// newDay readies what no hour moves.
func newDay(m Mission, forecasts []Forecast) *day {
	d := &day{mission: m, land: tract.NewLand(m.Field.Ground), table: permits.ByHour()}
	d.weather, d.taken, d.assumptions = m.completed(forecasts)
	return d
}

// in is the mission in an hour.
func (d *day) in(h *hour) Mission {
	m := d.mission
	m.Weather = h.weather
	return m
}

// judgeAll judges every hour: first the air and the weight, then, with the strips that its wind asks
// for, the drift and the rules.
func (d *day) judgeAll() {
	d.hours = make([]hour, len(d.weather))
	for i := range d.weather {
		d.hours[i].taken = d.taken[i]
		d.begin(&d.hours[i], &d.weather[i])
	}
	// The density of the liquid and the flight decide the spray; no hour moves them.
	d.rate = spray.Hold(d.mission.SpraySystem.System, d.mission.sprayJob(d.hours[0].weight))
	d.layOut()
	for i := range d.hours {
		d.finish(&d.hours[i])
	}
}

// begin observes the air of an hour and weighs the aircraft in it.
func (d *day) begin(h *hour, w *Weather) {
	h.weather = w
	m := d.in(h)
	h.light = m.light()
	h.sky = air.Observe(m.observation(h.light))
	h.weight = takeoff.Weigh(m.takeoffInput(&h.sky))
	h.strips = m.stripsKey()
}

// finish judges the drift and the rules of an hour. What lands is worked out only where nothing else
// forbids the hour: most hours of a day are forbidden by their light, their air or their wind.
func (d *day) finish(h *hour) {
	m, ground := d.in(h), &d.plan(h.strips).ground
	in := d.driftIn(h)
	h.risk = d.drifts(h, in, true)
	papers, moving := d.table.At(m.permitFacts(h.light, h.weight, &d.rate, &h.risk.Result, ground))
	h.papers = papers
	h.bind(stopsIn(papers.Findings)...)
	lists := [][]finding.Finding{h.lightNotKnown(), h.sky.Findings, h.weight.Findings, m.alongWind(), geometryStops(ground)}
	for _, found := range lists {
		h.bindBy(found)
	}
	for i := range moving {
		if moving[i].Binds {
			h.bind(moving[i].Code)
		}
	}
	ruled := hour{}
	if ruled.bindBy(h.risk.Findings); h.good() && ruled.good() {
		h.risk = d.drifts(h, in, false)
	}
	h.bindBy(h.risk.Findings)
	h.findings = make([]finding.Finding, 0, total(lists)+len(moving)+len(h.risk.Findings))
	for _, found := range lists {
		h.findings = append(h.findings, found...)
	}
	for i := range moving {
		h.findings = append(h.findings, moving[i].Finding)
	}
	h.findings = append(h.findings, h.risk.Findings...)
}

// drifts judges the drift of an hour.
func (d *day) drifts(h *hour, in drift.Input, rulesOnly bool) drift.Judged {
	risk := drift.Judge(in, rulesOnly)
	risk.Findings = h.asksForHumidity(d.mission.Weather, risk.Findings)
	return risk
}

// driftIn is what the drift room reads in an hour.
func (d *day) driftIn(h *hour) drift.Input {
	return d.in(h).driftInput(h.sky, &h.weight, d.rate, &d.plan(h.strips).ground)
}

// total counts the findings of lists.
func total(lists [][]finding.Finding) int {
	count := 0
	for _, found := range lists {
		count += len(found)
	}
	return count
}

// geometryStops are the stops that the ground and its strips alone bring, whatever the wind's strength.
func geometryStops(ground *tract.Plan) []finding.Finding {
	var found []finding.Finding
	for _, f := range ground.Findings {
		if f.Code == tract.CodeKeepOutsCoverField || f.Code == tract.CodeBoundaryTooLarge {
			found = append(found, f)
		}
	}
	return found
}

// alongWind finds a wind that runs along a course that is to lie across it. One assessment refuses such
// a request; among many hours it is the hour that does not fit.
func (m Mission) alongWind() []finding.Finding {
	course, across := m.Flight.Course, m.Flight.Crosswind
	if course == nil || across == nil || !*across {
		return nil
	}
	off := course.Between(m.Weather.WindFrom)
	off = min(off, 180*units.Degree-off)
	if units.AtLeast(off, leastAcrossWind) {
		return nil
	}
	return []finding.Finding{{
		Code: CodeCourseAlongWind, Severity: finding.Needed, Subject: "/flight/course", Source: sourceForecast,
		Message:  "In this hour the wind runs along the course, and you asked for lines across the wind. Leave the course out, so that it follows the wind, or fly in another hour.",
		Measured: off, Limit: leastAcrossWind, Margin: off - leastAcrossWind,
	}}
}

// moment is when an hour begins.
func (h *hour) moment() time.Time { return *h.weather.At }

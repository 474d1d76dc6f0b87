package wire

import (
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"

	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
)

// SprayHours is the endpoint that judges a mission hour by hour.
const SprayHours Endpoint = "spray-hours"

// SprayHoursRequest is a mission and the weather of the hours to judge it in. Of the mission's own
// weather, which may be left out, only place and wind height are read.
type SprayHoursRequest struct {
	Mission *Request      `json:"mission,omitzero" validate:"required"`
	Hours   []HourWeather `json:"hours,omitzero" validate:"required,min=1,max=336,dive"`
}

// HourWeather is Weather of one hour: the time is needed, the humidity is not.
type HourWeather struct {
	At                *string   `json:"at,omitzero" validate:"required,max=40"`
	Latitude          *Quantity `json:"latitude,omitzero" validate:"required_with=Longitude"`
	Longitude         *Quantity `json:"longitude,omitzero" validate:"required_with=Latitude"`
	WindSpeed         *Quantity `json:"wind_speed,omitzero" validate:"required"`
	WindHeight        *Quantity `json:"wind_height,omitzero"`
	WindFrom          *Quantity `json:"wind_from,omitzero" validate:"required"`
	Gust              *Quantity `json:"gust,omitzero"`
	Temperature       *Quantity `json:"temperature,omitzero" validate:"required"`
	RelativeHumidity  *Quantity `json:"relative_humidity,omitzero"`
	Pressure          *Quantity `json:"pressure,omitzero"`
	CloudCover        *Quantity `json:"cloud_cover,omitzero"`
	Visibility        *Quantity `json:"visibility,omitzero"`
	CloudBelow        *Quantity `json:"cloud_below,omitzero"`
	CloudSide         *Quantity `json:"cloud_side,omitzero"`
	InversionObserved *bool     `json:"inversion_observed,omitzero"`
	Lapse             *Lapse    `json:"lapse,omitzero"`
}

// SprayHoursAnswer is the answer hour by hour. Lists are never null.
type SprayHoursAnswer struct {
	Reference   *string       `json:"reference,omitzero"`
	Digest      string        `json:"digest"`
	Engine      string        `json:"engine"`
	RulesAsOf   string        `json:"rules_as_of"`
	Headline    string        `json:"headline"`
	Job         JobTime       `json:"job"`
	Best        *BestTime     `json:"best,omitzero"`
	Windows     []Window      `json:"windows"`
	Hours       []HourVerdict `json:"hours"`
	Findings    []Finding     `json:"findings"`
	Assumptions []Assumption  `json:"assumptions"`
	Cautions    []string      `json:"cautions"`
	Sources     []Source      `json:"sources"`
}

// JobTime is what the job takes.
type JobTime struct {
	Hours    *Quantity `json:"hours,omitzero"`
	Sorties  int       `json:"sorties"`
	Aircraft int       `json:"aircraft"`
	Sprayed  *Quantity `json:"sprayed"`
}

// BestTime is when to do the job.
type BestTime struct {
	From    string `json:"from"`
	To      string `json:"to"`
	Windows []int  `json:"windows"`
	Because string `json:"because"`
}

// Window is good hours without a gap.
type Window struct {
	From         string    `json:"from"`
	To           string    `json:"to"`
	Hours        *Quantity `json:"hours"`
	EnoughForJob bool      `json:"enough_for_job"`
	DriftGrade   string    `json:"drift_grade"`
	Deposit      *Quantity `json:"deposit"`
}

// HourVerdict is one hour judged.
type HourVerdict struct {
	At            string    `json:"at"`
	Go            bool      `json:"go"`
	BoundBy       []string  `json:"bound_by"`
	Light         string    `json:"light"`
	Inversion     string    `json:"inversion"`
	DeltaT        *Quantity `json:"delta_t"`
	DriftGrade    string    `json:"drift_grade,omitzero"`
	Deposit       *Quantity `json:"deposit,omitzero"`
	HumidityTaken *Quantity `json:"humidity_taken,omitzero"`
	Findings      []Finding `json:"findings"`
}

// NewSprayHours writes the answer for the wire. It panics for no input.
func NewSprayHours(id Identity, req *SprayHoursRequest, a feasibility.SprayHours) *SprayHoursAnswer {
	if req == nil {
		req = &SprayHoursRequest{}
	}
	mission := req.Mission
	if mission == nil {
		mission = &Request{}
	}
	w := &writer{system: mission.system(), request: mission}
	out := &SprayHoursAnswer{
		Reference: mission.Reference, Digest: id.Digest, Engine: id.Engine, RulesAsOf: a.RulesAsOf.Format(time.DateOnly),
		Headline: a.Headline,
		Job: JobTime{
			Sorties: int(a.Job.Sorties), Aircraft: int(a.Job.Aircraft), Sprayed: w.in(a.Job.Sprayed),
		},
		Windows:     make([]Window, 0, len(a.Windows)),
		Hours:       make([]HourVerdict, 0, len(a.Hours)),
		Findings:    w.findingsIn(a.Findings, hourPlace(0)),
		Assumptions: w.assumptions(pointedAssumptions(a.Assumptions)),
		Cautions:    append([]string{}, a.Cautions...),
	}
	if a.Job.Elapsed > 0 {
		out.Job.Hours = w.as(a.Job.Elapsed, "h")
	}
	for _, window := range a.Windows {
		out.Windows = append(out.Windows, Window{
			From: moment(window.From), To: moment(window.To), Hours: w.as(window.Length, "h"),
			EnoughForJob: window.EnoughForJob, DriftGrade: string(window.Grade), Deposit: w.in(window.Deposit),
		})
	}
	if b := a.Best; b != nil {
		out.Best = &BestTime{From: moment(b.From), To: moment(b.To), Windows: b.Windows, Because: b.Because}
	}
	for i, h := range a.Hours {
		out.Hours = append(out.Hours, w.hour(i, h, req))
	}
	out.Sources = w.sources(a.Sources)
	return out
}

// hourLength is about how many bytes an hour takes in an answer; a wrong guess only costs memory.
const hourLength = 1700

// AppendJSON appends the answer as JSON on one line, as that of an assessment is written.
func (a *SprayHoursAnswer) AppendJSON(to []byte) ([]byte, error) {
	if a != nil {
		to = slices.Grow(to, hourLength*len(a.Hours))
	}
	return hoursAppender(to, reflect.ValueOf(a))
}

// moment writes a moment as RFC 3339 in the time zone it has.
func moment(t time.Time) string { return t.Format(time.RFC3339) }

func (w *writer) hour(i int, h feasibility.HourVerdict, req *SprayHoursRequest) HourVerdict {
	out := HourVerdict{
		At: sentOr(h.At, i, req), Go: h.Go, BoundBy: make([]string, 0, len(h.BoundBy)), Light: string(h.Phase),
		Inversion: string(h.Inversion), DeltaT: w.in(h.DeltaT), DriftGrade: string(h.Grade),
		Findings: w.findingsIn(h.Findings, hourPlace(i)),
	}
	for _, code := range h.BoundBy {
		out.BoundBy = append(out.BoundBy, string(code))
	}
	if h.Flown {
		out.Deposit = w.in(h.Deposit)
	}
	if h.Humidity != nil {
		out.HumidityTaken = w.in(*h.Humidity)
	}
	return out
}

// sentOr is the time of an hour as it was sent.
func sentOr(t time.Time, i int, req *SprayHoursRequest) string {
	if i < len(req.Hours) && req.Hours[i].At != nil {
		return *req.Hours[i].At
	}
	return moment(t)
}

// hourPlace is where an hour stands in a request.
func hourPlace(i int) string { return "/hours/" + strconv.Itoa(i) }

// findingsIn writes findings on a mission as those on a request of many hours.
func (w *writer) findingsIn(found []finding.Finding, hour string) []Finding {
	out := w.findings(found)
	for i := range out {
		out[i].Subject = hourPointer(out[i].Subject, hour)
	}
	return out
}

func pointedAssumptions(taken []finding.Assumption) []finding.Assumption {
	out := make([]finding.Assumption, len(taken))
	for i, a := range taken {
		a.Subject = hourPointer(a.Subject, "/hours")
		out[i] = a
	}
	return out
}

// hourPointer points at an hour what points at the weather, and into the mission what else there is.
func hourPointer(pointer, hour string) string {
	if rest, ok := strings.CutPrefix(pointer, "/weather"); ok && (rest == "" || rest[0] == '/') {
		return hour + rest
	}
	return "/mission" + pointer
}

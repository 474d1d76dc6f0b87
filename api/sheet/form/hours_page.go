package form

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"tractcheck/api/sheet"
	"tractcheck/api/wire"
)

// hoursAnswer is as much of the answer hour by hour as the page shows.
type hoursAnswer struct {
	Engine    string `json:"engine"`
	RulesAsOf string `json:"rules_as_of"`
	Headline  string `json:"headline"`
	Best      *struct {
		From, To, Because string
	} `json:"best"`
	Windows []struct {
		From         string         `json:"from"`
		To           string         `json:"to"`
		Hours        *wire.Quantity `json:"hours"`
		EnoughForJob bool           `json:"enough_for_job"`
		DriftGrade   string         `json:"drift_grade"`
	} `json:"windows"`
	Hours []struct {
		At         string         `json:"at"`
		Go         bool           `json:"go"`
		DriftGrade string         `json:"drift_grade"`
		BoundBy    []string       `json:"bound_by"`
		Findings   []wire.Finding `json:"findings"`
	} `json:"hours"`
	Findings []wire.Finding `json:"findings"`
}

// hoursData is what the page of the hours shows: the question, and the answer where there is one.
type hoursData struct {
	sheet.Frame

	Carried  []hidden
	Weather  string
	Faults   []string
	Answered bool
	Headline string
	Because  string
	Days     []day
	Windows  []window
	Hours    []hour
	Stops    []string // what stops the job at every hour
	Needed   []string // what every hour needs first, and each needs alike
	Request  string
}

// day is one row of the strip: the hours of one day.
type day struct {
	Date  string
	Y     int
	Cells []cell
	Said  string
}

// cell is one hour in the strip.
type cell struct {
	X, Y, TextX, TextY int
	Hour               string
	Go                 bool
}

type window struct{ From, To, Hours, Enough, Drift string }

type hour struct{ At, Go, Drift, Because string }

// Hours writes the page that asks for the weather of the hours. Where the values have none, it starts
// from an invented day.
func (f *Form) Hours(v Values, weather string, faults []wire.Fault) ([]byte, error) {
	data := hoursData{Frame: sheet.Frame{Title: "Which hours work?"}, Carried: carried(v), Weather: weather}
	if weather == "" {
		data.Weather = exampleHours(v)
	}
	for _, fault := range faults {
		data.Faults = append(data.Faults, f.hourFault(v, fault))
	}
	return sheet.Render(f.hoursPage, data)
}

// hourFault says a fault of the question in the words of the page.
func (f *Form) hourFault(v Values, fault wire.Fault) string {
	if inside, ok := strings.CutPrefix(fault.Pointer, "/mission"); ok {
		fault.Pointer = inside
		m := f.mark(v, fault)
		return "The job, " + m.label + ": " + m.message
	}
	tokens := strings.SplitN(strings.TrimPrefix(fault.Pointer, "/hours"), "/", 3)
	const inRow = 3
	if len(tokens) < inRow {
		return f.plain(fault.Message)
	}
	fault.Pointer = "/weather/" + tokens[2]
	m := f.mark(v, fault)
	var row int
	_, _ = fmt.Sscan(tokens[1], &row) // a pointer into a list has an index
	return fmt.Sprintf("Hour %d, %s: %s", row+1, m.label, m.message)
}

// HoursAnswered writes the page of the answer hour by hour.
func (f *Form) HoursAnswered(answer []byte, v Values, weather string, request []byte) ([]byte, error) {
	var said hoursAnswer
	if err := json.Unmarshal(answer, &said); err != nil {
		return nil, fmt.Errorf("reading the answer hour by hour: %w", err)
	}
	data := hoursData{
		Frame:   sheet.Frame{Title: "Which hours work?", Engine: said.Engine, RulesAsOf: said.RulesAsOf},
		Carried: carried(v), Weather: weather, Answered: true, Headline: said.Headline, Request: Indented(request),
	}
	if said.Best != nil {
		data.Because = said.Best.Because
	}
	for _, w := range said.Windows {
		row := window{From: clock(w.From), To: clock(w.To), Enough: "too short for the whole job", Drift: w.DriftGrade}
		if w.Hours != nil && w.Hours.Value != nil {
			row.Hours = fmt.Sprintf("%.1f h", *w.Hours.Value)
		}
		if w.EnoughForJob {
			row.Enough = "long enough"
		}
		data.Windows = append(data.Windows, row)
	}
	shared := map[string]string{}
	for _, found := range said.Findings {
		switch found.Severity {
		case "stop":
			data.Stops = append(data.Stops, found.Message)
		case "needed":
			data.Needed = append(data.Needed, found.Message)
		}
		shared[found.Code] = found.Message
	}
	for _, h := range said.Hours {
		row := hour{At: clock(h.At), Go: "no", Drift: h.DriftGrade}
		if h.Go {
			row.Go = "yes"
		}
		var stops []string
		for _, finding := range h.Findings {
			if finding.Severity == "stop" || slices.Contains(h.BoundBy, finding.Code) {
				stops = append(stops, finding.Message)
			}
		}
		if len(stops) == 0 { // what forbids it is said once, of every hour
			for _, code := range h.BoundBy {
				if message := shared[code]; message != "" {
					stops = append(stops, message)
				}
			}
		}
		row.Because = strings.Join(stops, " ")
		data.Hours = append(data.Hours, row)
		data.Days = inDay(data.Days, h.At, h.Go)
	}
	return sheet.Render(f.hoursPage, data)
}

// The measures of the strip, in units of its drawing.
const (
	cellWidth  = 22
	dayHeight  = 44
	cellInset  = 14 // below the hours' names
	cellHeight = 24
	nameWidth  = 84
)

// inDay adds an hour to the strip: to the row of its day, or to a new one.
func inDay(days []day, at string, isGo bool) []day {
	moment, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return days // the answer repeats what was sent, which was read as a time
	}
	date := moment.Format("Jan 2")
	if len(days) == 0 || days[len(days)-1].Date != date {
		days = append(days, day{Date: date, Y: len(days) * dayHeight})
	}
	d := &days[len(days)-1]
	x := nameWidth + moment.Hour()*cellWidth
	d.Cells = append(d.Cells, cell{
		X: x, Y: d.Y + cellInset, TextX: x + cellWidth/2, TextY: d.Y + cellInset - 3, Hour: moment.Format("15"), Go: isGo,
	})
	if isGo {
		d.Said = strings.TrimPrefix(d.Said+", "+moment.Format("15:04"), ", ")
	}
	return days
}

// StripHeight is the height of the drawing of the hours.
func (d hoursData) StripHeight() int { return len(d.Days) * dayHeight }

// clock is a moment as people write it, in its own time zone.
func clock(at string) string {
	moment, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return at
	}
	return moment.Format("Mon, Jan 2, 15:04")
}

package form

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tractcheck/api/sheet"
	"tractcheck/api/wire"
)

// SetUpInput is what the names of the inputs of set-ups begin with; the number of the set-up and the
// pointer of the member follow.
const SetUpInput = "set-up/"

// mostSetUps is how many other ways the page has room for. Own choice: the contract takes more.
const mostSetUps = 3

// setUpFields are the members that a set-up on the page can change; every other one is as typed.
var setUpFields = []string{
	"/aircraft/count", "/flight/speed", "/flight/height", "/flight/swath", "/load/application_rate",
	"/spray_system/nozzle/type", "/spray_system/nozzle/rated_flow", "/spray_system/rotary/rotation",
}

const setUpLabel = "/label"

// SplitSetUps takes the inputs of set-ups out of what was posted, each as values of its own.
func SplitSetUps(v Values) []Values {
	setUps := make([]Values, mostSetUps)
	for i := range setUps {
		setUps[i] = Values{}
		prefix := SetUpInput + strconv.Itoa(i)
		for name, texts := range v {
			if inside, ok := strings.CutPrefix(name, prefix); ok {
				setUps[i][inside] = texts
				delete(v, name)
			}
		}
	}
	return setUps
}

// SetUpsRequest makes the JSON request of a comparison: the job as typed, and every set-up that changes
// something.
func (f *Form) SetUpsRequest(v Values, setUps []Values) ([]byte, []wire.Fault) {
	mission, faults := f.Request(v)
	for i := range faults {
		faults[i].Pointer = "/mission" + faults[i].Pointer
	}
	list := []string{`{"label":"The job as typed"}`}
	for i, s := range setUps {
		b := builder{values: s, root: newTree()}
		for _, l := range f.lines {
			if slices.Contains(setUpFields, l.path) {
				b.add(l, l.path)
			}
		}
		if len(b.root.names) == 0 {
			continue
		}
		label := s.text(setUpLabel)
		if label == "" {
			label = "Another way, " + strconv.Itoa(i+1)
		}
		b.root.set(setUpLabel, quoted(label))
		var out bytes.Buffer
		b.root.write(&out)
		list = append(list, out.String())
	}
	if len(list) == 1 {
		faults = append(faults, wire.Fault{Pointer: "/set_ups", Code: wire.FaultMissing, Message: "Change something in at least one other way."})
	}
	return fmt.Appendf(nil, `{"mission":%s,"set_ups":[%s]}`, mission, strings.Join(list, ",")), faults
}

// setUp is one other way as the page asks for it.
type setUp struct {
	Number   int
	Controls []control
}

// setUpsData is what the page of a comparison shows.
type setUpsData struct {
	sheet.Frame

	Carried  []hidden
	SetUps   []setUp
	Faults   []string
	Answered bool
	Headline string
	Ranked   []ranked
	Request  string
}

// ranked is one set-up in its place, with its bar in the strip.
type ranked struct {
	Rank                                        int
	Label, Answer, Headline, Hours, Drift, Cost string
	Beaten                                      string
	Y, TextY, Bar, FigureX                      int
}

// SetUps writes the page that asks for other ways of doing the job.
func (f *Form) SetUps(v Values, setUps []Values, faults []wire.Fault) ([]byte, error) {
	data := f.setUpsData(v, setUps)
	for _, fault := range faults {
		data.Faults = append(data.Faults, f.setUpFault(v, fault))
	}
	return sheet.Render(f.setUpsPage, data)
}

func (f *Form) setUpsData(v Values, setUps []Values) setUpsData {
	data := setUpsData{Frame: sheet.Frame{Title: "Compare ways of doing this job"}, Carried: carried(v)}
	for i, s := range setUps {
		w := viewer{form: f, values: s}
		if s.text("/units") == "" {
			s.set("/units", v.units())
		}
		one := setUp{Number: i + 1, Controls: []control{{
			ID: fmt.Sprintf("set-up-%d-label", i), Name: SetUpInput + strconv.Itoa(i) + setUpLabel, Label: "Your name for it",
			Kind: kindText, Value: s.text(setUpLabel),
		}}}
		for _, l := range f.lines {
			if !slices.Contains(setUpFields, l.path) {
				continue
			}
			l.required, l.hint = false, ""
			c := w.control(l, l.path)
			c.ID, c.Name = fmt.Sprintf("set-up-%d%s", i, strings.ReplaceAll(l.path, "/", "-")), SetUpInput+strconv.Itoa(i)+l.path
			if c.Kind == kindChoice {
				c.Options[0].Words = "As typed"
			}
			one.Controls = append(one.Controls, c)
		}
		data.SetUps = append(data.SetUps, one)
	}
	return data
}

// setUpFault says a fault of the question in the words of the page.
func (f *Form) setUpFault(v Values, fault wire.Fault) string {
	tokens := strings.SplitN(strings.TrimPrefix(fault.Pointer, "/set_ups/"), "/", 2)
	inside, inMission := strings.CutPrefix(fault.Pointer, "/mission")
	switch {
	case inMission:
		fault.Pointer = inside
		m := f.mark(v, fault)
		return "The job, " + m.label + ": " + m.message
	case len(tokens) == 2 && tokens[0] != "":
		fault.Pointer = "/" + tokens[1]
		m := f.mark(v, fault)
		return "Another way, " + m.label + ": " + m.message
	default:
		return f.plain(fault.Message)
	}
}

// SetUpsAnswered writes the page of a comparison.
func (f *Form) SetUpsAnswered(answer []byte, v Values, setUps []Values, request []byte) ([]byte, error) {
	var said struct {
		Engine    string `json:"engine"`
		RulesAsOf string `json:"rules_as_of"`
		Headline  string `json:"headline"`
		Ranked    []struct {
			Label      string         `json:"label"`
			Rank       int            `json:"rank"`
			Answer     string         `json:"answer"`
			Headline   string         `json:"headline"`
			Hours      *wire.Quantity `json:"hours"`
			DriftGrade string         `json:"drift_grade"`
			Cost       *wire.Quantity `json:"cost"`
			BeatenBy   []string       `json:"beaten_by"`
		} `json:"ranked"`
	}
	if err := json.Unmarshal(answer, &said); err != nil {
		return nil, fmt.Errorf("reading the answer of a comparison: %w", err)
	}
	data := f.setUpsData(v, setUps)
	data.Answered, data.Headline, data.Request = true, said.Headline, Indented(request)
	data.Engine, data.RulesAsOf = said.Engine, said.RulesAsOf
	longest := 0.0
	for _, r := range said.Ranked {
		longest = max(longest, figure(r.Hours))
	}
	for i, r := range said.Ranked {
		row := ranked{
			Rank: r.Rank, Label: r.Label, Answer: say(verdictWords, r.Answer), Headline: r.Headline, Drift: r.DriftGrade,
			Beaten: strings.Join(r.BeatenBy, ", "), Y: i*barStep + barInset, TextY: i*barStep + barInset - barGap,
		}
		if r.Hours != nil {
			row.Hours = fmt.Sprintf("%.1f h", figure(r.Hours))
			row.Bar = int(barLongest * figure(r.Hours) / longest)
		}
		row.FigureX = row.Bar + barGap
		if r.Cost != nil {
			row.Cost = fmt.Sprintf("%.2f %s", figure(r.Cost), say(unitWords, r.Cost.Unit))
		}
		data.Ranked = append(data.Ranked, row)
	}
	return sheet.Render(f.setUpsPage, data)
}

// The measures of the bars, in units of their drawing.
const (
	barStep    = 40
	barInset   = 16
	barGap     = 4
	barLongest = 500
)

// BarsHeight is the height of the drawing of the bars.
func (d setUpsData) BarsHeight() int { return len(d.Ranked) * barStep }

// figure is the value of a quantity that may be absent; 0 where it is.
func figure(q *wire.Quantity) float64 {
	if q == nil || q.Value == nil {
		return 0
	}
	return *q.Value
}

// verdictWords are the answers.
var verdictWords = []wording{{"yes", "yes"}, {"yes_if", "yes, if"}, {"no", "no"}}

package sheet

import (
	"embed"
	"html/template"
	"slices"
	"strings"
	"sync"

	"tractcheck/api/wire"
	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
)

//go:embed answer.html
var answerFiles embed.FS

// answerTemplate is parsed once; a template that does not parse is a mistake of the build, which
// every test of the package finds.
var answerTemplate = sync.OnceValues(func() (*template.Template, error) {
	return Layout(answerFiles, template.FuncMap{
		"say": say, "plain": plain, "capital": capital, "bearing": bearing, "bound": boundName,
	}, "answer.html")
})

// Assessed is a whole answer and what it answers.
type Assessed struct {
	Answer     *wire.Answer // as JSON would carry it
	Request    *wire.Request
	Computed   feasibility.Answer   // tells which room said what
	Drawing    *feasibility.Drawing // nil where the tract has no place on the map
	Standalone bool                 // for a file of its own: the style goes inside
}

// Assessment writes the answer sheet of a mission: one or two printed pages, and a third for the
// application record where the tank holds a pesticide. Figures are those of the JSON answer, in the
// units the request chose. It fails only where the template is at fault.
func Assessment(in Assessed) ([]byte, error) {
	page, err := answerTemplate()
	if err != nil {
		return nil, err
	}
	return Render(page, newAnswerPage(in))
}

// answerPage is what answer.html shows.
type answerPage struct {
	Frame
	Said        *wire.Answer
	Name        string
	Facts       []fact
	First       first
	Weight      weightBlock
	Spray       sprayBlock
	Drift       driftBlock
	Work        workBlock
	Papers      papersBlock
	Crew        []string // standing cautions
	Cited       []string // citations of the sources that findings name
	SourceCount int
	SI          bool
}

// fact is one line of a list of facts.
type fact struct{ Name, Value string }

// note is one finding as a sheet shows it.
type note struct {
	Tag, Severity, Message string
	Figures                string // in the units of the answer, where the message is in others
}

// newAnswerPage prepares everything the template shows.
func newAnswerPage(in Assessed) answerPage {
	a := in.Answer
	p := answerPage{
		Frame: Frame{Engine: a.Engine, RulesAsOf: a.RulesAsOf, Standalone: in.Standalone},
		Said:  a, Name: "A mission without a name", SourceCount: len(a.Sources),
		SI: in.Request.Units != nil && *in.Request.Units == "si",
	}
	if a.Reference != nil && strings.TrimSpace(*a.Reference) != "" {
		p.Name = *a.Reference
	}
	p.Title = "Spray drone answer sheet: " + p.Name
	p.Facts = factsOf(in.Request, a)
	p.First = firstOf(in)
	shown := p.First.shown
	said := sorted(in, p.SI, shown)
	p.Weight = weightOf(a.TakeoffWeight, said[weightRoom])
	p.Spray = sprayOf(a.RatePressure, in.Request, said[sprayRoom])
	p.Drift = driftOf(a.DriftRisk, said[driftRoom])
	p.Work = workOf(in, said[workRoom])
	p.Papers = papersOf(in, p.First.lifted, said[papersRoom])
	own := in.Computed.Authorizations.Cautions
	for _, c := range a.Cautions {
		if !slices.Contains(own, c) {
			p.Crew = append(p.Crew, c)
		}
	}
	p.Cited = cited(a)
	return p
}

// The blocks of a sheet.
const (
	weightRoom = iota
	sprayRoom
	driftRoom
	workRoom
	papersRoom
	rooms
)

// sorted puts the findings that are not shown elsewhere into the blocks, by the room they came from.
func sorted(in Assessed, si bool, shown map[int]bool) [rooms][]note {
	home := map[finding.Code]int{}
	for room, list := range [][]finding.Finding{
		weightRoom: in.Computed.TakeoffWeight.Findings, sprayRoom: in.Computed.RatePressure.Findings,
		driftRoom: in.Computed.DriftRisk.Findings, workRoom: in.Computed.SortiePlan.Findings,
		papersRoom: in.Computed.Authorizations.Findings,
	} {
		for _, f := range list {
			home[f.Code] = room
		}
	}
	var out [rooms][]note
	for i, f := range in.Answer.Findings {
		if shown[i] {
			continue
		}
		room, ok := home[finding.Code(f.Code)]
		if !ok {
			room = roomOf(f)
		}
		out[room] = append(out[room], noteOf(f, si))
	}
	return out
}

// roomOf guesses the block of a finding that no room's own list holds.
func roomOf(f wire.Finding) int {
	switch {
	case isPaper(f.Code):
		return papersRoom
	case strings.HasPrefix(f.Subject, "/weather"), strings.HasPrefix(f.Subject, "/field/neighbors"):
		return driftRoom
	case strings.HasPrefix(f.Subject, "/spray_system"):
		return sprayRoom
	default:
		return workRoom
	}
}

// noteOf writes a finding. Messages carry US figures; where the answer is in SI the figures stand
// beside the message in SI too.
func noteOf(f wire.Finding, si bool) note {
	severity := finding.Severity(f.Severity)
	out := note{Tag: tags[severity], Severity: f.Severity, Message: f.Message}
	if !si {
		return out
	}
	var figures []string
	if f.Measured != nil {
		figures = append(figures, say(f.Measured))
	}
	if f.Limit != nil {
		figures = append(figures, "limit "+say(f.Limit))
	}
	if len(figures) > 0 {
		out.Figures = "In SI: " + strings.Join(figures, ", ") + "."
	}
	return out
}

// cited lists the citations of the sources that findings name, each once, in the order of the list.
func cited(a *wire.Answer) []string {
	named := map[string]bool{}
	for _, f := range a.Findings {
		named[f.Source] = true
	}
	var out []string
	for _, s := range a.Sources {
		if !named[s.ID] {
			continue
		}
		text, _, _ := strings.Cut(s.Citation, ": ")
		if s.Standing != string(finding.Read) && !strings.Contains(text, s.Standing) {
			text += " (" + s.Standing + ")"
		}
		if !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return out
}

// factsOf says what was asked, as it was sent.
func factsOf(r *wire.Request, a *wire.Answer) []fact {
	var out []fact
	add := func(name string, values ...string) {
		values = slices.DeleteFunc(values, func(v string) bool { return v == "" })
		if len(values) > 0 {
			out = append(out, fact{name, strings.Join(values, ", ")})
		}
	}
	with := func(q *wire.Quantity, before, after string) string {
		if q == nil {
			return ""
		}
		return before + say(q) + after
	}
	if m := r.Aircraft; m != nil {
		label := ""
		if m.Label != nil {
			label = *m.Label
		}
		count := ""
		if m.Count != nil && *m.Count > 1 {
			count = digits(float64(*m.Count), 6) + " of them"
		}
		add("Drone", label, count)
	}
	if l := r.Load; l != nil {
		kind := ""
		if l.Pesticide != nil {
			kind = map[bool]string{true: "a pesticide", false: "no pesticide"}[*l.Pesticide]
		}
		fill := ""
		if a.TakeoffWeight != nil {
			fill = with(a.TakeoffWeight.Fill, "", " in the tank")
		}
		add("Load", fill, with(l.ApplicationRate, "", ""), kind)
	}
	if f := r.Flight; f != nil {
		add("Flight", with(f.Speed, "", ""), with(f.Height, "", " above the crop"), with(f.Swath, "swath ", ""))
	}
	if w := r.Weather; w != nil {
		at, wind := "", with(w.WindSpeed, "wind ", "")
		if w.At != nil {
			at = when(*w.At)
		}
		if w.WindFrom != nil && wind != "" {
			wind += " from the " + bearing(w.WindFrom)
		}
		add("Weather", at, wind, with(w.Temperature, "", ""), with(w.RelativeHumidity, "", " humidity"))
	}
	return out
}

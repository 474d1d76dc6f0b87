package sheet_test

import (
	"encoding/json"
	"fmt"
	"html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/sheet"
	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// printed is a sample mission, its answer and its sheet.
type printed struct {
	name string
	in   sheet.Assessed
	page string
}

// samples are the sheets of all sample missions, made once.
var samples = sync.OnceValues(func() ([]printed, error) {
	names, err := filepath.Glob("../../testdata/missions/*.json")
	if err != nil {
		return nil, err
	}
	var out []printed
	for _, name := range names {
		body, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		in, err := assessed(body)
		if err != nil {
			return nil, err
		}
		page, err := sheet.Assessment(in)
		if err != nil {
			return nil, err
		}
		out = append(out, printed{strings.TrimSuffix(filepath.Base(name), ".json"), in, string(page)})
	}
	return out, nil
})

// assessed answers a mission as the service does.
func assessed(body []byte) (sheet.Assessed, error) {
	reader, err := wire.NewReader("tractcheck test")
	if err != nil {
		return sheet.Assessed{}, err
	}
	request, mission, digest, faults := reader.Read(wire.Assessments, body)
	if len(faults) > 0 {
		return sheet.Assessed{}, fmt.Errorf("the mission is at fault: %v", faults)
	}
	answer, err := feasibility.Assess(mission)
	if err != nil {
		return sheet.Assessed{}, err
	}
	in := sheet.Assessed{Request: request, Computed: answer,
		Answer: wire.NewAnswer(wire.Assessments, wire.Identity{Digest: digest, Engine: "tractcheck test"}, request, answer)}
	if drawing, ok := mission.Draw(answer); ok {
		in.Drawing = &drawing
	}
	return in, nil
}

func eachSample(t *testing.T, hold func(t *testing.T, p printed)) {
	t.Helper()
	all, err := samples()
	require.NoError(t, err)
	require.NotEmpty(t, all)
	for _, p := range all {
		t.Run(p.name, func(t *testing.T) { hold(t, p) })
	}
}

// text is what a reader sees of a page.
func text(page string) string {
	page = regexp.MustCompile(`(?s)<svg.*?</svg>|<style>.*?</style>|<[^>]*>`).ReplaceAllString(page, " ")
	page = strings.ReplaceAll(html.UnescapeString(page), "\u00a0", " ")
	return strings.Join(strings.Fields(page), " ")
}

// shows checks that a text holds another, and says briefly where it does not.
func shows(t *testing.T, all, part string) {
	t.Helper()
	if !strings.Contains(all, part) {
		t.Errorf("the sheet does not show %q", part)
	}
}

// squeezed is a text with its white space as text has it.
func squeezed(s string) string { return strings.Join(strings.Fields(s), " ") }

func TestEverySheetHasItsBlocks(t *testing.T) {
	t.Parallel()
	eachSample(t, func(t *testing.T, p printed) {
		for _, id := range []string{"verdict", "first", "weight", "spray", "drift", "work", "papers", "crew", "taken", "about"} {
			assert.Equal(t, 1, strings.Count(p.page, `<h2 id="`+id+`">`), id)
		}
		seen := text(p.page)
		a := p.in.Answer
		for _, said := range []string{a.Headline, *a.Reference, a.Digest, a.Engine, a.RulesAsOf} {
			shows(t, seen, squeezed(said))
		}
		for _, c := range a.Cautions {
			shows(t, seen, squeezed(c))
		}
		for _, x := range a.Assumptions {
			shows(t, strings.ToLower(seen), strings.ToLower(squeezed(x.Assumed)))
			shows(t, strings.ToLower(seen), strings.ToLower(squeezed(x.Settle)))
		}
	})
}

// A finding shows by its message; one of the table of authorizations may show as its row.
func TestEveryFindingShows(t *testing.T) {
	t.Parallel()
	eachSample(t, func(t *testing.T, p printed) {
		seen := text(p.page)
		for _, f := range p.in.Answer.Findings {
			if strings.Contains(seen, squeezed(f.Message)) {
				continue
			}
			require.True(t, strings.HasPrefix(f.Code, "permit_"), "%s is missing: %s", f.Code, f.Message)
			row := 0
			for _, i := range p.in.Answer.Authorizations.Items {
				if strings.HasPrefix(f.Message, i.Title+": ") {
					row++
					shows(t, seen, squeezed(i.Title))
					shows(t, strings.ToLower(seen), strings.ToLower(squeezed(i.Because)))
					shows(t, seen, squeezed(i.Citation))
				}
			}
			assert.NotZero(t, row, f.Code)
		}
	})
}

func TestEveryOpenPaperAndEveryChangeShows(t *testing.T) {
	t.Parallel()
	changed, open := 0, 0
	eachSample(t, func(t *testing.T, p printed) {
		seen := strings.ToLower(text(p.page))
		for _, r := range p.in.Answer.Remedies {
			changed++
			shows(t, seen, strings.ToLower(squeezed(r.Costs)))
		}
		for _, i := range p.in.Answer.Authorizations.Items {
			if i.Status == "not_needed" {
				continue
			}
			shows(t, seen, strings.ToLower(squeezed(i.Title)))
			if i.Status == "needed" && i.Kind == "permit" {
				open++
				shows(t, seen, strings.ToLower(squeezed(i.HowToGet)))
				shows(t, seen, strings.ToLower(squeezed(i.LeadTime)))
			}
		}
	})
	assert.NotZero(t, changed)
	assert.NotZero(t, open)
}

func TestTheRecordHasALineForEachBlank(t *testing.T) {
	t.Parallel()
	with, without := 0, 0
	eachSample(t, func(t *testing.T, p printed) {
		record := p.in.Answer.Authorizations.Record
		if record == nil {
			without++
			assert.NotContains(t, p.page, `id="record"`)
			return
		}
		with++
		assert.Equal(t, len(record.Fields)+2, strings.Count(p.page, `class="blank"`), "a line for each entry, the signature and the date")
		for _, f := range record.Fields {
			shows(t, text(p.page), squeezed(f.Title))
		}
	})
	assert.NotZero(t, with)
	assert.NotZero(t, without)
}

// unitless finds figures in cells that should carry a unit.
var figureCell = regexp.MustCompile(`<td class="figure">([^<]*)</td>`)

func TestEveryFigureHasItsUnit(t *testing.T) {
	t.Parallel()
	eachSample(t, func(t *testing.T, p printed) {
		cells := figureCell.FindAllStringSubmatch(p.page, -1)
		require.NotEmpty(t, cells)
		for _, cell := range cells {
			said := strings.ReplaceAll(html.UnescapeString(cell[1]), "\u00a0", " ")
			assert.Regexp(t, `^(\$[\d.]+ per (acre|ha)|-?[\d.]+ [A-Za-z%°/ ]+)$`, said)
		}
		si := p.in.Request.Units != nil && *p.in.Request.Units == "si"
		for _, cell := range cells {
			if si {
				assert.NotRegexp(t, `(lb|gal|ft|mph|psi|acre)`, cell[1], "an answer in SI has figures in SI")
			}
		}
	})
}

func TestPagesAskForNothingAndRunNothing(t *testing.T) {
	t.Parallel()
	eachSample(t, func(t *testing.T, p printed) {
		lower := strings.ToLower(p.page)
		assert.NotContains(t, lower, "<script")
		assert.NotRegexp(t, `\sstyle\s*=`, lower)
		assert.NotRegexp(t, `\son[a-z]+\s*=`, lower)
		assert.NotContains(t, lower, "<img")
		for _, link := range regexp.MustCompile(`(?:href|src|action)="([^"]*)"`).FindAllStringSubmatch(p.page, -1) {
			assert.Contains(t, []string{sheet.Frame{}.StyleAddress(), "data:,"}, html.UnescapeString(link[1]), "the style and an empty icon")
		}
		ids := map[string]bool{}
		for _, id := range regexp.MustCompile(`\sid="([^"]*)"`).FindAllStringSubmatch(p.page, -1) {
			assert.False(t, ids[id[1]], "the id %s is used twice", id[1])
			ids[id[1]] = true
		}
		for _, list := range regexp.MustCompile(`aria-labelledby="([^"]*)"`).FindAllStringSubmatch(p.page, -1) {
			for _, id := range strings.Fields(list[1]) {
				assert.True(t, ids[id], "no element has the id %s", id)
			}
		}
	})
}

// hostile is text that would break out of a page or a drawing that did not escape it.
const hostile = `</title></svg></style><script>alert(1)</script>"'><img src=x onerror=alert(1)>{{.}}&`

func TestNothingOfTheRequestIsPutInUnescaped(t *testing.T) {
	t.Parallel()
	body, err := os.ReadFile("../../testdata/missions/woodlot-ring.json")
	require.NoError(t, err)
	var mission map[string]any
	require.NoError(t, json.Unmarshal(body, &mission))
	mission["reference"] = hostile
	mission["aircraft"].(map[string]any)["label"] = hostile
	mission["load"].(map[string]any)["product_label"].(map[string]any)["brand"] = hostile
	mission["field"].(map[string]any)["crop"] = hostile
	for _, standalone := range []bool{false, true} {
		changed, err := json.Marshal(mission)
		require.NoError(t, err)
		in, err := assessed(changed)
		require.NoError(t, err)
		in.Standalone = standalone
		page, err := sheet.Assessment(in)
		require.NoError(t, err)
		assert.NotContains(t, string(page), "<script")
		assert.NotContains(t, string(page), "<img")
		assert.GreaterOrEqual(t, strings.Count(string(page), "&lt;script&gt;alert(1)"), 4, "it is shown as text")
		for _, drawing := range drawings.FindAllString(string(page), -1) {
			holdDrawing(t, drawing)
		}
	}
}

func TestAFileOfItsOwnCarriesItsStyle(t *testing.T) {
	t.Parallel()
	all, err := samples()
	require.NoError(t, err)
	in := all[0].in
	in.Standalone = true
	page, err := sheet.Assessment(in)
	require.NoError(t, err)
	assert.Contains(t, string(page), "<style>")
	assert.Contains(t, string(page), "@media print")
	assert.NotContains(t, string(page), "<link")
}

func BenchmarkAssessment(b *testing.B) {
	all, err := samples()
	require.NoError(b, err)
	for _, p := range all {
		if p.name != "cotton-forty-small" && p.name != "twin-cuts" {
			continue
		}
		b.Run(p.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = sheet.Assessment(p.in)
			}
		})
	}
}

// A fill has a strict limit: a sheet that rounded it up would send a machine up too heavy.
func TestVolumesAreNeverRoundedUp(t *testing.T) {
	t.Parallel()
	eachSample(t, func(t *testing.T, p printed) {
		if p.name != "fertilizer-private-heavy" {
			return
		}
		fill := p.in.Answer.TakeoffWeight.LargestFill.Volume
		require.Equal(t, "gal", fill.Unit)
		require.InDelta(t, 2.01877, *fill.Value, 1e-5, "a figure that rounds up")
		shows(t, text(p.page), "The largest fill is 2.01 gal")
		assert.NotContains(t, p.page, "2.02")
	})
}

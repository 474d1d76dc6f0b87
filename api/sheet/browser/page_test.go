package browser_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// views are the pages a person sees, each with the way there.
var views = []struct {
	name string
	show func(t *testing.T, b *tab)
}{
	{"form", func(t *testing.T, b *tab) { require.EqualValues(t, 200, b.at("/")) }},
	{"form, all open", func(t *testing.T, b *tab) {
		require.EqualValues(t, 200, b.at("/?start=woodlot-ring&units=si"))
		unfold(b)
	}},
	{"form with faults", func(t *testing.T, b *tab) {
		require.EqualValues(t, 200, b.at("/?start=empty"))
		require.EqualValues(t, 422, b.press(check))
	}},
	{"sheet", func(t *testing.T, b *tab) {
		require.EqualValues(t, 200, b.at("/"))
		require.EqualValues(t, 200, b.press(check))
		unfold(b)
	}},
	{"hours", func(t *testing.T, b *tab) {
		answered(t, b, "ask-hours")
		require.EqualValues(t, 200, b.press(`button[value="hours"]`))
		unfold(b)
	}},
	{"ways", func(t *testing.T, b *tab) {
		answered(t, b, "ask-compare")
		b.put(`[name="set-up/0/flight/speed/value"]`, "8")
		require.EqualValues(t, 200, b.press(`button[value="compare"]`))
		unfold(b)
	}},
	{"failure", func(t *testing.T, b *tab) {
		b.at("/?start=nothing")
		b.mu.Lock()
		defer b.mu.Unlock()
		b.errors = nil // the console names the status of the page
	}},
	{"documentation", func(t *testing.T, b *tab) {
		require.EqualValues(t, 200, b.at("/docs"))
		b.do(chromedp.WaitVisible(chromedp.CSS(".opblock-summary")))
	}},
}

// answered goes from the form over the sheet to the page that a button there leads to.
func answered(t *testing.T, b *tab, button string) {
	t.Helper()
	require.EqualValues(t, 200, b.at("/"))
	require.EqualValues(t, 200, b.press(check))
	require.EqualValues(t, 200, b.press(`button[value="`+button+`"]`))
}

func unfold(b *tab) {
	ask[int](b, `document.querySelectorAll("details").forEach(d => { d.open = true; }), 0`)
}

func TestPagesFitAPhone(t *testing.T) {
	b := open(t, phone)
	for _, v := range views {
		b.do(chromedp.EmulateViewport(phone, height))
		v.show(t, b)
		for _, width := range []int64{phone, small} {
			b.do(chromedp.EmulateViewport(width, height))
			wide := ask[int](b, `document.scrollingElement.scrollWidth - document.scrollingElement.clientWidth`)
			assert.LessOrEqual(t, wide, 0, "%s at %d pixels scrolls sideways by %d: %v", v.name, width, wide,
				ask[[]string](b, `[...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > innerWidth + 1)
					.slice(0, 5).map(e => e.tagName + "." + e.className + "#" + e.id)`))
		}
	}
}

func TestPagesAreAccessible(t *testing.T) {
	file := os.Getenv("TRACTCHECK_AXE")
	if file == "" {
		if os.Getenv("TRACTCHECK_BROWSER") == required {
			t.Fatal("TRACTCHECK_AXE must be the path of axe.min.js of the npm package axe-core")
		}
		t.Skip("no axe-core: npm install axe-core in a folder of its own, and set TRACTCHECK_AXE to its axe.min.js")
	}
	script, err := os.ReadFile(file)
	require.NoError(t, err)
	b := open(t, desk)
	for _, v := range views {
		v.show(t, b)
		ask[int](b, string(script)+"; 0")
		found := ask[[]string](b, axeRun)
		assert.Empty(t, found, v.name)
	}
}

// axeRun runs every rule of the checker on the whole page, the documentation's viewer among it as it
// opens: with its parts folded.
const axeRun = `axe.run(document, {preload: false, resultTypes: ["violations"]})
	.then(r => r.violations.map(v => v.id + ": " + v.help + ": " + v.nodes.slice(0, 3).map(n => n.html).join(" | ")))`

// pdfPage finds the pages of a document as the browser writes it.
var pdfPage = regexp.MustCompile(`/Type\s*/Page[^s]`)

// mostPages is the most pages of a usual sheet: two for the answer, and one more that the application
// record ends on.
const mostPages = 3

func TestASheetPrintsOnAFewPages(t *testing.T) {
	b := open(t, desk)
	for _, start := range []string{"levee-strip-small", "woodlot-ring", "pecan-block-rotary", "seven-hectares-si"} {
		require.EqualValues(t, 200, b.at("/?start="+start))
		require.EqualValues(t, 200, b.press(check))
		for paper, size := range map[string]chromedp.PaperSize{"letter": chromedp.PaperLetter, "A4": chromedp.PaperA4} {
			document := get(b, chromedp.PrintToPDF(chromedp.PDFPaper(size)))
			pages := len(pdfPage.FindAll(document, -1))
			assert.GreaterOrEqual(t, pages, 1, "%s on %s", start, paper)
			assert.LessOrEqual(t, pages, mostPages, "%s on %s", start, paper)
		}
		assert.Empty(t, hiddenInPrint(b), "what is for the screen alone is not printed")
	}
}

// hiddenInPrint are the parts for the screen that would be printed.
func hiddenInPrint(b *tab) []string {
	b.do(medium("print"))
	defer b.do(medium(""))
	return ask[[]string](b, `[...document.querySelectorAll(".screen-only, nav, button")].filter(e => e.getClientRects().length > 0).map(e => e.className)`)
}

func medium(name string) chromedp.Action[chromedp.Void] {
	return command(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: name})
}

// The documentation shows the contract without a word from elsewhere, and its links stay inside.
func TestTheDocumentationShowsTheContract(t *testing.T) {
	b := open(t, desk)
	require.EqualValues(t, 200, b.at("/docs"))
	b.do(chromedp.WaitVisible(chromedp.CSS("#operations-missions-create-assessment")))
	assert.Contains(t, b.text("#viewer"), "/v1/assessments")
	b.do(chromedp.Click(chromedp.CSS("#operations-missions-create-assessment button")),
		chromedp.WaitVisible(chromedp.CSS("#operations-missions-create-assessment .opblock-body")))
	assert.Contains(t, b.text("#operations-missions-create-assessment"), "whole mission")
	assert.NotContains(t, strings.ToLower(b.text("body")), "failed to load")
}

// TRACTCHECK_SHOTS is a folder that pictures of the pages are put in, to be looked at.
func TestPicturesOfThePages(t *testing.T) {
	folder := os.Getenv("TRACTCHECK_SHOTS")
	if folder == "" {
		t.Skip("set TRACTCHECK_SHOTS to a folder to get pictures of every page")
	}
	for name, width := range map[string]int64{"desk": desk, "phone": phone} {
		b := open(t, width)
		for _, v := range views {
			v.show(t, b)
			const lossless = 100
			picture := get(b, chromedp.FullScreenshot(lossless))
			file := filepath.Join(folder, strings.ReplaceAll(v.name, ", ", "-")+"-"+name+".png")
			require.NoError(t, os.WriteFile(strings.ReplaceAll(file, " ", "-"), picture, 0o600))
		}
	}
}

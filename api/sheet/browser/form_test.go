package browser_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	desk  = 1100 // pixels across
	phone = 390
	small = 320
)

const check = `button[value="check"]`

// A person without JavaScript fills in the form, gets a sheet, goes back, breaks a field, sees the
// fault beside it with what was typed, and mends it.
func TestAJobIsFilledInAnsweredBrokenAndMendedWithoutScript(t *testing.T) {
	b := open(t, desk)
	b.do(command(emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}))
	require.EqualValues(t, 200, b.at("/"))
	b.put(input("/reference"), `Ours & "theirs" <1>`)
	b.put(input("/flight/speed"), "11")
	require.EqualValues(t, 200, b.press(check))
	assert.Contains(t, b.text("h1"), `Ours & "theirs" <1>`)
	assert.Regexp(t, `^(Yes|No)`, b.text(".headline"))
	b.do(chromedp.Click(chromedp.CSS(".next summary")))
	assert.Contains(t, b.text(".next .request"), `"value": 11,`)
	assert.Contains(t, b.text(".next .command"), "curl ")

	require.EqualValues(t, 200, b.press(`button[value="edit"]`))
	assert.Equal(t, "11", b.value(input("/flight/speed")))
	b.put(input("/flight/speed"), "quick")
	b.put(input("/weather/gust"), "1")
	require.EqualValues(t, 422, b.press(check))
	assert.Contains(t, b.text(".summary"), "2 things to mend")
	assert.Equal(t, "quick", b.value(input("/flight/speed")), "what was typed is kept")
	assert.Equal(t, `Ours & "theirs" <1>`, b.value(input("/reference")))
	beside := b.text(input("/flight/speed") + `[aria-invalid="true"]` + ` ~ select`)
	assert.NotEmpty(t, beside)
	assert.Contains(t, b.text("#in-flight-speed-fault"), "Write a number")
	described := get(b, chromedp.AttributeValue(chromedp.CSS(input("/flight/speed")), "aria-describedby"))
	assert.Equal(t, "in-flight-speed-fault in-flight-speed-hint", described.Value)
	assert.Contains(t, b.text("#in-weather-gust-fault"), "gust")
	b.do(chromedp.Click(chromedp.CSS(`.summary a[href="#in-flight-speed"]`)))

	b.put(input("/flight/speed"), "10")
	b.put(input("/weather/gust"), "")
	require.EqualValues(t, 200, b.press(check))
	assert.NotEmpty(t, b.text(".headline"))
}

func TestTheFormStartsConvertsAndGrows(t *testing.T) {
	b := open(t, desk)
	require.EqualValues(t, 200, b.at("/"))
	b.put("#start", "generic-40")
	b.put("#start-units", "si")
	require.EqualValues(t, 200, b.press(".start button"))
	assert.Equal(t, "40", b.value(input("/aircraft/tank_capacity")))
	assert.Contains(t, b.value(input("/aircraft/label")), "invented figures")
	require.EqualValues(t, 200, b.press(`button[value="units-us"]`))
	assert.Equal(t, "10.5669", b.value(input("/aircraft/tank_capacity")))
	require.EqualValues(t, 422, b.press(check), "the job itself was left to fill in")
	assert.Contains(t, b.text(".summary"), "Air temperature")

	rows := ask[int](b, `document.querySelectorAll("#part-neighbors .row").length`)
	b.put(input("/field/neighbors/0/distance"), "100")
	require.EqualValues(t, 200, b.press(`button[value="add:/field/neighbors"]`))
	assert.Greater(t, ask[int](b, `document.querySelectorAll("#part-neighbors .row").length`), rows)
	assert.Equal(t, "100", b.value(input("/field/neighbors/0/distance")))
}

func TestAMapIsTakenFromAFile(t *testing.T) {
	b := open(t, desk)
	require.EqualValues(t, 200, b.at("/"))
	file := filepath.Join(t.TempDir(), "field.geojson")
	require.NoError(t, os.WriteFile(file, []byte(`{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"name":"x"},"geometry":
		{"type":"Polygon","coordinates":[[[-90.90,33.40],[-90.897,33.40],[-90.897,33.402],[-90.90,33.402],[-90.90,33.40]]]}}]}`), 0o600))
	b.put(input("/field/length"), "")
	b.put(input("/field/width"), "")
	b.do(chromedp.Click(chromedp.CSS("#part-map > summary")),
		chromedp.SetUploadFiles(chromedp.CSS(input("/field/boundary-file")), []string{file}))
	require.EqualValues(t, 200, b.press(check))
	request := ask[string](b, `document.querySelector(".next .request").textContent`)
	assert.Contains(t, strings.Join(strings.Fields(request), ""), `"boundary":{"type":"Polygon","coordinates":[[[-90.90,33.40]`)
	require.EqualValues(t, 200, b.press(`button[value="edit"]`))
	assert.Contains(t, b.value(input("/field/boundary")), "FeatureCollection", "the map comes back as it was sent")
}

package sheet_test

import (
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/sheet"
	"tractcheck/api/wire"
)

var drawings = regexp.MustCompile(`(?s)<svg.*?</svg>`)

// Drawings are well-formed XML, have a title and a description, and stay finite.
func TestDrawingsAreValidAndDescribed(t *testing.T) {
	t.Parallel()
	maps := 0
	eachSample(t, func(t *testing.T, p printed) {
		found := drawings.FindAllString(p.page, -1)
		want := 3
		if p.in.Drawing != nil {
			want, maps = 4, maps+1
		}
		require.Len(t, found, want)
		for _, drawing := range found {
			holdDrawing(t, drawing)
		}
	})
	assert.NotZero(t, maps)
}

func holdDrawing(t *testing.T, drawing string) {
	t.Helper()
	said := map[string]string{}
	inside := ""
	decoder := xml.NewDecoder(strings.NewReader(drawing))
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		switch v := token.(type) {
		case xml.StartElement:
			inside = v.Name.Local
			assert.Contains(t, []string{"svg", "g", "path", "text", "title", "desc"}, inside)
			for _, a := range v.Attr {
				assert.NotContains(t, a.Value, "NaN")
				assert.NotContains(t, a.Value, "Inf")
				assert.NotEqual(t, "style", a.Name.Local)
			}
		case xml.CharData:
			said[inside] += string(v)
		case xml.EndElement:
			inside = ""
		}
	}
	assert.NotEmpty(t, said["title"])
	assert.Greater(t, len(said["desc"]), 60, "a description that stands for the drawing")
	assert.NotEmpty(t, said["text"], "axes are labeled")
	assert.Contains(t, drawing, `role="img"`)
}

// Text that reaches a drawing, such as a code of the answer, is escaped there too.
func TestDrawingsEscapeTheirText(t *testing.T) {
	t.Parallel()
	all, err := samples()
	require.NoError(t, err)
	in := all[0].in
	answer := *in.Answer
	in.Answer = &answer
	risk := *answer.DriftRisk
	risk.AtNeighbors = append([]wire.NeighborDeposit{}, risk.AtNeighbors...)
	risk.ReferenceCurves = append([]wire.ReferenceCurve{}, risk.ReferenceCurves...)
	require.NotEmpty(t, risk.AtNeighbors)
	require.NotEmpty(t, risk.ReferenceCurves)
	risk.AtNeighbors[0].Kind, risk.ReferenceCurves[0].Name = hostile, hostile
	risk.AtNeighbors[0].Downwind = true
	answer.DriftRisk = &risk
	page, err := sheet.Assessment(in)
	require.NoError(t, err)
	assert.NotContains(t, string(page), "<script")
	for _, drawing := range drawings.FindAllString(string(page), -1) {
		holdDrawing(t, drawing)
	}
}

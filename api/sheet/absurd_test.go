package sheet_test

import (
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/sheet"
	"tractcheck/api/wire"
)

// Figures far from any mission make a sheet with fewer drawings, never a broken one.
func TestAbsurdFiguresMakeNoBrokenDrawing(t *testing.T) {
	t.Parallel()
	all, err := samples()
	require.NoError(t, err)
	for _, p := range all {
		if p.in.Drawing == nil && p.name != "pecan-block-rotary" {
			continue
		}
		for _, x := range []float64{0, -1, 1e-300, 1e300, math.Inf(1), math.Inf(-1), math.NaN()} {
			in := p.in
			in.Answer = copied(t, p.in.Answer)
			set(reflect.ValueOf(in.Answer), x)
			holdPage(t, in)
		}
		in := p.in
		in.Answer = copied(t, p.in.Answer)
		in.Answer.TakeoffWeight, in.Answer.RatePressure, in.Answer.DriftRisk = nil, nil, nil
		in.Answer.SortiePlan, in.Answer.CrewPlan, in.Answer.Authorizations = nil, nil, nil
		in.Answer.Reference, in.Request = nil, &wire.Request{}
		holdPage(t, in)
	}
}

func holdPage(t *testing.T, in sheet.Assessed) {
	t.Helper()
	page, err := sheet.Assessment(in)
	require.NoError(t, err)
	assert.True(t, strings.HasSuffix(string(page), "</html>\n"))
	for _, drawing := range drawings.FindAllString(string(page), -1) {
		holdDrawing(t, drawing)
	}
}

// copied is a deep copy of an answer.
func copied(t *testing.T, a *wire.Answer) *wire.Answer {
	t.Helper()
	text, err := json.Marshal(a)
	require.NoError(t, err)
	var out wire.Answer
	require.NoError(t, json.Unmarshal(text, &out))
	return &out
}

// set sets every quantity of a value to one number.
func set(v reflect.Value, x float64) {
	if q, ok := v.Interface().(*wire.Quantity); ok {
		if q != nil {
			q.Value = &x
		}
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			set(v.Elem(), x)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			set(v.Field(i), x)
		}
	case reflect.Slice:
		for i := range v.Len() {
			set(v.Index(i), x)
		}
	default:
	}
}

package wire

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/units"
)

var referenceSchemas = map[string]string{
	"authorizations": "AuthorizationTable", "drift-grades": "DriftGradeTable", "droplet-classes": "DropletClassTable",
	"nozzle-sizes": "NozzleSizeTable", "sources": "SourceTable", "units": "UnitTable",
}

func TestReferencesKeepTheContract(t *testing.T) {
	t.Parallel()
	schemas := contractSchemas(t)
	tables := References()
	require.Len(t, tables, len(referenceSchemas))
	for _, r := range tables {
		name, known := referenceSchemas[r.Name]
		require.True(t, known, r.Name)
		sameShape(t, schemas, r.Name, reflect.TypeOf(r.Table), schemaNode{Ref: schemaPrefix + name})
		assert.NoError(t, compiled(t, name).Validate(tree(t, r.Table)), r.Name)
	}
}

// A row without a citation, a date or a known source must not be served.
func TestEveryReferenceRowIsCitedAndDated(t *testing.T) {
	t.Parallel()
	table := newAuthorizationTable()
	require.Len(t, table.Rows, 87)
	known := map[string]string{}
	for _, s := range table.Sources {
		known[s.ID] = s.Citation
	}
	for _, r := range table.Rows {
		assert.Regexp(t, `\w`, r.Citation, r.ID)
		assert.Regexp(t, `^20\d\d-\d\d-\d\d$`, r.AsOf, r.ID)
		assert.Equal(t, permits.AsOf().Format("2006-01-02"), r.AsOf, r.ID)
		require.NotEmpty(t, r.Sources, r.ID)
		for _, id := range r.Sources {
			assert.NotEmpty(t, known[id], "%s names %s", r.ID, id)
		}
	}
	for _, l := range table.WeightLines {
		assert.NotEmpty(t, l.Citation, l.Country)
		assert.Regexp(t, `^20\d\d-\d\d-\d\d$`, l.AsOf, l.Country)
		assert.NotEmpty(t, known[l.Source], l.Country)
		assert.Equal(t, l.Threshold == nil, l.Operator == "", l.Country)
	}
	for _, c := range newDropletClassTable().Rows {
		assert.NotEmpty(t, c.Source, c.Class)
	}
	for _, n := range newNozzleSizeTable().Rows {
		assert.NotEmpty(t, n.Source, n.Code)
	}
}

// The strict and the inclusive side of a line both show: 14 CFR 107.3; SOR/2025-70.
func TestWeightLinesSayTheirOperator(t *testing.T) {
	t.Parallel()
	said := map[string]string{}
	for _, l := range newAuthorizationTable().WeightLines {
		said[l.Country] = l.Operator
		if l.Country == "US" {
			assert.InDelta(t, 55, *l.Threshold.Value, 0)
			assert.Equal(t, "lb", l.Threshold.Unit)
		}
	}
	assert.Equal(t, map[string]string{"US": "<", "EU": "<", "GB": "<", "CA": "<=", "AU": "<=", "BR": "<=", "IN": "<=", "JP": "<", "CN": ""}, said)
}

// Factor and offset do what the mapping of requests does.
func TestUnitFactorsAreThoseInUse(t *testing.T) {
	t.Parallel()
	for i, row := range newUnitTable().Rows {
		assert.NotEmpty(t, row.Base, row.Dimension)
		for j, code := range row.Units {
			for _, value := range []float64{-40, 0, 1, 55, 98.6} {
				want := dimensions[i].units[j].toSI(value)
				assert.InDelta(t, want, value*code.Factor+code.Offset, 1e-10*max(1, want, -want), "%v %s", value, code.Code)
			}
		}
	}
	pound := newUnitTable().Rows[0].Units[0]
	assert.Equal(t, UnitCode{Code: "lb", Factor: 0.45359237}, pound)
	assert.Len(t, baseUnits, len(dimensions))
	_, listed := baseUnits[units.DimensionCount]
	assert.True(t, listed)
}

// Every source an answer names is in the table of sources.
func TestSourcesOfAnswersAreInTheTable(t *testing.T) {
	t.Parallel()
	listed := map[string]bool{}
	for _, s := range newSourceTable().Rows {
		assert.False(t, listed[s.ID], "%s stands once", s.ID)
		listed[s.ID] = true
		assert.NotEmpty(t, s.Citation, s.ID)
		assert.NotEmpty(t, s.Rooms, s.ID)
	}
	for _, country := range []string{"US", "CA", "ZZ"} {
		mission, faults := readEdited(t, Assessments, edit{"/operation/country", country})
		require.Empty(t, faults)
		answer, err := feasibility.Assess(mission)
		require.NoError(t, err)
		for _, s := range NewAnswer(Assessments, asked, nil, answer).Sources {
			assert.True(t, listed[s.ID], s.ID)
		}
	}
}

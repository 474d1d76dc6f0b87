package feasibility_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// recorded finds an entry of the record.
func recorded(t *testing.T, a feasibility.Answer, name string) permits.RecordField {
	t.Helper()
	for _, f := range a.Record.Fields {
		if f.Name == name {
			return f
		}
	}
	require.Fail(t, "no entry", name)
	return permits.RecordField{}
}

// 40 acres at 2 gal/ac of mix, with 16 fl oz (0.125 gal) of product to the acre: 80 gal and 5 gal.
func TestApplicationRecord_isFilledFromTheMission(t *testing.T) {
	m := leveeStrip()
	m.Load.Label.Brand, m.Load.Label.EPARegistrationNumber = new("Invented Brand"), new("00000-0")
	m.Load.Label.ProductRate = new(0.125 * units.GallonPerAcre)
	m.Field.Crop = new("rice levee (invented)")
	m.Operation.Applicator = permits.Applicator{Name: new("Invented Name"), Certificate: new("INV-1")}
	for name, a := range map[string]feasibility.Answer{"whole": assess(t, m), "part": papersOf(t, m)} {
		area := recorded(t, a, "area").Quantity
		require.NotNil(t, area, name)
		assert.InDelta(t, 40, units.Area(area.SI()).In(units.Acre), 0.4, name)
		assert.InDelta(t, 0.125*units.Area(area.SI()).In(units.Acre), units.Volume(recorded(t, a, "total_amount").Quantity.SI()).In(units.Gallon), 1e-6, name)
		assert.Equal(t, "Invented Brand", recorded(t, a, "brand").Text)
		assert.Equal(t, "00000-0", recorded(t, a, "epa_registration_number").Text)
		assert.Equal(t, "rice levee (invented)", recorded(t, a, "crop_or_site").Text)
		assert.Equal(t, "Invented Name", recorded(t, a, "applicator_name").Text)
		assert.Equal(t, "INV-1", recorded(t, a, "applicator_certificate_number").Text)
		assert.Equal(t, "June 12, 2026", recorded(t, a, "date").Text)
		assert.Equal(t, permits.RecordNotRequired, a.Record.Duty, "the label does not say restricted use")
		assert.False(t, recorded(t, a, "place").Filled(), "an area is no place")
	}
}

func TestApplicationRecord_placeAndArea(t *testing.T) {
	corner := func(east, north float64) tract.Position {
		return tract.Position{Longitude: units.Angle(east) * units.Degree, Latitude: units.Angle(north) * units.Degree}
	}
	m := leveeStrip()
	m.Field.Ground = tract.Field{Boundary: []tract.Polygon{{{
		corner(-90.86, 33.42), corner(-90.85, 33.42), corner(-90.85, 33.43), corner(-90.86, 33.43), corner(-90.86, 33.42),
	}}}}
	a := papersOf(t, m)
	assert.Equal(t, "33.42500 N, 90.85500 W (middle of the boundary sent, WGS 84), MS", recorded(t, a, "place").Text)
	assert.False(t, recorded(t, a, "area").Filled(), "the checklist alone plans no field")
	assert.True(t, recorded(t, assess(t, m), "area").Filled())
	m.Field.Ground = tract.Field{Length: new(1000 * units.Foot), Width: new(435.6 * units.Foot)}
	area := recorded(t, papersOf(t, m), "area").Quantity
	assert.InDelta(t, 10, units.Area(area.SI()).In(units.Acre), 1e-3)
	m.Field.Ground = tract.Field{}
	assert.Contains(t, recorded(t, papersOf(t, m), "total_amount").Write, "not of the spray mix")
}

func TestApplicationRecord_southAndEast(t *testing.T) {
	m := leveeStrip()
	m.Operation.State = nil
	at := tract.Position{Longitude: 12.5 * units.Degree, Latitude: -7.25 * units.Degree}
	m.Field.Ground = tract.Field{Boundary: []tract.Polygon{{{at, at, at, at}}}}
	assert.Equal(t, "7.25000 S, 12.50000 E (middle of the boundary sent, WGS 84)", recorded(t, papersOf(t, m), "place").Text)
}

package permits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

// names lists the entries of a record that are filled, and those that are not.
func names(r ApplicationRecord) (filled, blank []string) {
	for _, f := range r.Fields {
		if f.Filled() {
			filled = append(filled, f.Name)
		} else {
			blank = append(blank, f.Name)
		}
	}
	return filled, blank
}

// wholeApplication states all that a mission can state.
func wholeApplication() Application {
	return Application{
		Product: new(0.5 * units.Gallon), Mix: new(80 * units.Gallon), Area: new(40 * units.Acre),
		Place: "33.40000 N, 90.80000 W", Crop: new("invented crop"),
		Applicator: Applicator{Name: new("Invented Name"), Certificate: new("INV-0001")},
	}
}

// The nine facts of 7 CFR 110.3, and the four that 40 CFR 171.303(b)(7) adds.
func TestRecord_hasTheFieldsOfTheRules(t *testing.T) {
	t.Parallel()
	common := []string{"brand", "epa_registration_number", "total_amount", "place", "area", "crop_or_site", "date",
		"applicator_name", "applicator_certificate_number"}
	extra := []string{"customer_name", "customer_address", "start_time", "supervised_applicators"}
	f := fullJob(false)
	f.Label.RestrictedUse = new(true)
	f.Label.Brand, f.Label.EPARegistrationNumber = new("Invented Brand"), new("00000-0")
	r := recordOf(f, wholeApplication())
	filled, blank := names(r)
	assert.Equal(t, append(common, "start_time"), filled)
	assert.Equal(t, []string{"customer_name", "customer_address", "supervised_applicators"}, blank)
	assert.Equal(t, RecordRequired, r.Duty)
	assert.Equal(t, "7 CFR 110.3; 40 CFR 171.303(b)(7)", r.Citation)
	require.NotNil(t, r.WriteBy)
	assert.Equal(t, f.At.AddDate(0, 0, 14), *r.WriteBy) // written within 14 days
	assert.Equal(t, "2 years", r.KeepFor)
	for i, field := range r.Fields {
		want := "7 CFR 110.3"
		if i >= len(common) {
			want = "40 CFR 171.303(b)(7)"
			assert.Equal(t, extra[i-len(common)], field.Name)
		}
		assert.Equal(t, want, field.Citation, field.Name)
		assert.NotEmpty(t, field.Title)
		assert.NotEmpty(t, field.Write, field.Name)
	}
	f.Purpose = Private
	filled, blank = names(recordOf(f, wholeApplication()))
	assert.Equal(t, common, filled, "a private applicator adds nothing")
	assert.Empty(t, blank)
}

// A blank says what to write; the mix is never taken for the product.
func TestRecord_blanks(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.At, f.Purpose = nil, Private
	r := recordOf(f, Application{Mix: new(80 * units.Gallon)})
	filled, blank := names(r)
	assert.Empty(t, filled)
	assert.Len(t, blank, 9)
	assert.Nil(t, r.WriteBy)
	for _, field := range r.Fields {
		assert.Regexp(t, "^write ", field.Write, field.Name)
		if field.Name == "total_amount" {
			assert.Contains(t, field.Write, "not of the spray mix (the plan sprays 80 gal of mix)")
		}
	}
	f.Label.Brand = new("")
	filled, _ = names(recordOf(f, Application{Area: new(units.Area(0))}))
	assert.Empty(t, filled, "an empty text and a zero fill nothing")
}

func TestRecord_duty(t *testing.T) {
	t.Parallel()
	for want, restricted := range map[RecordDuty]*bool{RecordRequired: new(true), RecordNotRequired: new(false), RecordUnknown: nil} {
		f := fullJob(false)
		f.Label.RestrictedUse = restricted
		r := recordOf(f, Application{})
		assert.Equal(t, want, r.Duty)
		assert.NotEmpty(t, r.Because)
	}
	f := fullJob(false)
	f.Pesticide, f.Dispenses = false, new(Nourishment)
	assert.Empty(t, recordOf(f, wholeApplication()).Fields, "no pesticide, no record")
	f.Dispenses, f.Label.RestrictedUse = nil, nil
	assert.Equal(t, RecordUnknown, recordOf(f, wholeApplication()).Duty, "what leaves the tank is not known")
	f = fullJob(false)
	f.Country = "CA"
	assert.Empty(t, recordOf(f, wholeApplication()).Fields)
}

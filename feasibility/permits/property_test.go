package permits

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// perhaps draws one of the values, or nil for a fact not stated.
func perhaps[T any](t *rapid.T, name string, values ...T) *T {
	at := rapid.IntRange(-1, len(values)-1).Draw(t, name)
	if at < 0 {
		return nil
	}
	return &values[at]
}

// flag draws an optional yes or no.
func drawFlag(t *rapid.T, name string) *bool { return perhaps(t, name, false, true) }

// some draws one of the values, or the zero value for a fact not stated.
func some[T any](t *rapid.T, name string, values ...T) T {
	if value := perhaps(t, name, values...); value != nil {
		return *value
	}
	return *new(T)
}

// anyFacts draws a mission with facts missing at random. It is consistent: a sky without cloud
// comes with no cloud clearance, and a state is asked about unmanned aircraft only where the label
// is silent.
func anyFacts(t *rapid.T) Facts {
	small := rapid.Bool().Draw(t, "small")
	f := fullJob(!small)
	f.At = perhaps(t, "at", time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC), time.Date(2027, 6, 1, 9, 0, 0, 0, time.UTC))
	f.TakeoffWeight = some(t, "weight", f.TakeoffWeight)
	f.Dispenses = perhaps(t, "dispenses", allDispenses()...)
	f.Pesticide = rapid.Bool().Draw(t, "pesticide")
	f.Purpose = some(t, "purpose", Commercial, Private, Public)
	f.Airspace = some(t, "airspace", AirspaceG, AirspaceESurface, AirspaceD, AirspaceC, AirspaceB, AirspaceUnknown)
	f.Phase = some(t, "phase", daylight.Day, daylight.Twilight, daylight.Night, daylight.Unknown)
	f.HeightAGL = some(t, "height", 10*units.Foot, 300*units.Foot, 500*units.Foot)
	f.Groundspeed = some(t, "speed", 10*units.MilePerHour, 50*units.MilePerHour, 120*units.MilePerHour)
	f.Visibility = perhaps(t, "visibility", units.Mile, 10*units.Mile)
	f.CloudBelow = perhaps(t, "below", 100*units.Foot, 1000*units.Foot)
	f.CloudSide = perhaps(t, "side", 100*units.Foot, 3000*units.Foot)
	f.CloudFree = nil
	if f.CloudBelow == nil && f.CloudSide == nil {
		f.CloudFree = drawFlag(t, "cloud free")
	}
	f.LineOfSight, f.OverPeople = rapid.Bool().Draw(t, "sight"), rapid.Bool().Draw(t, "people")
	f.VisualObservers = perhaps[units.Count](t, "observers", 0, 1, 4)
	f.RemotePilots = perhaps[units.Count](t, "pilots", 0, 1, 2, 4)
	f.Aircraft = some[units.Count](t, "aircraft", 1, 2, 4)
	f.ApprovedWeight = perhaps(t, "approved", 60*units.Pound, 200*units.Pound)
	f.State = perhaps(t, "state", "", "Invented State")
	f.Rate = some(t, "rate", units.GallonPerAcre, 4*units.GallonPerAcre)
	f.WindSpeed = some(t, "wind", units.MilePerHour, 5*units.MilePerHour, 15*units.MilePerHour)
	f.CalmMeasured = f.WindSpeed == 0 && rapid.Bool().Draw(t, "calm")
	f.DropletClass = some(t, "droplet", spray.Fine, spray.Coarse, spray.UltraCoarse)
	f.ReleaseHeight = some(t, "release", 5*units.Foot, 20*units.Foot)
	f.GrantHeight, f.GrantDistance = perhaps(t, "ceiling", 200*units.Foot), perhaps(t, "grant distance", 100*units.Foot)
	f.NearestPerson = perhaps(t, "person", 50*units.Foot, 500*units.Foot)
	f.Neighbors = anyNeighbors(t)
	drawFlags(t, &f)
	f.UsePattern = perhaps(t, "pattern", FieldUse, MosquitoUse, AquaticWeed, AquaticAnimal, ForestCanopy)
	if f.UsePattern != nil && f.UsePattern.AtWater() && f.OverWater != nil {
		f.OverWater = new(true) // the contract refuses the contrary
	}
	f.Label = anyLabel(t)
	if f.Label.UnmannedAllowed != nil {
		f.StateConfirmsUnmanned = nil
	}
	f.Holds, f.Expiries = anyHoldings(t)
	return f
}

// allDispenses lists the codes of what leaves the tank.
func allDispenses() []Dispenses {
	return []Dispenses{
		EconomicPoison, Nourishment, SoilTreatment, Seed, PestControlOther, LiveInsects, WaterTest, OtherDispensed,
	}
}

// drawFlags draws every optional yes or no of the facts that was not drawn yet.
func drawFlags(t *rapid.T, f *Facts) {
	for i, field := range []**bool{
		&f.Hazmat, &f.OwnInterest, &f.Paid, &f.Alaska, &f.Lights3SM, &f.NightTrained, &f.MovingVehicles, &f.FromVehicle,
		&f.CongestedArea, &f.OverWater, &f.EmployeesNear, &f.WPSSite, &f.ForeignRegistered, &f.OnApprovedList, &f.NearAirport,
		&f.ProhibitedArea, &f.FlightRestriction, &f.SparselyPopulated, &f.HiredHandlers, &f.HiredWorkers, &f.CertificateChange,
		&f.BaseMoves, &f.StateConfirmsUnmanned, &f.StateAsksAerialCategory,
	} {
		*field = drawFlag(t, fmt.Sprint("flag ", i))
	}
}

func anyLabel(t *rapid.T) Label {
	return Label{
		AerialAllowed: drawFlag(t, "aerial"), UnmannedAllowed: drawFlag(t, "unmanned"),
		MinRate: perhaps(t, "min rate", 2*units.GallonPerAcre), MaxWind: perhaps(t, "max wind", 10*units.MilePerHour),
		MinWind: perhaps(t, "min wind", 3*units.MilePerHour), DropletClassMin: perhaps(t, "finest", spray.Medium),
		DropletClassMax: perhaps(t, "coarsest", spray.VeryCoarse), DownwindBuffer: perhaps(t, "buffer", 0, 50*units.Foot),
		RestrictedUse: drawFlag(t, "restricted"), RestrictedEntry: perhaps(t, "entry", 0, 12*units.Hour),
		MaxReleaseHeight: perhaps(t, "max height", 10*units.Foot), BulletinRequired: drawFlag(t, "bulletin"), WPSLabel: drawFlag(t, "wps label"),
		BoomShare: perhaps(t, "boom", 75*units.Percent),
	}
}

func anyNeighbors(t *rapid.T) []Neighbor {
	kinds := []string{"crop", "dwelling", "water", "apiary", "organic", "road", "other"}
	count := rapid.IntRange(-1, 2).Draw(t, "neighbors")
	if count < 0 {
		return nil
	}
	neighbors := make([]Neighbor, count)
	for i := range neighbors {
		neighbors[i] = Neighbor{
			Kind:     rapid.SampledFrom(kinds).Draw(t, "kind"),
			Distance: units.Length(rapid.SampledFrom([]float64{5, 40, 200}).Draw(t, "distance")),
			Downwind: rapid.Bool().Draw(t, "downwind"),
		}
	}
	return neighbors
}

// anyHoldings draws some ids that satisfy rows, and expiries for some.
func anyHoldings(t *rapid.T) (holds []string, expiries []Expiry) {
	ids := []string{"agricultural-operator-certificate:commercial", "agricultural-operator-certificate:private"}
	for _, rule := range Rules() {
		ids = append(ids, rule.ID)
		if waiver := rule.Waiver(); waiver != "" {
			ids = append(ids, waiver)
		}
	}
	share := rapid.IntRange(0, 3).Draw(t, "share held")
	for _, id := range ids {
		if rapid.IntRange(1, 3).Draw(t, id) <= share {
			holds = append(holds, id)
		}
	}
	for _, id := range holds {
		if rapid.IntRange(0, 4).Draw(t, "expiry") == 0 {
			expiries = append(expiries, Expiry{ID: id, Date: time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC)})
		}
	}
	return holds, expiries
}

// removals lists every single optional fact that can be taken away, by name.
func removals(f Facts) map[string]Facts {
	removed := make(map[string]Facts)
	kept := []string{"Country", "Small", "Pesticide", "LineOfSight", "OverPeople", "Label"} // the contract always carries these
	value := reflect.ValueOf(f)
	for i := range value.NumField() {
		name := value.Type().Field(i).Name
		if slices.Contains(kept, name) || value.Field(i).IsZero() {
			continue
		}
		without := f
		reflect.ValueOf(&without).Elem().Field(i).SetZero()
		removed[name] = without
	}
	label := reflect.ValueOf(f.Label)
	for i := range label.NumField() {
		without := f
		reflect.ValueOf(&without.Label).Elem().Field(i).SetZero()
		removed["Label."+label.Type().Field(i).Name] = without
	}
	return removed
}

func TestCheck_missingFactIsNeverGoodNews(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		f := anyFacts(t)
		before := Check(f)
		for name, without := range removals(f) {
			for _, change := range Differences(before, Check(without)) {
				if name == "At" { // an expired paper does not come back to life
					assert.NotEqual(t, Held, change.To, "%s without a date: %s", change.ID, change.Because)
				}
				if change.To != NotNeeded {
					continue
				}
				assert.NotContains(t, []Status{NeededNow, Unknown}, change.From, "%s without %s: %s", change.ID, name, change.Because)
				// A label states one side of a bound alone as a rule: the other side is assumed, and said so.
				if name != "Label.MinWind" && name != "Label.DropletClassMax" {
					assert.NotEqual(t, Prohibited, change.From, "%s without %s: %s", change.ID, name, change.Because)
				}
			}
		}
	})
}

func TestCheck_statusesOfRandomMissionsAreAllTestedByRow(t *testing.T) {
	t.Parallel()
	tested := make(map[string]bool)
	for _, tc := range rowCases() {
		tested[fmt.Sprint(tc.id, " ", tc.want)] = true
	}
	rapid.Check(t, func(t *rapid.T) {
		for _, item := range Check(anyFacts(t)).Items {
			key := fmt.Sprint(item.ID, " ", item.Status)
			assert.True(t, tested[key], "no row case reaches %s", key)
		}
	})
}

func TestCheck_answersAreWhole(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		f := anyFacts(t)
		c := Check(f)
		require.Equal(t, c, Check(f), "the same facts give the same checklist")
		for i, item := range c.Items {
			require.GreaterOrEqual(t, item.Status.rank(), 0, item.ID)
			if item.Status == Prohibited {
				assert.NotEqual(t, GradeMemory, item.Grade, "%s: nothing from memory stops a job", item.ID)
			}
			if i > 0 {
				assert.LessOrEqual(t, c.Items[i-1].Group, item.Group)
			}
		}
		assertFindings(t, c)
	})
}

// assertFindings checks that every finding is complete and that severities follow the statuses.
func assertFindings(t require.TestingT, c Checklist) {
	seen := make(map[finding.Code]bool)
	for _, found := range c.Findings {
		if found.Code != CodeHoldingUnrecognized && found.Code != CodeExpiryUnmatched {
			assert.False(t, seen[found.Code], "%s is reported once", found.Code)
		}
		seen[found.Code] = true
		assert.True(t, found.Source.Cited(), "%s has a source", found.Code)
		assert.Contains(t, found.Subject, "/", found.Code)
		assert.NotEmpty(t, found.Message)
		assert.Contains(t, c.Sources, found.Source)
		if found.Margin != nil {
			assert.False(t, math.IsNaN(found.Margin.SI()) || math.IsInf(found.Margin.SI(), 0), "%s margin", found.Code)
		}
	}
	for _, item := range c.Items {
		switch {
		case item.Kind == Duty:
		case item.Status == Prohibited, item.Status == NeededNow, item.Status == Unknown:
			assert.True(t, seen[CodeOf(item.ID)], "%s %s is reported", item.ID, item.Status)
		default:
			assert.False(t, seen[CodeOf(item.ID)], "%s %s is not reported", item.ID, item.Status)
		}
	}
}

func TestCheck_absurdQuantities(t *testing.T) {
	t.Parallel()
	for _, size := range []float64{1e-300, 1e-9, 1e9, 1e300} {
		for _, large := range []bool{false, true} {
			f := fullJob(large)
			f.TakeoffWeight, f.HeightAGL, f.Groundspeed = units.Mass(size), units.Length(size), units.Speed(size)
			f.Visibility, f.CloudBelow, f.CloudSide = new(units.Length(size)), new(units.Length(size)), new(units.Length(size))
			f.Rate, f.WindSpeed, f.ReleaseHeight = units.ApplicationRate(size), units.Speed(size), units.Length(size)
			f.ApprovedWeight, f.GrantHeight, f.GrantDistance = new(units.Mass(size)), new(units.Length(size)), new(units.Length(size))
			f.Label.DownwindBuffer, f.Neighbors[0].Distance = new(units.Length(size)), units.Length(size)
			f.Aircraft, f.RemotePilots = units.Count(math.MaxInt32), new(units.Count(1))
			assertFindings(t, Check(f))
		}
	}
}

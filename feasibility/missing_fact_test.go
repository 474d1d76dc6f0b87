package feasibility_test

import (
	"reflect"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"tractcheck/feasibility"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// optionalFacts walks every optional fact of a mission, whatever its part: pointers, lists and texts
// that are set. take is called with a name and a copy of the mission without that one fact.
func optionalFacts(m feasibility.Mission, take func(name string, without feasibility.Mission)) {
	for _, path := range pathsOf(reflect.ValueOf(m), nil, "") {
		without := cloned(m)
		at := reflect.ValueOf(&without).Elem()
		for _, i := range path.index {
			if at.Kind() == reflect.Pointer {
				at = at.Elem()
			}
			at = at.Field(i)
		}
		at.SetZero()
		take(path.name, without)
	}
}

// factPath is where a fact stands in the structs of a mission.
type factPath struct {
	index []int
	name  string
}

// required are the facts that the contract asks of every checklist; the rest may be left out.
var required = []string{
	"Aircraft", "Operation", "Operation.Country", "Operation.Purpose", "Operation.Airspace",
}

// weighed is what the takeoff room takes for nothing, and says so, where it is not stated: with it the
// takeoff is heavier, and may cross the line.
var weighed = []string{"Aircraft.OtherOnboard", "Aircraft.Battery.OnBoard"}

// pathsOf lists the optional facts that are set: nil-able values, and parts that may be left out as a
// whole (spray system, flight, weather).
func pathsOf(v reflect.Value, index []int, name string) []factPath {
	var paths []factPath
	for i := range v.NumField() {
		f, field := v.Field(i), v.Type().Field(i)
		here := append(slices.Clone(index), i)
		at := field.Name
		if name != "" {
			at = name + "." + field.Name
		}
		optional := f.Kind() == reflect.Pointer || f.Kind() == reflect.Slice
		if optional && !f.IsNil() && !slices.Contains(required, at) && !slices.Contains(weighed, at) {
			paths = append(paths, factPath{here, at})
		}
		for f.Kind() == reflect.Pointer && !f.IsNil() {
			f = f.Elem()
		}
		if f.Kind() == reflect.Struct && f.Type() != reflect.TypeFor[time.Time]() {
			paths = append(paths, pathsOf(f, here, at)...)
		}
	}
	return paths
}

// cloned copies a mission as deep as a fact may be taken away.
func cloned(m feasibility.Mission) feasibility.Mission {
	copied := m
	deepen(reflect.ValueOf(&copied).Elem())
	return copied
}

// deepen replaces pointers to structs by pointers to copies.
func deepen(v reflect.Value) {
	for i := range v.NumField() {
		f := v.Field(i)
		if f.Kind() == reflect.Pointer && !f.IsNil() && f.Elem().Kind() == reflect.Struct && f.Elem().Type() != reflect.TypeFor[time.Time]() {
			fresh := reflect.New(f.Elem().Type())
			fresh.Elem().Set(f.Elem())
			f.Set(fresh)
			deepen(fresh.Elem())
		} else if f.Kind() == reflect.Struct && f.Type() != reflect.TypeFor[time.Time]() {
			deepen(f)
		}
	}
}

// one draws a value or nothing.
func one[T any](t *rapid.T, name string, values ...T) *T {
	at := rapid.IntRange(-1, len(values)-1).Draw(t, name)
	if at < 0 {
		return nil
	}
	return &values[at]
}

// anyMission draws an authorization mission with facts of every sort present or missing.
func anyMission(t *rapid.T) feasibility.Mission {
	m := leveeStrip()
	m.Aircraft.MaxTakeoffWeight = 120 * units.Pound
	m.Aircraft.EmptyWeight = rapid.SampledFrom([]units.Mass{20 * units.Pound, 34 * units.Pound, 60 * units.Pound}).Draw(t, "empty")
	m.Aircraft.Count = one[units.Count](t, "aircraft", 1, 2, 4)
	m.Aircraft.OtherOnboard = one(t, "other on board", 0, 0.5*units.Pound)
	m.Load.Fill = one(t, "fill", 0.5*units.Gallon, 2.4*units.Gallon, 2.6*units.Gallon)
	m.Load.Density = one(t, "density", 8.345*units.PoundPerGallon, 11*units.PoundPerGallon)
	m.Load.Pesticide = rapid.Bool().Draw(t, "pesticide")
	if m.Load.Pesticide && m.Load.Density != nil {
		m.Load.Density = new(8.345 * units.PoundPerGallon) // a pesticide mix is taken to weigh what water does
	}
	m.Load.Label = drawnLabel(t)
	drawOperation(t, m.Operation)
	drawSurroundings(t, &m)
	if m.Operation.UsePattern != nil && m.Operation.UsePattern.AtWater() && m.Operation.OverWater != nil {
		m.Operation.OverWater = new(true) // the contract refuses the contrary
	}
	if m.Load.Label.UnmannedAllowed != nil {
		m.Operation.StateConfirmsUnmanned = nil // asked only where the label is silent
	}
	return m
}

func drawnLabel(t *rapid.T) permits.Label {
	yes := func(name string) *bool { return one(t, name, false, true) }
	return permits.Label{
		AerialAllowed: yes("aerial"), UnmannedAllowed: yes("unmanned"), RestrictedUse: yes("restricted"),
		BulletinRequired: yes("bulletin"), WPSLabel: yes("wps label"), RestrictedEntry: one(t, "entry", 0, 12*units.Hour),
		MinRate: one(t, "min rate", 2*units.GallonPerAcre, 3*units.GallonPerAcre), MaxWind: one(t, "max wind", 4*units.MilePerHour, 10*units.MilePerHour),
		MinWind: one(t, "min wind", 3*units.MilePerHour), DropletClassMin: one(t, "finest", spray.Fine, spray.VeryCoarse),
		DropletClassMax: one(t, "coarsest", spray.VeryCoarse), DownwindBuffer: one(t, "buffer", 0, 500*units.Foot),
		MaxReleaseHeight: one(t, "release", 5*units.Foot, 12*units.Foot),
	}
}

// drawOperation draws every optional yes or no of the operation by reflection, and the rest by hand.
func drawOperation(t *rapid.T, o *feasibility.Operation) {
	v := reflect.ValueOf(o).Elem()
	for i := range v.NumField() {
		if field, isFlag := v.Field(i).Addr().Interface().(**bool); isFlag {
			*field = one(t, v.Type().Field(i).Name, false, true)
		}
	}
	o.Purpose = rapid.SampledFrom([]permits.Purpose{permits.Commercial, permits.Private, permits.Public}).Draw(t, "purpose")
	o.Airspace = rapid.SampledFrom([]permits.Airspace{permits.AirspaceG, permits.AirspaceESurface, permits.AirspaceD, permits.AirspaceUnknown}).Draw(t, "airspace")
	o.LineOfSight, o.OverPeople = rapid.Bool().Draw(t, "sight"), rapid.Bool().Draw(t, "people")
	o.CongestedArea = rapid.Bool().Draw(t, "congested")
	o.Dispenses = one(t, "dispenses", permits.EconomicPoison, permits.Nourishment, permits.Seed, permits.LiveInsects, permits.WaterTest, permits.OtherDispensed)
	o.UsePattern = one(t, "pattern", permits.FieldUse, permits.MosquitoUse, permits.ForestCanopy)
	o.State = one(t, "state", "MS")
	o.VisualObservers, o.RemotePilots = one[units.Count](t, "observers", 0, 1, 3), one[units.Count](t, "pilots", 1, 2)
	o.ApprovedWeight = one(t, "approved", 60*units.Pound, 200*units.Pound)
	o.GrantHeight, o.GrantDistance = one(t, "ceiling", 9*units.Foot, 200*units.Foot), one(t, "grant distance", 100*units.Foot)
	o.NearestPerson = one(t, "person", 50*units.Foot, 500*units.Foot)
	drawHoldings(t, o)
}

// drawHoldings draws what is held, with some of it expired.
func drawHoldings(t *rapid.T, o *feasibility.Operation) {
	o.Holds, o.Expiries = nil, nil
	share := rapid.IntRange(0, 3).Draw(t, "share held")
	for _, rule := range permits.Rules() {
		for _, id := range []string{rule.ID, rule.Waiver()} {
			if id == "" || rapid.IntRange(1, 3).Draw(t, "held "+id) > share {
				continue
			}
			o.Holds = append(o.Holds, id)
			if rapid.IntRange(0, 5).Draw(t, "expires") == 0 {
				o.Expiries = append(o.Expiries, permits.Expiry{ID: id, Date: time.Date(2026, time.January, 1, 0, 0, 0, 0, time.UTC)})
			}
		}
	}
}

// drawSurroundings draws the hour, the weather, the flight and the neighbors.
func drawSurroundings(t *rapid.T, m *feasibility.Mission) {
	hour := rapid.SampledFrom([]int{3, 10, 11, 15}).Draw(t, "hour") // night, twilight and day at the place, in UTC
	w := m.Weather
	w.At = one(t, "at", time.Date(2026, time.June, 12, hour, 30, 0, 0, time.UTC))
	w.Visibility = one(t, "visibility", units.Mile, 10*units.Mile)
	w.CloudBelow, w.CloudSide = one(t, "below", 100*units.Foot, 4000*units.Foot), one(t, "side", 100*units.Foot, units.Mile)
	w.CloudCover = nil
	if w.CloudBelow == nil && w.CloudSide == nil {
		w.CloudCover = one[units.Proportion](t, "cover", 0, 0.3)
	}
	m.Flight.Speed = rapid.SampledFrom([]units.Speed{10 * units.MilePerHour, 45 * units.MilePerHour, 110 * units.MilePerHour}).Draw(t, "speed")
	m.Flight.Height = rapid.SampledFrom([]units.Length{8 * units.Foot, 450 * units.Foot}).Draw(t, "height")
	m.Field.CropHeight = one(t, "crop height", 1.5*units.Foot, 12*units.Foot)
	switch rapid.IntRange(0, 2).Draw(t, "neighbors") {
	case 0:
		m.Field.Neighbors = nil
	case 1:
		m.Field.Neighbors = []drift.Neighbor{}
	default:
		kind := rapid.SampledFrom([]string{"crop", "dwelling", "water", "apiary"}).Draw(t, "kind")
		m.Field.Neighbors = []drift.Neighbor{{Kind: kind, Distance: 50 * units.Foot, Bearing: 45 * units.BearingDegree}}
	}
}

// weighing are the facts that may change the side of the 55 lb line; they are taken in every run.
var weighing = []string{"Load.Fill", "Load.Density", "Operation.Holds", "Weather"}

// Taking any one optional fact from a mission never turns what is needed or not known into what is
// not needed, by whatever path the fact reaches the table: the weight, the light, the droplets too.
func TestAMissingFactIsNeverGoodNews(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := anyMission(t)
		before := papersOf(t, m)
		share := rapid.IntRange(0, 7).Draw(t, "eighth of the facts")
		count := 0
		optionalFacts(m, func(name string, without feasibility.Mission) {
			if count++; count%8 != share && !slices.Contains(weighing, name) {
				return
			}
			after := papersOf(t, without)
			for _, change := range permits.Differences(before.Authorizations, after.Authorizations) {
				if change.To == permits.NotNeeded && (change.From == permits.NeededNow || change.From == permits.Unknown) {
					t.Fatalf("%s goes from %s to not_needed without %s: %s", change.ID, change.From, name, change.Because)
				}
			}
		})
	})
}

// The walk reaches every part of a mission.
func TestEveryOptionalFactIsTakenAway(t *testing.T) {
	taken := map[string]bool{}
	m := leveeStrip()
	m.Aircraft.Count, m.Operation.Hazmat = new(units.Count(1)), new(true)
	optionalFacts(m, func(name string, _ feasibility.Mission) { taken[name] = true })
	for _, name := range []string{
		"Aircraft.Count", "Load.Fill", "Load.Density", "Load.Label.RestrictedUse", "Weather", "Weather.At",
		"Flight", "SpraySystem", "Field.Neighbors", "Field.CropHeight", "Operation.OverWater", "Operation.Hazmat", "Operation.Holds",
	} {
		assert.True(t, taken[name], "%s was never taken away", name)
	}
	assert.Greater(t, len(taken), 60)
}

package wire

import (
	"math"

	"tractcheck/feasibility"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// acrossParts refuses facts of different parts that contradict each other.
func (m *mapper) acrossParts(r *Request, mission feasibility.Mission) {
	m.dispensed(r)
	m.atWater(r)
	m.crosswind(r, mission)
	m.place(r, mission)
}

// dispensed holds what leaves the tank to whether it is a pesticide. An economic poison is a
// pesticide, a plant regulator, a defoliant or a desiccant (14 CFR 137.3), and all of these are
// pesticides in the sense of 7 U.S.C. 136(u); plain water is not.
func (m *mapper) dispensed(r *Request) {
	if r.Operation == nil || r.Operation.Dispenses == nil || r.Load == nil || r.Load.Pesticide == nil {
		return
	}
	p := at("/operation/dispenses")
	switch what, pesticide := *r.Operation.Dispenses, *r.Load.Pesticide; {
	case what == string(permits.EconomicPoison) && !pesticide:
		m.conflict(p, what, "economic_poison only where /load/pesticide is true",
			"An economic poison is a pesticide. Set load.pesticide to true, or say what else is dispensed.")
	case what == string(permits.WaterTest) && pesticide:
		m.conflict(p, what, "water_test only where /load/pesticide is false",
			"A water test carries no pesticide. Set load.pesticide to false, or dispenses to economic_poison.")
	}
}

// atWater holds the use pattern to whether the spray goes over water: the uses at water and over
// forest canopy are those that need a discharge permit, and over_water answers for all of them.
func (m *mapper) atWater(r *Request) {
	o := r.Operation
	if o == nil || o.UsePattern == nil || o.OverWater == nil || *o.OverWater || !permits.UsePattern(*o.UsePattern).AtWater() {
		return
	}
	m.conflict(at("/operation/use_pattern"), *o.UsePattern, "field where /operation/over_water is false",
		"This use counts as spraying at water. Set over_water to true or leave it out, or send use_pattern field.")
}

// leastAcross is the least angle between a course and the wind's line that can be called across the
// wind. Own choice: half a right angle.
const leastAcross = 45 * units.Degree

// crosswind refuses a course that runs with the wind where lines across it are asked for.
func (m *mapper) crosswind(r *Request, mission feasibility.Mission) {
	f, w := mission.Flight, mission.Weather
	if f == nil || f.Course == nil || !flagOf(f.Crosswind) || w == nil || r.Weather.WindFrom == nil {
		return
	}
	from := optional[units.Bearing](m, at("/weather/wind_from"), r.Weather.WindFrom)
	if from == nil {
		return // a fault of its own
	}
	angle := f.Course.Between(*from)
	angle = min(angle, units.Angle(math.Pi)-angle)
	if units.AtLeast(angle, leastAcross) {
		return
	}
	m.conflict(at("/flight/course"), *r.Flight.Course, "at least 45 deg off the wind where crosswind is true",
		"This course runs along the wind, but crosswind asks for lines across it. Leave course out, or set crosswind to false.")
}

// weatherReach is how far the place of the weather may lie from the field. Own choice: the next
// weather station is nearer than that, and a slip of sign or of order is always farther.
const weatherReach = 100 * units.Kilometer

// place refuses a place of the weather that is not near the field.
func (m *mapper) place(r *Request, mission feasibility.Mission) {
	w, boundary := mission.Weather, mission.Field.Ground.Boundary
	if w == nil || w.Latitude == nil || w.Longitude == nil || len(boundary) == 0 {
		return
	}
	if near(tract.Position{Longitude: *w.Longitude, Latitude: *w.Latitude}, boundary, weatherReach) {
		return
	}
	m.conflict(at("/weather/longitude"), *r.Weather.Longitude, "within 100 km of the field's boundary",
		"The weather's place is far from the field. Check the signs: west and south are negative.")
}

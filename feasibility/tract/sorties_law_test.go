package tract

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/units"
)

// sample draws a field of any kind with a job that can be flown.
func sample(t *rapid.T) (Field, Job) {
	field := raggedField(t)
	if rapid.Bool().Draw(t, "area alone") {
		area := units.Area(rapid.Float64Range(0.1, 200).Draw(t, "acres")) * units.Acre
		field = Field{Area: &area}
	}
	ferry := units.Length(rapid.Float64Range(0, 400).Draw(t, "ferry"))
	field.FerryDistance = &ferry
	job := tankJob(rapid.Float64Range(0.3, 3).Draw(t, "battery"))
	job.Fill = units.Volume(rapid.Float64Range(2, 30).Draw(t, "fill")) * units.Liter
	job.Swath = units.Length(rapid.Float64Range(3, 12).Draw(t, "swath"))
	job.Aircraft = units.Count(rapid.IntRange(1, 4).Draw(t, "aircraft"))
	return field, job
}

// TestSortiesSprayEachLineOnce: the sorties' stretches follow one another without gap or overlap,
// so their areas add up to swath times length, and so does the liquid to the rate over it.
func TestSortiesSprayEachLineOnce(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		field, job := sample(t)
		plan := Fly(field, job)
		if !plan.Feasible || plan.Sorties > mostListed {
			t.Skip("not listed in full")
		}
		var area units.Area
		var fill units.Volume
		var spray, flown units.Duration
		for i, s := range plan.List {
			area, fill, spray, flown = area+s.Area, fill+s.Fill, spray+s.SprayTime, flown+s.FlightTime
			if s.Number != units.Count(i+1) || s.Aircraft != units.Count(i)%job.Aircraft+1 {
				t.Fatalf("sortie %d numbered %v by aircraft %v", i+1, s.Number, s.Aircraft)
			}
			if s.Fill > job.Fill*(1+1e-9) || s.Energy > job.Power.Usable*(1+1e-9) {
				t.Fatalf("sortie %v takes %v and %v, more than there is", s.Number, s.Fill, s.Energy)
			}
			if last := i == len(plan.List)-1; last != (s.ResumeLine == 0) || s.ResumeLine < 0 || s.ResumeLine > plan.Passes {
				t.Fatalf("sortie %v resumes at line %v of %v", s.Number, s.ResumeLine, plan.Passes)
			}
		}
		near := func(name string, want, got float64) {
			if math.Abs(want-got) > 1e-6*want {
				t.Fatalf("%s: want %v, got %v", name, want, got)
			}
		}
		near("treated", plan.Treated.SI(), area.SI())
		near("swath by length", plan.SprayLength.By(job.Swath).SI(), plan.Treated.SI())
		near("liquid", job.Rate.Over(plan.Treated).SI(), fill.SI())
		near("spray time", plan.SprayLength.SI()/job.Speed.SI(), spray.SI())
		near("plan's spray time", plan.SprayTime.SI(), spray.SI())
		near("flight time", plan.FlightTime.SI(), flown.SI())
		near("sorties", plan.Sorties.SI(), float64(len(plan.List)))
	})
}

func TestMoreAreaNeverFewerSorties(t *testing.T) {
	t.Parallel()
	ferry := 150 * units.Meter
	rapid.Check(t, func(t *rapid.T) {
		small := units.Area(rapid.Float64Range(0.05, 300).Draw(t, "acres")) * units.Acre
		large := small * units.Area(rapid.Float64Range(1, 3).Draw(t, "times"))
		job := tankJob(100) // the tank binds
		job.Fill = units.Volume(rapid.Float64Range(5, 40).Draw(t, "fill")) * units.Liter
		few, many := Fly(Field{Area: &small, FerryDistance: &ferry}, job), Fly(Field{Area: &large, FerryDistance: &ferry}, job)
		if !few.Feasible || !many.Feasible || few.Sorties > many.Sorties {
			t.Fatalf("%v acres take %v sorties, %v acres %v", small.In(units.Acre), few.Sorties, large.In(units.Acre), many.Sorties)
		}
	})
}

func TestBiggerFillNeverMoreSorties(t *testing.T) {
	t.Parallel()
	ferry := 150 * units.Meter
	rapid.Check(t, func(t *rapid.T) {
		area := units.Area(rapid.Float64Range(0.05, 300).Draw(t, "acres")) * units.Acre
		job := tankJob(100)
		job.Fill = units.Volume(rapid.Float64Range(2, 20).Draw(t, "fill")) * units.Liter
		bigger := job
		bigger.Fill *= units.Volume(rapid.Float64Range(1, 3).Draw(t, "times"))
		many, few := Fly(Field{Area: &area, FerryDistance: &ferry}, job), Fly(Field{Area: &area, FerryDistance: &ferry}, bigger)
		if few.Sorties > many.Sorties || few.AreaEach < many.AreaEach*(1-1e-9) {
			t.Fatalf("%v takes %v sorties, %v takes %v", job.Fill, many.Sorties, bigger.Fill, few.Sorties)
		}
	})
}

func TestBiggerBatteryNeverMoreSorties(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		field, job := sample(t)
		bigger := job
		bigger.Power.Usable *= units.Energy(rapid.Float64Range(1, 3).Draw(t, "times"))
		many, few := Fly(field, job), Fly(field, bigger)
		if many.Feasible && (!few.Feasible || few.Sorties > many.Sorties) {
			t.Fatalf("%v: %v sorties, %v: %v", job.Power.Usable, many.Sorties, bigger.Power.Usable, few.Sorties)
		}
	})
}

// TestNothingBreaks draws absurd but admissible numbers: the plan must come back, finite.
func TestNothingBreaks(t *testing.T) {
	t.Parallel()
	drawn := func(t *rapid.T, label string) float64 {
		return math.Pow(10, rapid.Float64Range(-12, 12).Draw(t, label))
	}
	rapid.Check(t, func(t *rapid.T) {
		field := raggedField(t)
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 0:
			field = Field{Area: new(units.Area(drawn(t, "area")))}
		case 1:
			field = Field{Length: new(units.Length(drawn(t, "length"))), Width: new(units.Length(drawn(t, "width")))}
		}
		if rapid.Bool().Draw(t, "ferry stated") {
			field.FerryDistance = new(units.Length(drawn(t, "ferry")))
		}
		job := Job{
			Swath: units.Length(drawn(t, "swath")), Speed: units.Speed(drawn(t, "speed")), Height: units.Length(drawn(t, "height")),
			Rate: units.ApplicationRate(drawn(t, "rate")), Fill: units.Volume(drawn(t, "fill")), Density: units.Density(drawn(t, "density")),
			DryMass: units.Mass(drawn(t, "mass")), Aircraft: units.Count(rapid.IntRange(-1, 9).Draw(t, "aircraft")),
			WindSpeed: units.Speed(drawn(t, "wind")), WindFrom: units.Bearing(drawn(t, "from")),
			Crosswind: new(rapid.Bool().Draw(t, "crosswind")), TurnTime: new(units.Duration(drawn(t, "turn"))),
			MinimumFill: new(units.Volume(drawn(t, "least"))),
			Power: flight.New(flight.Machine{
				BatteryEnergy: units.Energy(drawn(t, "energy")), EmptyMass: units.Mass(drawn(t, "empty")), FullMass: units.Mass(drawn(t, "full")),
			}, units.Density(drawn(t, "air"))),
		}
		job.Headland = units.Count(rapid.IntRange(-1, 5).Draw(t, "headland"))
		job.Clear = []Clear{{Bearing: units.Bearing(drawn(t, "toward")), Distance: units.Length(drawn(t, "near")), Buffer: units.Length(drawn(t, "buffer"))}}
		plan := Fly(field, job)
		requireDrawable(t, plan, units.Length(drawn(t, "depth")), job.WindFrom)
		later := plan.SetBack(job.Clear)
		if !units.Finite(later.Area) || later.Area < 0 || later.Area.SI() > plan.Area.SI()*(1+1e-9) {
			t.Fatalf("%v of %v left for later", later.Area, plan.Area)
		}
		for _, x := range []float64{
			plan.Area.SI(), plan.Accounting.Strips.SI(), plan.Accounting.Sprayed.SI(), plan.Accounting.Unsprayed.SI(), plan.Accounting.KeepOuts.SI(),
			plan.Treated.SI(), plan.AreaEach.SI(), plan.AreaPerBattery.SI(), plan.SprayTime.SI(), plan.FlightTime.SI(),
			plan.EnergyEach.SI(), plan.FerryEach.SI(), plan.SprayLength.SI(),
		} {
			if math.IsNaN(x) || math.IsInf(x, 0) || x < 0 {
				t.Fatalf("%v in %+v", x, plan)
			}
		}
		if len(plan.List) > mostListed || (!plan.Feasible && len(plan.Findings) == 0) {
			t.Fatalf("%d sorties listed, findings %v", len(plan.List), codes(plan))
		}
		for _, f := range plan.Findings {
			if f.Message == "" || f.Subject == "" || !f.Source.Cited() {
				t.Fatalf("incomplete finding %+v", f)
			}
		}
	})
}

// requireDrawable draws a plan and holds its courses, its headland and its map to finite figures.
func requireDrawable(t *rapid.T, plan Plan, depth units.Length, from units.Bearing) {
	figures := []float64{}
	for _, c := range plan.Courses {
		figures = append(figures, c.Course.SI(), c.TurnTime.SI(), c.FlightTime.SI(), c.Against.SI(), c.With.SI())
	}
	h := plan.Headland
	figures = append(figures, h.Length.SI(), h.Time.SI(), h.Volume.SI(), h.Missed.SI())
	for _, c := range h.Costs {
		figures = append(figures, c.Length.SI(), c.FlightTime.SI(), c.Volume.SI(), c.Missed.SI(), c.PastEdge.SI(), c.Twice.SI())
	}
	if m, ok := plan.Map(); ok {
		for _, polygons := range [][]Polygon{m.Boundary, m.KeepOuts, m.Unsprayed, plan.Downwind(depth, from)} {
			for _, polygon := range polygons {
				for _, ring := range polygon {
					for _, p := range ring {
						figures = append(figures, math.Abs(p.Longitude.SI()), math.Abs(p.Latitude.SI()))
					}
				}
			}
		}
	}
	for _, x := range figures {
		if math.IsNaN(x) || math.IsInf(x, 0) || x < 0 {
			t.Fatalf("%v among the figures drawn", x)
		}
	}
}

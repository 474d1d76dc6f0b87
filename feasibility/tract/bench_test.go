package tract

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"tractcheck/feasibility/units"
)

// ragged makes a ring of many corners.
func ragged(corners int, x, y, radius float64) []orb.Point {
	var out []orb.Point
	for i := range corners {
		angle := 2 * math.Pi * float64(i) / float64(corners)
		r := radius * (1 + 0.1*math.Sin(17*angle) + 0.02*math.Sin(131*angle))
		out = append(out, orb.Point{x + r*math.Cos(angle), y + r*math.Sin(angle)})
	}
	return out
}

func BenchmarkFly(b *testing.B) {
	area := 40 * units.Acre
	keepOuts := make([]Polygon, 20)
	for i := range keepOuts {
		angle := 2 * math.Pi * float64(i) / 20
		keepOuts[i] = placed(ragged(24, 600*math.Cos(angle), 600*math.Sin(angle), 40))
	}
	large := Field{Boundary: []Polygon{placed(ragged(1000, 0, 0, 1000))}, KeepOuts: keepOuts}
	large.FerryDistance = new(200 * units.Meter)
	narrow := tankJob(1)
	narrow.Swath = 1.1 * units.Meter // about 2,000 lines
	narrow.Rate = narrow.Rate * 7 / 1.1 / 7
	windy := narrow
	windy.WindFrom, windy.WindSpeed = 200*units.BearingDegree, 3*units.MeterPerSecond
	windy.Clear = []Clear{{Bearing: 30 * units.BearingDegree, Distance: 10 * units.Meter, Buffer: 30 * units.Meter}}
	for _, bench := range []struct {
		name  string
		field Field
		job   Job
	}{
		{"40 acres", Field{Area: &area}, tankJob(1)},
		{"1000 corners 20 keep-outs 2000 lines", large, narrow},
		{"the same with wind and a strip for a neighbor", large, windy},
	} {
		b.Run(bench.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if plan := Fly(bench.field, bench.job); !plan.Feasible {
					b.Fatal(codes(plan))
				}
			}
		})
	}
}

// The drift zone of a boundary with as many corners as the contract admits.
func BenchmarkDownwind(b *testing.B) {
	plan := Fly(Field{Boundary: []Polygon{placed(ragged(9900, 0, 0, 1000))}, FerryDistance: new(200 * units.Meter)}, tankJob(1))
	b.ReportAllocs()
	for b.Loop() {
		if len(plan.Downwind(100*units.Meter, 200*units.BearingDegree)) == 0 {
			b.Fatal("no zone")
		}
	}
}

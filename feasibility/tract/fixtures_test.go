package tract

import (
	"math"

	"github.com/paulmach/orb"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/units"
)

// model is an invented machine's power model: full at 66.5 kg it hovers for 7.8 minutes on all of
// its battery; the battery is scaled for tests that need it larger or smaller.
func model(battery units.Energy) flight.Model {
	full, empty := 468*units.Second, 1230*units.Second
	share := units.Whole * 0.85
	m := flight.New(flight.Machine{
		BatteryEnergy: 1500 * units.WattHour, UsableShare: &share,
		EmptyMass: 36.5 * units.Kilogram, FullMass: 66.5 * units.Kilogram, EmptyEndurance: &empty, FullEndurance: &full,
	}, 1.225*units.KilogramPerCubicMeter)
	m.Usable = units.Energy(float64(battery) * share.SI())
	return m
}

// tankJob is the worked cycle's job, with a battery of some times the usual size.
func tankJob(times float64) Job {
	return Job{
		Swath: 7 * units.Meter, Speed: 7 * units.MeterPerSecond, Height: 3 * units.Meter,
		Rate: 2 * units.GallonPerAcre, Fill: 30 * units.Liter, Density: units.KilogramPerLiter,
		DryMass: 36.5 * units.Kilogram, Aircraft: 1,
		Power: model(units.Energy(times) * 1500 * units.WattHour),
	}
}

// inverse brings a point of a plane back to the map, by Newton's steps.
func inverse(p plane, at orb.Point) Position {
	longitude, latitude := p.longitude, p.latitude
	for range 8 {
		here := p.point(longitude, latitude)
		latitude += (at[1] - here[1]) / 6.36e6
		longitude += (at[0] - here[0]) / (p.radius * math.Cos(latitude))
	}
	return Position{Longitude: units.Angle(longitude), Latitude: units.Angle(latitude)}
}

// placed puts rings given in meters onto the map around a place in Iowa.
func placed(rings ...[]orb.Point) Polygon {
	p := newPlane(-93.6*math.Pi/180, 42*math.Pi/180)
	var out Polygon
	for _, points := range rings {
		var ring Ring
		for _, at := range append(append([]orb.Point{}, points...), points[0]) {
			ring = append(ring, inverse(p, at))
		}
		out = append(out, ring)
	}
	return out
}

// box is a rectangle by its corners, counter-clockwise.
func box(x0, y0, x1, y1 float64) []orb.Point {
	return []orb.Point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// codes lists the codes of findings.
func codes(p Plan) []finding.Code {
	var out []finding.Code
	for _, f := range p.Findings {
		out = append(out, f.Code)
	}
	return out
}

// found reports the first finding with a code.
func found(p Plan, code finding.Code) finding.Finding {
	for _, f := range p.Findings {
		if f.Code == code {
			return f
		}
	}
	return finding.Finding{}
}

// stretch is a leg of a path with what it looks up.
type stretch struct {
	line     int
	length   float64
	from, to orb.Point
}

// stretches lists the legs of a path.
func (p *path) stretches() []stretch {
	if p == nil {
		return nil
	}
	out := make([]stretch, 0, len(p.legs))
	for _, l := range p.legs {
		from, to := p.ends(l)
		out = append(out, stretch{line: int(l.line), length: p.long(l), from: from, to: to})
	}
	return out
}

// middle is half way along.
func (s stretch) middle() orb.Point {
	return orb.Point{(s.from[0] + s.to[0]) / 2, (s.from[1] + s.to[1]) / 2}
}

package tract

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"tractcheck/feasibility/units"
)

// Downwind draws the ground that lies within a distance of the sprayed ground on the wind's way out of
// it: where spray that leaves it comes down first. Keep-outs and strips left for neighbors are not
// sprayed, so the zone reaches over them. It is empty where the field has no place on the map.
//
// Along the wind, each stretch of sprayed ground is followed by a stretch of the zone, which ends at the
// distance or where sprayed ground begins again; the work is in step with the corners of the boundary.
func (p Plan) Downwind(distance units.Length, from units.Bearing) []Polygon {
	d := p.drawn
	if d == nil || !d.ground.mapped || !(distance > closed) || !units.Finite(distance) {
		return nil
	}
	sin, cos := math.Sincos(from.Opposite().SI())
	f := newFrame(math.Atan2(cos, sin))
	dry := slices.Concat(d.ground.keepOuts, d.ground.kept)
	var open []cell
	var done []orb.Ring
	slabs(f, d.ground.tract, dry, sprayedOnly, func(bottom, top []interval, low, high float64) {
		if len(bottom) != len(top) {
			bottom, top = nil, nil
		}
		bends := wakes(bottom, top, distance.SI(), low, high)
		for i := 1; i < len(bends); i++ {
			a, b := bends[i-1], bends[i]
			inset := (b - a) * 1e-6
			begin := wake(bottom, top, distance.SI(), (a+inset-low)/(high-low))
			end := wake(bottom, top, distance.SI(), (b-inset-low)/(high-low))
			begin, end = there(begin, end)
			open, done = carry(f, open, done, begin, end, a, b)
		}
	})
	for _, c := range open {
		done = c.close(f, done)
	}
	return d.ground.each(done)
}

// sprayedOnly is the rule of ground that is inside and not taken.
func sprayedOnly(inside, taken, out []interval) []interval { return subtract(inside, taken, out) }

// wakes reports the heights of a slab between which the wakes change evenly: its ends, and where a wake
// begins or ceases to reach the next stretch.
func wakes(bottom, top []interval, reach, low, high float64) []float64 {
	out := []float64{low, high}
	for i := 1; i < len(bottom); i++ {
		a := bottom[i].from - bottom[i-1].to - reach
		b := top[i].from - top[i-1].to - reach
		if (a < 0) != (b < 0) {
			if n := low + (high-low)*a/(a-b); n > low+closed && n < high-closed {
				out = append(out, n)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// wake reports the stretches behind those at a share of the way up a slab, each as far as it reaches. Where
// there is none left between two stretches it is empty, so that they keep their places.
func wake(bottom, top []interval, reach, share float64) []interval {
	at := func(i int) interval {
		return interval{
			from: bottom[i].from + share*(top[i].from-bottom[i].from),
			to:   bottom[i].to + share*(top[i].to-bottom[i].to),
		}
	}
	out := make([]interval, 0, len(bottom))
	for i := range bottom {
		ends := at(i).to
		until := ends + reach
		if i+1 < len(bottom) {
			until = min(until, at(i+1).from)
		}
		out = append(out, interval{ends, max(ends, until)})
	}
	return out
}

// there leaves out the wakes that are empty at both ends of a slab.
func there(begin, end []interval) (a, b []interval) {
	for i := range begin {
		if begin[i].to-begin[i].from > closed || end[i].to-end[i].from > closed {
			a, b = append(a, begin[i]), append(b, end[i])
		}
	}
	return a, b
}

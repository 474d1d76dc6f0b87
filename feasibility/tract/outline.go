package tract

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"
)

// outline is the smallest convex ring around all ground of a region, counter-clockwise, each corner once:
// Andrew 1979, Inf. Process. Lett. 9:216, from memory.
func outline(r region) []orb.Point {
	corners := make([]orb.Point, 0, r.corners())
	for _, ring := range r {
		corners = append(corners, ring...)
	}
	slices.SortFunc(corners, func(a, b orb.Point) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	corners = slices.Compact(corners)
	if len(corners) < 3 {
		return nil
	}
	hull := make([]orb.Point, 0, 16)
	around := func(p orb.Point, least int) {
		for len(hull) >= least && turn(hull[len(hull)-2], hull[len(hull)-1], p) <= 0 {
			hull = hull[:len(hull)-1]
		}
		hull = append(hull, p)
	}
	for _, p := range corners {
		around(p, 2)
	}
	least := len(hull) + 1
	for i := len(corners) - 2; i >= 0; i-- {
		around(corners[i], least)
	}
	return hull[:len(hull)-1]
}

// turn is twice the area of a triangle, above 0 where its corners run counter-clockwise.
func turn(a, b, c orb.Point) float64 { return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0]) }

// longestChord is the greatest width of a convex ring, counter-clockwise, along the first coordinate. It
// is that at one of the corners, each of which faces a point of the other side.
func longestChord(ring []orb.Point) float64 {
	lowest, highest := 0, 0
	for i, p := range ring {
		if p[1] < ring[lowest][1] {
			lowest = i
		}
		if p[1] > ring[highest][1] {
			highest = i
		}
	}
	var right, left flank
	for i := lowest; ; i = (i + 1) % len(ring) {
		right = append(right, ring[i])
		if i == highest {
			break
		}
	}
	for i := lowest; ; i = (i + len(ring) - 1) % len(ring) {
		left = append(left, ring[i])
		if i == highest {
			break
		}
	}
	longest := 0.0
	reader := left.reader()
	for _, p := range right {
		longest = max(longest, p[0]-reader(p[1]))
	}
	reader = right.reader()
	for _, p := range left {
		longest = max(longest, reader(p[1])-p[0])
	}
	return longest
}

// flank is the corners of one side of a convex ring, upward.
type flank []orb.Point

// reader reports where a flank lies at heights that only grow.
func (s flank) reader() func(height float64) float64 {
	i := 0
	return func(height float64) float64 {
		for i+2 < len(s) && s[i+1][1] < height {
			i++
		}
		a, b := s[i], s[i+1]
		if b[1] <= a[1] {
			return b[0]
		}
		return a[0] + (b[0]-a[0])*(height-a[1])/(b[1]-a[1])
	}
}

package tract

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
)

// block is a square ring on the map, in thousandths of a degree from a corner of Iowa.
func block(east, north, side float64) Ring {
	at := func(x, y float64) orb.Point { return orb.Point{-93.6 + x/1000, 42 + y/1000} }
	return onMap(at(east, north), at(east+side, north), at(east+side, north+side), at(east, north+side))
}

func TestNested(t *testing.T) {
	t.Parallel()
	at := func(x, y float64) orb.Point { return orb.Point{-93.6 + x/1000, 42 + y/1000} }
	field, hole, core := block(0, 0, 9), block(2, 2, 5), block(3, 3, 2)
	for name, tc := range map[string]struct {
		polygons []Polygon
		want     bool
	}{
		"nothing":                    {nil, true},
		"one ring":                   {[]Polygon{{field}}, true},
		"a hole":                     {[]Polygon{{field, hole}}, true},
		"an island in the hole":      {[]Polygon{{field, hole}, {core}}, true},
		"two apart":                  {[]Polygon{{field}, {block(20, 0, 3)}}, true},
		"two along one fence":        {[]Polygon{{field}, {block(9, 2, 3)}}, true},
		"a fence drawn twice":        {[]Polygon{{field}, {block(8.999, 0, 9)}}, true},
		"touching itself at a point": {[]Polygon{{onMap(at(0, 0), at(4, 3), at(8, 0), at(8, 8), at(4, 3), at(0, 8))}}, true},
		"a hole on the edge":         {[]Polygon{{field, block(0, 2, 5)}}, true},
		"the hole outside":           {[]Polygon{{field, block(20, 2, 5)}}, false},
		"a hole in the hole":         {[]Polygon{{field, hole, core}}, false},
		"holes that overlap":         {[]Polygon{{field, hole, block(4, 2, 4)}}, false},
		"the same twice":             {[]Polygon{{field}, {field}}, false},
		"one inside another":         {[]Polygon{{field}, {hole}}, false},
		"two that overlap":           {[]Polygon{{field}, {block(6, 3, 9)}}, false},
		"overlapping along a side":   {[]Polygon{{field}, {block(6, 0, 9)}}, false},
		"through itself at a corner": {[]Polygon{{onMap(at(0, 0), at(4, 4), at(9, 9), at(9, 0), at(4, 4), at(0, 8))}}, false},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			assert.Equal(t, tc.want, Nested(tc.polygons))
		})
	}
}

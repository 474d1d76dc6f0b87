package feasibility_test

import (
	"testing"

	"tractcheck/feasibility"
)

// The three rooms that fly the tract, together, on forty acres.
func BenchmarkFlownRooms(b *testing.B) {
	square, mapped := leveeStrip(), leveeStrip()
	mapped.Field.Ground.Area, mapped.Field.Ground.Boundary = nil, block()
	for name, m := range map[string]feasibility.Mission{"an area": square, "a boundary": mapped} {
		b.Run(name, func(b *testing.B) {
			fly := feasibility.FlownRooms(m)
			b.ReportAllocs()
			for b.Loop() {
				fly()
			}
		})
	}
}

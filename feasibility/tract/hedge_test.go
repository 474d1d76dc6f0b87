package tract

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestHedgeShadowIsThatOfABar holds the shadow found by boxes to the one found by looking at every side.
func TestHedgeShadowIsThatOfABar(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(20260612, 9))
	touched := 0
	for i := range 6_000 {
		rings := region{}
		for range 1 + r.IntN(3) {
			ring := blot(r, 200*r.Float64(), 200*r.Float64(), 5, 90)
			rings = append(rings, append(ring, ring[0]))
		}
		f := newFrame(2 * math.Pi * r.Float64())
		from, n := 400*r.Float64()-200, 400*r.Float64()-200
		along := interval{from, from + 120*r.Float64()}
		swath := 1 + 30*r.Float64()
		slow, quick := newBar(f, rings), plantRegion(rings)
		want := subtract([]interval{along}, union(slow.shadow(n-swath/2, n+swath/2, nil)), nil)
		got := subtract([]interval{along}, union(quick.shadow(f, along, n-swath/2, n+swath/2, &shade{}, nil)), nil)
		require.Equal(t, want, got, "case %d", i)
		if len(want) != 1 || want[0] != along {
			touched++
		}
	}
	require.Greater(t, touched, 500, "shadows must fall for this to show anything")
}

// TestHedgeFindsWhatIsNear holds the sides found by boxes to those found by looking at each.
func TestHedgeFindsWhatIsNear(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(20260612, 10))
	some := 0
	for i := range 2_000 {
		ring := blot(r, 0, 0, 50, 200)
		h := plantRegion(region{append(ring, ring[0])})
		f := newFrame(2 * math.Pi * r.Float64())
		from, n, distance := 400*r.Float64()-200, 400*r.Float64()-200, 40*r.Float64()
		free := interval{from, from + 100*r.Float64()}
		var every, seen []interval
		for _, s := range h.sides {
			every = s.in(f).near(n, distance, every)
		}
		left := free
		h.near(f, &left, n, distance, func(k int) {
			had := len(seen)
			seen = h.sides[k].in(f).near(n, distance, seen)
			left.shrink(seen[had:])
		})
		want := subtract([]interval{free}, union(every), nil)
		if left.from < left.to {
			require.Equal(t, want, subtract([]interval{free}, union(seen), nil), "case %d", i)
		} else {
			require.Empty(t, want, "case %d", i)
		}
		if len(every) > 0 {
			some++
		}
	}
	require.Greater(t, some, 500, "sides must be near for this to show anything")
}

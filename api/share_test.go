package api

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// One who holds on to all it gets has half, the next half of the rest, and a newcomer half of what is left.
func TestAShareLeavesRoomForThoseWhoCome(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		const most = 1 << 20
		s, piece := newShare(most), rapid.Int64Range(1, 4096).Draw(t, "piece")
		hogs := rapid.IntRange(1, 30).Draw(t, "hogs")
		var held []hold
		for caller := range hogs {
			h := hold{share: s, caller: string(rune('a' + caller))}
			for h.grow(piece) == nil {
			}
			assert.InDelta(t, most>>(caller+1), h.held, 2*float64(piece), "caller %d", caller)
			held = append(held, h)
		}
		assert.LessOrEqual(t, s.inHand(), int64(most))
		newcomer := hold{share: s, caller: "newcomer"}
		if left := int64(most>>(hogs+1)) - 2*piece; left > 0 {
			assert.NoError(t, newcomer.grow(left), "half of what is left")
		}
		newcomer.release()
		for i := range held {
			held[i].release()
			held[i].release() // once is enough
		}
		assert.Zero(t, s.inHand())
		assert.Empty(t, s.of, "nobody is remembered who holds nothing")
	})
}

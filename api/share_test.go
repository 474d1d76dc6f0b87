package api

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// However many hold on to all they get, a newcomer gets a part, and one alone gets half.
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
			if caller == 0 {
				assert.InDelta(t, most/2, h.held, float64(piece))
			}
			held = append(held, h)
		}
		assert.LessOrEqual(t, s.inHand(), int64(most))
		left := max(0, most-s.inHand())
		assert.True(t, s.take("newcomer", left/2), "half of the %d left", left)
		s.give("newcomer", left/2)
		for i := range held {
			held[i].release()
			held[i].release() // once is enough
		}
		assert.Zero(t, s.inHand())
		assert.Empty(t, s.of, "nobody is remembered who holds nothing")
	})
}

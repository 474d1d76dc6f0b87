package api

import "sync"

// share is memory that the requests in hand may take together. A caller may take no more than is left free
// then (Choudhury and Hahne 1998, Dynamic queue length thresholds for shared-memory packet switches,
// IEEE/ACM Transactions on Networking 6:130, with alpha 1; from memory). Callers who give back what they
// took share alike. Of those who hold on to it the first gets half, the next half of the rest, and so on:
// what is left for those who come is halved by each.
type share struct {
	most int64

	mu    sync.Mutex
	taken int64
	of    map[string]int64 // by caller, of those who hold any
}

func newShare(most int64) *share { return &share{most: most, of: map[string]int64{}} }

// take takes bytes for a caller, and reports whether there was room.
func (s *share) take(caller string, bytes int64) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.of[caller]+bytes > s.most-s.taken-bytes {
		return false
	}
	s.of[caller] += bytes
	s.taken += bytes
	return true
}

// give gives bytes back.
func (s *share) give(caller string, bytes int64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.taken -= bytes
	if s.of[caller] -= bytes; s.of[caller] == 0 {
		delete(s.of, caller)
	}
}

// inHand is what all have taken.
func (s *share) inHand() int64 {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.taken
}

// hold is what one request has taken of a share.
type hold struct {
	share  *share
	caller string
	held   int64
	large  *share // of which it is taken once it is more than smallBody; nil where it stays
}

// grow takes more bytes, unless that is more than the caller may have.
func (h *hold) grow(bytes int64) error {
	if h.large != nil && h.held+bytes > smallBody {
		return h.move(bytes)
	}
	if !h.share.take(h.caller, bytes) {
		return overloaded()
	}
	h.held += bytes
	return nil
}

// move takes what is held and more of the share for what is large.
func (h *hold) move(bytes int64) error {
	if !h.large.take(h.caller, h.held+bytes) {
		return overloaded()
	}
	h.share.give(h.caller, h.held)
	h.share, h.large = h.large, nil
	h.held += bytes
	return nil
}

// release gives all bytes back.
func (h *hold) release() {
	if h.held > 0 {
		h.share.give(h.caller, h.held)
		h.held = 0
	}
}

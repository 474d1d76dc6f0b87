package finding

import "tractcheck/feasibility/units"

// mostMore is how many more digits two figures get at most; what is nearer than that is equal within the
// shared tolerance.
const mostMore = 7

// Apart words two figures with as many more digits than usual as it takes for them not to read alike: a
// limit that is broken by a hair must not read as if it were kept. No more are taken where the usual digits
// tell them apart, and where the figures are equal within the shared tolerance. word prints a figure with
// some more digits than usual; how many were taken is reported too.
func Apart[Q ~float64](measured, limit Q, word func(q Q, more int) string) (m, l string, more int) {
	m, l = word(measured, 0), word(limit, 0)
	if units.AtMost(measured, limit) && units.AtLeast(measured, limit) {
		return m, l, 0
	}
	for m == l && more < mostMore {
		more++
		m, l = word(measured, more), word(limit, more)
	}
	return m, l, more
}

package spray

import (
	"cmp"
	"math"
	"slices"

	"tractcheck/feasibility/units"
)

// measurement is the caller's spectra against one variable (pressure or rotation), rising, one
// row a value, points in order and none missing.
type measurement struct {
	rows     []measuredRow
	exponent float64 // of size against the variable, for going beyond the rows
	spanned  bool    // a Dv0.1 or Dv0.9 was missing and came from the default span
	faulty   bool    // points out of order, a value twice, or sizes that rise
}

type measuredRow struct {
	at       float64 // pressure in Pa or rotation in rad/s
	spectrum Spectrum
}

// newMeasurement sorts the rows, fills missing points and notes what cannot be right. Rows
// without a positive value and Dv0.5 are left out.
func newMeasurement(rows []measuredRow, exponent float64) measurement {
	m := measurement{exponent: exponent}
	for _, row := range rows {
		if row.at <= 0 || row.spectrum.Dv05 <= 0 {
			m.faulty = true
			continue
		}
		m.spanned = m.spanned || row.spectrum.Dv01 <= 0 || row.spectrum.Dv09 <= 0
		row.spectrum = row.spectrum.filled()
		if row.spectrum.Dv01 > row.spectrum.Dv05 || row.spectrum.Dv09 < row.spectrum.Dv05 {
			m.faulty = true
			row.spectrum.Dv01 = min(row.spectrum.Dv01, row.spectrum.Dv05)
			row.spectrum.Dv09 = max(row.spectrum.Dv09, row.spectrum.Dv05)
		}
		m.rows = append(m.rows, row)
	}
	slices.SortStableFunc(m.rows, func(a, b measuredRow) int { return cmp.Compare(a.at, b.at) })
	m.dropDoubles()
	return m
}

// dropDoubles keeps the finer of two rows at one value, to be on the safe side, and notes rows
// whose size rises.
func (m *measurement) dropDoubles() {
	kept := m.rows[:0]
	for _, row := range m.rows {
		if len(kept) == 0 || !units.AtLeast(kept[len(kept)-1].at, row.at) {
			if len(kept) > 0 && row.spectrum.Dv05 > kept[len(kept)-1].spectrum.Dv05 {
				m.faulty = true
			}
			kept = append(kept, row)
			continue
		}
		m.faulty = true
		if row.spectrum.Dv05 < kept[len(kept)-1].spectrum.Dv05 {
			kept[len(kept)-1] = row
		}
	}
	m.rows = kept
}

// known reports whether there is any usable row.
func (m measurement) known() bool { return len(m.rows) > 0 }

// at reports the spectrum at x: between rows straight in ln size against ln x, beyond them by the
// model's exponent from the nearest row. The second result is |ln(x/nearest row)|, zero inside.
// It needs at least one row and a positive x.
func (m measurement) at(x float64) (Spectrum, float64) {
	first, last := m.rows[0], m.rows[len(m.rows)-1]
	if x <= first.at {
		return first.extended(x, m.exponent)
	}
	if x >= last.at {
		return last.extended(x, m.exponent)
	}
	i := 1
	for m.rows[i].at < x {
		i++
	}
	a, b := m.rows[i-1], m.rows[i]
	// The size laws used here are powers of pressure or rotation, straight in logarithms.
	share := (math.Log(x) - math.Log(a.at)) / (math.Log(b.at) - math.Log(a.at))
	between := func(low, high units.Length) units.Length {
		return low * units.Length(math.Pow(float64(high/low), share))
	}
	return Spectrum{
		Dv01: between(a.spectrum.Dv01, b.spectrum.Dv01),
		Dv05: between(a.spectrum.Dv05, b.spectrum.Dv05),
		Dv09: between(a.spectrum.Dv09, b.spectrum.Dv09),
	}, 0
}

// extended carries a row's spectrum over to x by a power law, its shape unchanged.
func (r measuredRow) extended(x, exponent float64) (Spectrum, float64) {
	beyond := math.Log(x) - math.Log(r.at)
	factor := units.Length(math.Exp(float64(exponent * beyond)))
	s := r.spectrum
	return Spectrum{Dv01: s.Dv01 * factor, Dv05: s.Dv05 * factor, Dv09: s.Dv09 * factor}, math.Abs(beyond)
}

// spectrumOf makes a spectrum from the caller's points; a missing one stays zero.
func spectrumOf(dv01 *units.Length, dv05 units.Length, dv09 *units.Length) Spectrum {
	s := Spectrum{Dv05: dv05}
	if dv01 != nil {
		s.Dv01 = *dv01
	}
	if dv09 != nil {
		s.Dv09 = *dv09
	}
	return s
}

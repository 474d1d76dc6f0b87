package spray

import (
	"math"

	"tractcheck/feasibility/units"
)

// Spectrum is a droplet volume spectrum by its three points: 10, 50 and 90 % of the volume lies
// in drops smaller than Dv01, Dv05 and Dv09. A zero Dv01 or Dv09 is missing and taken from
// Rosin-Rammler with relative span 1.3.
//
// It has three points and no name, so that a modeled and a measured spectrum are flown alike
// downstream. The price is a kink in the slope at the middle where the two halves differ.
type Spectrum struct {
	Dv01, Dv05, Dv09 units.Length
}

// defaultSpan is the relative span (Dv0.9 - Dv0.1)/Dv0.5 taken where a spectrum is not measured:
// within the 1.1 to 1.5 of flat fans, 1.2 to 1.6 of air induction and 0.8 to 1.5 of rotary
// atomizers (from memory). Own choice; Rosin-Rammler at this span has more fines than the
// lognormal of the same span, so it errs on the safe side.
const defaultSpan = 1.3

// defaultExponent is the Rosin-Rammler q whose relative span is defaultSpan, and the default tenth and
// ninetieth are the points of that spectrum over its middle: Dv/Dv0.5 = exp((y - y50)/q).
var (
	defaultExponent  = rosinRammlerExponent(defaultSpan)
	defaultTenth     = units.Length(math.Exp((score10 - score50) / defaultExponent))
	defaultNinetieth = units.Length(math.Exp((score90 - score50) / defaultExponent))
)

// narrowest bounds the Rosin-Rammler exponent: Dv0.9/Dv0.1 of 1.003. Points closer together than
// that (or out of order) are spread to it, so that every curve is strictly rising. Own choice.
const narrowest = 1000

// smallestShare keeps Quantile off the ends, where Rosin-Rammler has no finite drop.
const smallestShare = 1e-12

// The three points on the Rosin-Rammler score y = ln(-ln(1 - F)).
var score10, score50, score90 = score(0.1), score(0.5), score(0.9)

// score maps a share of volume to the scale on which Rosin-Rammler is a straight line in ln d.
func score(share float64) float64 { return math.Log(-math.Log1p(-share)) }

// VolumeBelow reports the share of the spray volume in drops smaller than d.
//
// It passes through the three points exactly. Between and beyond them it is a straight line of
// ln(-ln(1-F)) against ln d, that is piecewise Rosin-Rammler, so a spectrum made by
// Rosin-Rammler comes back exactly. It rises strictly with d and is the inverse of Quantile.
// Source: Rosin and Rammler 1933; ASTM E799 names the points.
func (s Spectrum) VolumeBelow(d units.Length) units.Proportion {
	if d <= 0 || s.Dv05 <= 0 {
		return 0
	}
	below, above := s.exponents()
	// y = y50 + q ln(d/Dv0.5), F = 1 - exp(-exp(y)); q below or above the middle
	x := math.Log(d.SI()) - math.Log(s.Dv05.SI())
	q := below
	if x > 0 {
		q = above
	}
	return units.Proportion(-math.Expm1(-math.Exp(score50 + float64(q*x))))
}

// Quantile reports the drop diameter below which a share p of the volume lies. It is the inverse
// of VolumeBelow for 0 < p < 1; p is held to 1e-12 from either end.
func (s Spectrum) Quantile(p units.Proportion) units.Length {
	if s.Dv05 <= 0 {
		return 0
	}
	below, above := s.exponents()
	y := score(max(smallestShare, min(1-smallestShare, p.SI()))) - score50
	q := below
	if y > 0 {
		q = above
	}
	d := math.Exp(math.Log(s.Dv05.SI()) + y/q)
	return units.Length(min(d, math.MaxFloat64))
}

// exponents reports the Rosin-Rammler exponent below and above the middle, each from two points.
func (s Spectrum) exponents() (below, above float64) {
	// Rosin-Rammler is y = y50 + q ln(d/Dv0.5), so q is the rise in y over the rise in ln d.
	below, above = defaultExponent, defaultExponent
	middle := math.Log(s.Dv05.SI())
	if s.Dv01 > 0 {
		below = exponent(score50-score10, middle-math.Log(s.Dv01.SI()))
	}
	if s.Dv09 > 0 {
		above = exponent(score90-score50, math.Log(s.Dv09.SI())-middle)
	}
	return below, above
}

// exponent is a slope held to narrowest; a width of zero or less counts as the narrowest.
func exponent(rise, width float64) float64 {
	if width*narrowest <= rise {
		return narrowest
	}
	return rise / width
}

// rosinRammler makes the spectrum with the given middle and the default relative span.
func rosinRammler(dv05 units.Length) Spectrum {
	return Spectrum{Dv05: dv05}.filled()
}

// filled puts the default span's points where points are missing.
func (s Spectrum) filled() Spectrum {
	if s.Dv01 <= 0 {
		s.Dv01 = s.Dv05 * defaultTenth
	}
	if s.Dv09 <= 0 {
		s.Dv09 = s.Dv05 * defaultNinetieth
	}
	return s
}

// rosinRammlerExponent finds q for a relative span by bisection:
// span(q) = [2.30259^(1/q) - 0.10536^(1/q)] / 0.69315^(1/q), falling in q.
// Valid for spans of 0.01 to 1000.
func rosinRammlerExponent(span float64) float64 {
	low, high := 0.1, 1000.0
	for range 200 {
		q := (low + high) / 2
		got := math.Exp((score90-score50)/q) - math.Exp((score10-score50)/q)
		if got > span {
			low = q
		} else {
			high = q
		}
	}
	return (low + high) / 2
}

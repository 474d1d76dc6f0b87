package permits

import (
	"math"
	"strconv"
	"strings"
	"time"

	"tractcheck/feasibility/units"
)

// scribe writes the texts of one case, one behind the other, on a few large pages. A check has a
// hundred short texts, and memory for each of them would cost more than working out what they say.
// The zero scribe is ready.
type scribe struct {
	page strings.Builder
	last int // where on the page the last text begins
}

// firstPage holds a good part of the texts of a check, each page after it a few of them. Own choices.
const (
	firstPage = 4 << 10
	nextPage  = 2 << 10
)

// say joins parts to one text. One that begins with the text said last goes on where that ends.
func (s *scribe) say(parts ...string) string {
	start, more := s.page.Len(), parts
	if last := s.page.String()[s.last:]; last != "" && last == parts[0] {
		start, more = s.last, parts[1:]
	}
	if length := lengthOf(more); s.page.Cap()-s.page.Len() < length { // what is written keeps its page
		size := nextPage
		if s.page.Cap() == 0 {
			size = firstPage
		}
		start, more = 0, parts
		s.page = strings.Builder{}
		s.page.Grow(max(size, lengthOf(parts)))
	}
	for _, part := range more {
		s.page.WriteString(part)
	}
	s.last = start
	return s.page.String()[start:]
}

// lengthOf is the length of parts together.
func lengthOf(parts []string) int {
	length := 0
	for _, part := range parts {
		length += len(part)
	}
	return length
}

// number writes a figure and what follows it.
func (s *scribe) number(x float64, unit string) string {
	var room [32]byte
	return s.say(string(appendDigits(room[:0], x, figureDigits)), unit)
}

// The phrases of figures, in US units, with the digits a grower reads off an instrument.

func (s *scribe) pounds(m units.Mass) string {
	return s.number(m.In(units.Pound), " lb")
}
func (s *scribe) feet(l units.Length) string {
	return s.number(l.In(units.Foot), " ft")
}
func (s *scribe) miles(l units.Length) string {
	return s.number(l.In(units.Mile), " mi")
}
func (s *scribe) mph(v units.Speed) string {
	return s.number(v.In(units.MilePerHour), " mph")
}
func (s *scribe) gallonsPerAcre(r units.ApplicationRate) string {
	return s.number(r.In(units.GallonPerAcre), " gal/ac")
}

// poundsBeside writes a weight so that it can be told from a limit.
func (s *scribe) poundsBeside(m, limit units.Mass) string {
	return s.say(beside(m.In(units.Pound), limit.In(units.Pound)), " lb")
}

// figureDigits is how many digits a message prints: a tenth of a pound in a hundred. The figures
// beside the message keep all theirs. Own choice.
const figureDigits = 4

func figure(x float64) string { return digits(x, figureDigits) }

// beside prints a figure with more digits where it lies within a part in five hundred of a limit,
// and with as many as it takes to tell the two apart, so that 55.0001 is not said to be 55. Own choice.
func beside(x, limit float64) string {
	said := figure(x)
	if math.Abs(x-limit) < limit/500 {
		said = digits(x, 6)
	}
	for n := 7; n <= 9 && said == figure(limit); n++ {
		said = digits(x, n)
	}
	return said
}

func digits(x float64, n int) string { return string(appendDigits(nil, x, n)) }

// appendDigits appends a figure rounded to n digits, without an exponent where it is of a usual size.
func appendDigits(to []byte, x float64, n int) []byte {
	rounded := float64(units.Significant(units.Proportion(x), n))
	size := max(rounded, -rounded)
	switch {
	case size >= 1 && size < 1e9 && size == math.Trunc(size): // as most limits are
		return strconv.AppendInt(to, int64(rounded), 10)
	case size != 0 && (size < 1e-6 || size >= 1e9):
		return strconv.AppendFloat(to, rounded, 'g', n, 64)
	default:
		return strconv.AppendFloat(to, rounded, 'f', -1, 64)
	}
}

// words turns a code of the contract into words.
func words(code string) string { return strings.ReplaceAll(code, "_", " ") }

// day writes a calendar day.
func (s *scribe) day(t time.Time) string {
	var room [len(time.DateOnly) + 8]byte
	return s.say(string(t.AppendFormat(room[:0], time.DateOnly)))
}

// neighborPointer points at a neighbor, or at a member of one.
func (s *scribe) neighborPointer(i int, member string) string {
	return s.say("/field/neighbors/", strconv.Itoa(i), member)
}

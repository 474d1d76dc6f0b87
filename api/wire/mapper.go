package wire

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"tractcheck/feasibility/units"
)

// mapper carries one request through pass 3 and collects its faults.
type mapper struct {
	faults []Fault
	known  *mappedField // nil: each request has its own
}

// measure is a quantity type of feasibility that is a plain multiple of its SI unit.
type measure interface {
	~float64
	units.Quantity
}

// place is where a member stands: its path with * for the index of a list, and that index.
type place struct {
	path  string
	index int
}

func at(path string) place                 { return place{path: path} }
func atIndex(path string, index int) place { return place{path: path, index: index} }

// member is the place of a member of the object at p.
func (p place) member(name string) place { return place{path: p.path + "/" + name, index: p.index} }

// pointer writes the place as a JSON pointer (RFC 6901).
func (p place) pointer() string {
	return strings.Replace(p.path, "*", strconv.Itoa(p.index), 1)
}

// name is the last name on the path, for a message.
func (p place) name() string {
	return p.path[strings.LastIndexByte(p.path, '/')+1:]
}

// add notes a fault.
func (m *mapper) add(f Fault) { m.faults = append(m.faults, f) }

// missing notes that a member is absent.
func (m *mapper) missing(p place, message string) {
	m.add(Fault{Pointer: p.pointer(), Code: FaultMissing, Message: message})
}

// conflict notes that a member contradicts another.
func (m *mapper) conflict(p place, value any, allowed, message string) {
	m.add(Fault{Pointer: p.pointer(), Code: FaultConflict, Value: value, Allowed: allowed, Message: message})
}

// once reports the faults in the order found, one for each pointer and code.
func (m *mapper) once() []Fault {
	type key struct {
		pointer string
		code    FaultCode
	}
	seen := make(map[key]bool, len(m.faults))
	var out []Fault
	for _, f := range m.faults {
		k := key{f.Pointer, f.Code}
		if !seen[k] {
			seen[k] = true
			out = append(out, f)
		}
	}
	return out
}

// optional reads a quantity that may be absent; nil also where it is faulty.
func optional[Q measure](m *mapper, p place, q *Quantity) *Q {
	if q == nil {
		return nil
	}
	var zero Q
	si, ok := m.read(p, q, zero.Dimension())
	if !ok {
		return nil
	}
	value := Q(si)
	return &value
}

// stated reads a quantity as a plain value; zero where it is absent or faulty.
func stated[Q measure](m *mapper, p place, q *Quantity) Q {
	return valueOf(optional[Q](m, p, q))
}

// money reads an amount of money, which is not a float inside.
func (m *mapper) money(p place, q *Quantity) *units.Money {
	if q == nil {
		return nil
	}
	dollars, ok := m.read(p, q, units.DimensionMoney)
	if !ok {
		return nil
	}
	amount := units.Dollars(dollars)
	return &amount
}

// read converts a quantity to SI and holds it to the limits of its member.
func (m *mapper) read(p place, q *Quantity, name units.Dimension) (float64, bool) {
	d, _ := dimensionOf(name)
	u, ok := d.find(q.Unit)
	if !ok {
		if q.Unit != "" {
			m.wrongUnit(p, q.Unit, d)
		}
		return 0, false
	}
	if q.Value == nil {
		return 0, false
	}
	if !m.within(p, *q.Value, u) {
		return 0, false
	}
	return u.toSI(*q.Value), true
}

// wrongUnit notes a unit that is not one of the member's dimension.
func (m *mapper) wrongUnit(p place, code string, d *dimension) {
	allowed := strings.Join(d.codes(), ", ")
	m.add(Fault{
		Pointer: p.member("unit").pointer(), Code: FaultUnit, Value: clip(code), Allowed: allowed,
		Message: p.name() + " cannot be in " + strconv.Quote(clip(code)) + ". Send it in one of: " + allowed + ".",
	})
}

// within holds a value to the limits of its member, in the caller's own unit.
func (m *mapper) within(p place, value float64, u unit) bool {
	limit, ok := limitOf[p.path]
	if !ok || limit.admits(value, u) {
		return ok
	}
	allowed := limit.allowed(u)
	sent := sayNumber(value) + " " + u.code
	m.add(Fault{
		Pointer: p.member("value").pointer(), Code: FaultRange, Value: finite(value), Allowed: allowed,
		Message: p.name() + " is " + sent + ". Send " + allowed + ".",
	})
	return false
}

// below refuses a lower bound that is not strictly below its upper bound.
func below[Q measure](m *mapper, p place, low *Q, sentLow *Quantity, high *Q, sentHigh *Quantity, highName string) {
	if low == nil || high == nil || units.StrictlyBelow(*low, *high) {
		return
	}
	m.conflict(p, *sentLow, "less than "+sayQuantity(*sentHigh),
		p.name()+" must be less than "+highName+". Check whether the two are swapped or equal.")
}

// atMost refuses a value that is above the one it must not exceed.
func atMost[Q measure](m *mapper, p place, low *Q, sentLow *Quantity, high *Q, sentHigh *Quantity, highName string) {
	if low == nil || high == nil || units.AtMost(*low, *high) {
		return
	}
	m.conflict(p, *sentLow, "at most "+sayQuantity(*sentHigh),
		p.name()+" must not be above "+highName+". Check whether the two are swapped.")
}

// risingRow is the last good row of a table whose first column must rise.
type risingRow[Q measure] struct {
	value *Q
	sent  *Quantity
}

// rising refuses a row whose first column is not above the last row's, and reports the row to
// compare the next one with.
func rising[Q measure](m *mapper, p place, last risingRow[Q], value *Q, sent *Quantity) risingRow[Q] {
	if value == nil {
		return last
	}
	if last.value != nil && !units.StrictlyBelow(*last.value, *value) {
		m.conflict(p, *sent, "more than "+sayQuantity(*last.sent),
			"The rows must rise. Sort them by "+p.name()+" and leave out doubles.")
		return last
	}
	return risingRow[Q]{value: value, sent: sent}
}

// valueOf reads a pointer; zero where it is nil.
func valueOf[T any](p *T) T {
	if p == nil {
		var zero T
		return zero
	}
	return *p
}

func textOf(s *string) string { return valueOf(s) }
func flagOf(b *bool) bool     { return valueOf(b) }

// codeOf reads an optional code as its named type.
func codeOf[C ~string](s *string) *C {
	if s == nil {
		return nil
	}
	code := C(*s)
	return &code
}

// countOf reads an optional whole number.
func countOf(n *Whole) *units.Count {
	if n == nil {
		return nil
	}
	count := units.Count(*n)
	return &count
}

// clipped is how many bytes of a caller's text a fault repeats.
const clipped = 80

// clip shortens a caller's text for a fault, at a border between characters.
func clip(s string) string {
	if len(s) <= clipped {
		return strings.ToValidUTF8(s, "?")
	}
	cut := clipped
	for cut > 0 && !utf8.RuneStart(s[cut]) {
		cut--
	}
	return strings.ToValidUTF8(s[:cut], "?") + "..."
}

// finite reports a value a JSON encoder can write; text for one it cannot.
func finite(value float64) any {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return sayNumber(value)
	}
	return value
}

// sayNumber writes a number the short way, such as 10.5 or 1e+300.
func sayNumber(value float64) string { return strconv.FormatFloat(value, 'g', -1, 64) }

// sayQuantity writes a quantity as the caller sent it.
func sayQuantity(q Quantity) string {
	if q.Value == nil {
		return clip(q.Unit)
	}
	return sayNumber(*q.Value) + " " + clip(q.Unit)
}

package wire

import "tractcheck/feasibility/units"

// Quantity is a physical quantity on the wire: a value and a unit code of its dimension.
// Value is a pointer so that a sent 0 and a missing value stay apart.
type Quantity struct {
	Value *float64 `json:"value,omitzero" validate:"required"`
	Unit  string   `json:"unit" validate:"required"`
}

// Whole is a whole number on the wire. JSON has one number type, so 4, 4.0 and 4e0 are the same.
type Whole int

// system is the unit system an answer is written in.
type system int

// The unit systems.
const (
	usUnits system = iota
	siUnits
)

// unit is one unit code of a dimension and the way to SI and back.
type unit struct {
	code string
	toSI func(value float64) float64
	from func(si float64) float64
}

// dimension is the closed list of units of one dimension, and the unit answers use in each system.
type dimension struct {
	name    units.Dimension
	us, si  string
	units   []unit
	answers [2]unit // the unit of answers in each system
}

// scaled makes a unit that is a multiple of the SI unit.
func scaled(code string, one units.Quantity) unit {
	factor := one.SI()
	return unit{
		code: code,
		toSI: func(value float64) float64 { return value * factor },
		from: func(si float64) float64 { return si / factor },
	}
}

// dimensionOf finds a dimension in the table.
func dimensionOf(name units.Dimension) (*dimension, bool) {
	d, known := dimensionIndex[name]
	if !known {
		return &dimension{}, false
	}
	return d, true
}

// dimensionIndex finds a dimension by its name.
var dimensionIndex = func() map[units.Dimension]*dimension {
	index := make(map[units.Dimension]*dimension, len(dimensions))
	for i := range dimensions {
		d := &dimensions[i]
		for _, s := range []system{usUnits, siUnits} {
			d.answers[s], _ = d.find(d.answersIn(s))
		}
		index[d.name] = d
	}
	return index
}()

// find looks up a unit code of the dimension.
func (d *dimension) find(code string) (unit, bool) {
	for _, u := range d.units {
		if u.code == code {
			return u, true
		}
	}
	return unit{}, false
}

// codes lists the unit codes of the dimension in their published order.
func (d *dimension) codes() []string {
	codes := make([]string, len(d.units))
	for i, u := range d.units {
		codes[i] = u.code
	}
	return codes
}

// answersIn reports the unit code answers use in a unit system.
func (d *dimension) answersIn(s system) string {
	if s == siUnits {
		return d.si
	}
	return d.us
}

// digits is how many significant decimal digits a figure of an answer carries.
const digits = 6

// settled is how many digits survive a conversion there and back. Rounding to it first keeps
// 2.4 gallons, which come back from SI as 2.3999999999999995, from being printed so where a bound
// is rounded up or down.
const settled = 13

// express writes a quantity in a unit, rounded to the digits of an answer. A unit that is not of
// the quantity's dimension is a mistake of the program; the dimension's own unit is used instead.
func express(q units.Quantity, code string) Quantity {
	d, known := dimensionOf(q.Dimension())
	if !known {
		return Quantity{Value: new(q.SI()), Unit: string(q.Dimension())}
	}
	value, unit := d.expressed(q.SI(), code, toNearest)
	return Quantity{Value: &value, Unit: unit}
}

// rounding rounds a figure to so many significant digits.
type rounding func(units.Length, int) units.Length

var (
	toNearest  rounding = units.Significant[units.Length]
	towardZero rounding = units.SignificantDown[units.Length]
)

// expressed is an amount in a unit, rounded to the digits of an answer, and the unit: the dimension's own
// where code is not of it.
func (d *dimension) expressed(si float64, code string, round rounding) (float64, string) {
	u, ok := d.find(code)
	if !ok {
		u = d.answers[usUnits]
	}
	return u.figure(si, round), u.code
}

// figure is an amount in the unit, rounded to the digits of an answer.
func (u *unit) figure(si float64, round rounding) float64 {
	value := float64(units.Significant(units.Length(u.from(si)), settled))
	value = float64(round(units.Length(value), digits))
	if value == 0 {
		return 0 // a negative zero becomes zero
	}
	return value
}

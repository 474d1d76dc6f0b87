package wire

import (
	"errors"
	"math"
	"strconv"
)

// errWhole is what a number that is not whole decodes to.
var errWhole = errors.New("not a whole number")

// wholeMost is the largest whole number the wire decodes; the contract's own bounds are far below.
const wholeMost = 1e9

// UnmarshalJSON reads any JSON number whose value is whole. A null leaves the number unset, as
// encoding/json asks of its callers.
func (n *Whole) UnmarshalJSON(text []byte) error {
	if string(text) == "null" {
		return nil
	}
	value, err := strconv.ParseFloat(string(text), 64)
	if err != nil || value != math.Trunc(value) || math.Abs(value) > wholeMost {
		return errWhole
	}
	*n = Whole(value)
	return nil
}

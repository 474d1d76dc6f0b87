package wire

// FaultCode names a kind of fault. Codes are a fixed list, appended to only.
type FaultCode string

// Faults of text: the body is not one strict JSON value. Any of these makes the status 400.
const (
	FaultSyntax    FaultCode = "syntax"            // malformed JSON, bad UTF-8, too deep
	FaultTrailing  FaultCode = "trailing_data"     // something after the value
	FaultDuplicate FaultCode = "duplicate_member"  // the same name twice in one object
	FaultUnknown   FaultCode = "unknown_member"    // a name the contract does not have (letter case counts)
	FaultNumber    FaultCode = "number_not_finite" // a number outside float64
	FaultEmpty     FaultCode = "empty_body"
)

// Faults of content: strict JSON, but not what the contract admits. Alone they make the status 422.
const (
	FaultMissing  FaultCode = "missing_member"
	FaultType     FaultCode = "wrong_type" // null included
	FaultUnit     FaultCode = "wrong_unit"
	FaultEnum     FaultCode = "not_in_list"
	FaultRange    FaultCode = "out_of_range"
	FaultLength   FaultCode = "too_long_or_short" // strings and arrays
	FaultFormat   FaultCode = "wrong_format"      // times, patterns
	FaultConflict FaultCode = "conflict"          // facts that contradict each other
	FaultGeometry FaultCode = "bad_geometry"
)

// Fault is one thing wrong with a request body: where, what was sent, what is allowed, and what
// to do. Pointer is an RFC 6901 JSON pointer; a missing member's pointer names the member.
type Fault struct {
	Pointer string    `json:"pointer"`
	Code    FaultCode `json:"code"`
	Value   any       `json:"value,omitempty"`
	Allowed string    `json:"allowed,omitempty"`
	Message string    `json:"message"`
}

// Text reports whether the fault is one of text, which makes the whole answer 400.
func (f Fault) Text() bool {
	switch f.Code {
	case FaultSyntax, FaultTrailing, FaultDuplicate, FaultUnknown, FaultNumber, FaultEmpty:
		return true
	default:
		return false
	}
}

package wire

import (
	"sync"

	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
)

// writer writes one answer.
type writer struct {
	system  system
	request *Request
	named   []*finding.Source // sources that findings and assumptions name, in order
	listed  map[string]bool   // the ids of sources that are on the list
	shelf   shelf
}

// shelf is the large lists of an answer that was written out, and the sheets of its quantities. The next
// answer takes them.
type shelf struct {
	findings []Finding
	items    []AuthorizationItem
	sources  []Source
	sheets   []*sheetOfBlanks
	filled   int // blanks
}

// blank is room for one quantity. An answer has hundreds, so they come in sheets.
type blank struct {
	quantity Quantity
	value    float64
}

type sheetOfBlanks [64]blank

// AppendAnswer appends the JSON of the answer that NewAnswer makes, with less garbage: that of the answer
// itself was a quarter of what a request leaves behind.
func AppendAnswer(to []byte, endpoint Endpoint, id Identity, req *Request, a feasibility.Answer) ([]byte, error) {
	w := writers.Get().(*writer)
	answer := w.answer(endpoint, id, req, a)
	written, err := answer.AppendJSON(to)
	w.clean(answer)
	writers.Put(w)
	return written, err
}

// writers are those whose answers were written out.
var writers = sync.Pool{New: func() any { return &writer{} }}

// clean makes a writer ready for another answer than the one it made.
func (w *writer) clean(made *Answer) {
	clear(w.named)
	clear(w.listed)
	w.request, w.named = nil, w.named[:0]
	w.shelf.findings, w.shelf.sources, w.shelf.filled = made.Findings, made.Sources, 0
	if made.Authorizations != nil {
		w.shelf.items = made.Authorizations.Items
	}
}

// list is a list of n items to be overwritten: one from a shelf where there is a long enough one, which is
// taken, for an answer may have several.
func list[T any](onShelf *[]T, n int) []T {
	taken := *onShelf
	*onShelf = nil
	if taken == nil || cap(taken) < n {
		return make([]T, n) // never nil
	}
	return taken[:n]
}

// keep makes a quantity of a value and its unit.
func (w *writer) keep(value float64, unit string) *Quantity {
	s := &w.shelf
	sheet, place := s.filled/len(sheetOfBlanks{}), s.filled%len(sheetOfBlanks{})
	if sheet == len(s.sheets) {
		s.sheets = append(s.sheets, new(sheetOfBlanks))
	}
	s.filled++
	b := &s.sheets[sheet][place]
	b.value = value
	b.quantity = Quantity{Value: &b.value, Unit: unit}
	return &b.quantity
}

package api

import (
	"bytes"
	"encoding/json"
	"fmt"
	"sync"

	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// Desk answers requests: it reads a body, assesses the mission and writes the answer. It is built
// once and may be used by any number of goroutines.
type Desk struct {
	reader *wire.Reader
	engine string
}

// Reply is an answer, ready to send.
type Reply struct {
	Body   []byte // JSON, on one line, without a line feed at the end
	Form   string // its media type
	Answer feasibility.Answer

	page *[]byte // holds Body; nil where it is Body's own
}

// release gives the memory of the body back once it is sent. The body must not be used afterwards; who
// keeps it does not release.
func (r Reply) release() {
	if r.page != nil {
		pages.Put(r.page)
	}
}

// NewDesk makes a desk for a release.
func NewDesk(version string) (*Desk, error) {
	engine := wire.Engine(version)
	reader, err := wire.NewReader(engine)
	if err != nil {
		return nil, err
	}
	return &Desk{reader: reader, engine: engine}, nil
}

// Assess answers a whole mission, as POST /v1/assessments does. The error is a *Problem where the
// body is at fault.
func (d *Desk) Assess(body []byte) (Reply, error) { return d.answer(assessments, body, mediaJSON) }

// answer reads, assesses and encodes in the first of the forms that the answer can be written in.
// The whole answer is encoded before a byte is sent, so a figure that cannot be written never breaks
// an answer midway.
func (d *Desk) answer(r resource, body []byte, forms ...string) (Reply, error) {
	request, mission, digest, faults := d.reader.Read(r.endpoint, body)
	if len(faults) > 0 {
		return Reply{}, faulty(faults)
	}
	answer, err := r.assess(mission)
	if err != nil {
		return Reply{}, fmt.Errorf("assessing for %s: %w", r.endpoint, err)
	}
	identity := wire.Identity{Digest: digest, Engine: d.engine}
	var document any
	form := forms[0]
	if form == mediaMap {
		drawing, ok := mission.Draw(answer)
		switch {
		case ok:
			document = wire.NewMap(identity, request, answer, drawing)
		case len(forms) > 1: // a form less welcome is better than none
			form = forms[1]
		default:
			return Reply{}, unmappable()
		}
	}
	if document == nil {
		document = wire.NewAnswer(r.endpoint, identity, request, answer)
	}
	page := pages.Get().(*[]byte)
	encoded, err := appendDocument((*page)[:0], document)
	if err != nil {
		return Reply{}, fmt.Errorf("encoding the answer for %s: %w", r.endpoint, err)
	}
	*page = encoded
	return Reply{Body: encoded, Form: form, Answer: answer, page: page}, nil
}

// pages are where answers are written: a page that has grown to an answer's length is used again.
var pages = sync.Pool{New: func() any { return new([]byte) }}

// appendDocument appends a document as encode writes it.
func appendDocument(to []byte, document any) ([]byte, error) {
	if answer, ok := document.(*wire.Answer); ok {
		return answer.AppendJSON(to)
	}
	encoded, err := encode(document)
	return append(to, encoded...), err
}

// unmappable is the problem of a map asked for a field that has no place on one.
func unmappable() *Problem {
	return faulty([]wire.Fault{{
		Pointer: "/field/boundary", Code: wire.FaultMissing, Allowed: "a GeoJSON Polygon or MultiPolygon",
		Message: "A map needs to know where the tract lies. Send its boundary, or ask for " + mediaJSON + ".",
	}})
}

// encode writes a value as JSON on one line. Signs such as < and & are left as they are: the
// answer is JSON and is never read as a page.
func encode(value any) ([]byte, error) {
	var buffer bytes.Buffer
	encoder := json.NewEncoder(&buffer)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(value); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(buffer.Bytes(), []byte{'\n'}), nil
}

package api

import (
	"bytes"
	"encoding/json"
	"fmt"
	"sync"

	"tractcheck/api/sheet"
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
	Body   []byte // JSON is on one line, without a line feed at the end
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

// AssessPage answers a whole mission as an answer sheet that is a file of its own, style and all.
func (d *Desk) AssessPage(body []byte) (Reply, error) {
	return d.answer(assessments, body, mediaPageFile)
}

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
	for _, form := range forms {
		encoded, page, ok, err := write(form, r.endpoint, identity, request, mission, answer)
		if err != nil {
			return Reply{}, fmt.Errorf("encoding the answer for %s: %w", r.endpoint, err)
		}
		if ok { // else a form less welcome is better than none
			return Reply{Body: encoded, Form: mediaOf(form), Answer: answer, page: page}, nil
		}
	}
	return Reply{}, unmappable()
}

// pages are where answers are written, and are used again. A new one takes a usual whole answer.
var pages = sync.Pool{New: func() any { return new(make([]byte, 0, usualAnswer)) }}

const usualAnswer = 128 << 10

// write encodes an answer in a form, and reports the page it was written on where that is to be used
// again; it reports false where the answer has no such form.
func write(form string, endpoint wire.Endpoint, id wire.Identity, request *wire.Request,
	mission feasibility.Mission, answer feasibility.Answer) ([]byte, *[]byte, bool, error) {
	switch form {
	case mediaMap:
		drawing, ok := mission.Draw(answer)
		if !ok {
			return nil, nil, false, nil
		}
		encoded, err := encode(wire.NewMap(id, request, answer, drawing))
		return encoded, nil, true, err
	case mediaPage, mediaPageFile:
		sheet, err := answerSheet(id, request, mission, answer, form == mediaPageFile)
		return sheet, nil, true, err
	default:
		page := pages.Get().(*[]byte)
		encoded, err := wire.AppendAnswer((*page)[:0], endpoint, id, request, answer)
		if err == nil {
			*page = encoded
		}
		return encoded, page, true, err
	}
}

// mediaOf is the media type of a form.
func mediaOf(form string) string {
	if form == mediaPageFile {
		return mediaPage
	}
	return form
}

// answerSheet writes a whole answer for people.
func answerSheet(id wire.Identity, request *wire.Request, mission feasibility.Mission, answer feasibility.Answer, file bool) ([]byte, error) {
	in := sheet.Assessed{
		Answer: wire.NewAnswer(wire.Assessments, id, request, answer), Request: request, Computed: answer, Standalone: file,
	}
	if drawing, ok := mission.Draw(answer); ok {
		in.Drawing = &drawing
	}
	return sheet.Assessment(in)
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

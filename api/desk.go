package api

import (
	"bytes"
	"encoding/json"
	"fmt"

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
	Answer feasibility.Answer
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
func (d *Desk) Assess(body []byte) (Reply, error) { return d.answer(assessments, body) }

// answer reads, assesses and encodes. The whole answer is encoded before a byte is sent, so a
// figure that cannot be written never breaks an answer midway.
func (d *Desk) answer(r resource, body []byte) (Reply, error) {
	request, mission, digest, faults := d.reader.Read(r.endpoint, body)
	if len(faults) > 0 {
		return Reply{}, faulty(faults)
	}
	answer, err := r.assess(mission)
	if err != nil {
		return Reply{}, fmt.Errorf("assessing for %s: %w", r.endpoint, err)
	}
	identity := wire.Identity{Digest: digest, Engine: d.engine}
	encoded, err := encode(wire.NewAnswer(r.endpoint, identity, request, answer))
	if err != nil {
		return Reply{}, fmt.Errorf("encoding the answer for %s: %w", r.endpoint, err)
	}
	return Reply{Body: encoded, Answer: answer}, nil
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

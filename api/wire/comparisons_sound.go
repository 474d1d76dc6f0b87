package wire

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"

	strict "github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// parts are the members of an object as they were sent.
type parts map[string]jsontext.Value

// soundComparison reads a body that is without fault; false where it may have one. The parts that no
// set-up changes, the field with its geometry among them, are taken as they stand.
func (r *Reader) soundComparison(body []byte) ([]MergedSetUp, string, bool) {
	digest, ok := r.admits(Comparisons, body)
	if !ok {
		return nil, "", false
	}
	var sent struct {
		Mission parts   `json:"mission"`
		SetUps  []parts `json:"set_ups"`
	}
	if err := strict.Unmarshal(body, &sent, strict.RejectUnknownMembers(true)); err != nil {
		return nil, "", false
	}
	if sent.Mission.mostValues()*len(sent.SetUps) > mostCompared {
		return nil, "", false
	}
	r = r.onOneField()
	all, labels := make([]MergedSetUp, 0, len(sent.SetUps)), map[string]bool{}
	for _, setUp := range sent.SetUps {
		merged, ok := r.mergeSound(sent.Mission, setUp)
		if !ok || labels[merged.Label] {
			return nil, "", false
		}
		labels[merged.Label] = true
		all = append(all, merged)
	}
	return all, digest, true
}

// mergeSound reads one set-up merged over the mission.
func (r *Reader) mergeSound(mission, setUp parts) (MergedSetUp, bool) {
	out, merged := MergedSetUp{}, maps.Clone(mission)
	for name, sent := range setUp {
		if name == "label" {
			if err := strict.Unmarshal(sent, &out.Label); err != nil {
				return MergedSetUp{}, false
			}
			continue
		}
		value := mergePatch(readText(mission[name]).value, readText(sent).value)
		if value == nil {
			delete(merged, name)
			continue
		}
		text, err := json.Marshal(value)
		if err != nil {
			return MergedSetUp{}, false
		}
		merged[name] = text
	}
	var ok bool
	out.Request, out.Mission, out.Digest, ok = r.readSound(Assessments, merged.object())
	return out, ok
}

// object writes the object that parts are of.
func (p parts) object() []byte {
	text := []byte{'{'}
	for i, name := range slices.Sorted(maps.Keys(p)) {
		if i > 0 {
			text = append(text, ',')
		}
		text = append(append(append(text, '"'), name...), '"', ':') // a name of the contract needs no escape
		text = append(text, p[name]...)
	}
	return append(text, '}')
}

// mostValues is how many values the object has at most: each of a list stands behind a bracket or a comma,
// each of an object behind a colon.
func (p parts) mostValues() int {
	count := 1
	for _, part := range p {
		count++
		for _, sign := range []string{":", ",", "["} {
			count += bytes.Count(part, []byte(sign))
		}
	}
	return count
}

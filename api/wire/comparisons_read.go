package wire

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json/jsontext"
)

// mostCompared bounds the values of the mission times the set-ups. Own choice: each set-up is read and
// assessed with the whole mission, so a large boundary goes with few set-ups.
const mostCompared = 400_000

// ReadComparison merges every set-up over the mission (JSON Merge Patch, RFC 7396) and reads each result
// as POST /v1/assessments reads a mission. The faults are all that were found in the mission and in every
// set-up, in the order of the body, with pointers into it; where there is one, the other results are
// empty.
//
// A body without fault, which most are, is read a quicker way with the same result.
func (r *Reader) ReadComparison(body []byte) ([]MergedSetUp, string, []Fault) {
	if setUps, digest, ok := r.soundComparison(body); ok {
		return setUps, digest, nil
	}
	return r.comparisonThrough(body)
}

// comparisonThrough reads a body in the three passes, to find every fault.
func (r *Reader) comparisonThrough(body []byte) ([]MergedSetUp, string, []Fault) {
	var setUps []MergedSetUp
	faults := r.decision(Comparisons, body, func(_ []byte, value any, known []located) []Fault {
		var found []Fault
		setUps, found = r.mergeAll(value)
		return unexplained(known, found)
	})
	if len(faults) > 0 {
		return nil, "", faults
	}
	return setUps, Digest(Comparisons, r.engine, body), nil
}

// mergeAll is pass 3: what is in the set-ups that can be read.
func (r *Reader) mergeAll(value any) ([]MergedSetUp, []Fault) {
	root, _ := value.(map[string]any)
	mission, _ := root["mission"].(map[string]any)
	list, _ := root["set_ups"].([]any)
	if mission == nil || len(list) == 0 {
		return nil, nil
	}
	if count := countValues(mission); count*len(list) > mostCompared {
		return nil, []Fault{{
			Pointer: "/set_ups", Code: FaultLength, Value: len(list),
			Allowed: fmt.Sprintf("at most %d set-ups with a mission of %d values", mostCompared/count, count),
			Message: "So many set-ups cannot be compared on so large a mission. Simplify its geometry, or send fewer set-ups.",
		}}
	}
	one := r.onOneField()
	var all []MergedSetUp
	var faults []Fault
	labels := map[string]int{}
	for i, item := range list {
		setUp, _ := item.(map[string]any)
		label, _ := setUp["label"].(string)
		if first, twice := labels[label]; twice && label != "" {
			faults = append(faults, Fault{
				Pointer: fmt.Sprintf("/set_ups/%d/label", i), Code: FaultConflict, Value: clip(label), Allowed: "each label once",
				Message: fmt.Sprintf("Set-up %d has the same label. Give each its own.", first),
			})
		} else {
			labels[label] = i
		}
		reader := one
		if _, moved := setUp["field"]; moved {
			reader = r // which the contract forbids, and the answer says
		}
		merged, found := reader.merge(mission, setUp, i)
		merged.Label = label
		all, faults = append(all, merged), append(faults, found...)
	}
	return all, faults
}

// unexplained leaves out members that a set-up seems to lack only because those of the mission are faulty
// and were not read.
func unexplained(known []located, faults []Fault) []Fault {
	return slices.DeleteFunc(faults, func(f Fault) bool {
		_, after, _ := strings.Cut(strings.TrimPrefix(f.Pointer, "/set_ups/"), "/")
		lacking := "/mission/" + after
		return f.Code == FaultMissing && slices.ContainsFunc(known, func(k located) bool {
			return k.Pointer == lacking || strings.HasPrefix(k.Pointer, lacking+"/") || strings.HasPrefix(lacking, k.Pointer+"/")
		})
	})
}

// merge reads one set-up merged over the mission.
func (r *Reader) merge(mission, setUp map[string]any, i int) (MergedSetUp, []Fault) {
	patch := maps.Clone(setUp)
	delete(patch, "label")
	text, err := json.Marshal(mergePatch(mission, patch))
	if err != nil {
		return MergedSetUp{}, []Fault{undecodable(err)}
	}
	request, whole, digest, faults := r.Read(Assessments, text)
	faults = append(faults, r.shapes.takenUnknown(nil, patch, r.shapes.root(Assessments))...)
	for n, f := range faults {
		faults[n].Pointer = whence(patch, f, "/set_ups/"+strconv.Itoa(i))
	}
	return MergedSetUp{Request: request, Mission: whole, Digest: digest}, faults
}

// mergePatch is the algorithm of RFC 7396, section 2: null removes a member, an object is merged, and
// anything else takes the place of what was there. Neither argument is changed.
func mergePatch(target, patch any) any {
	changes, ok := patch.(map[string]any)
	if !ok {
		return patch
	}
	merged := map[string]any{}
	if old, ok := target.(map[string]any); ok {
		merged = maps.Clone(old)
	}
	for name, value := range changes {
		if value == nil {
			delete(merged, name)
			continue
		}
		merged[name] = mergePatch(merged[name], value)
	}
	return merged
}

// takenUnknown finds the members that a patch takes away and the contract does not know. A merge leaves no
// trace of them, so a slip in a name would else be read as if it were not there.
func (s *shapes) takenUnknown(where []string, patch, node map[string]any) []Fault {
	properties, _ := node["properties"].(map[string]any)
	var faults []Fault
	var lost []string
	for _, name := range slices.Sorted(maps.Keys(patch)) {
		_, known := properties[name]
		object, _ := patch[name].(map[string]any)
		switch below := s.property(node, name); {
		case patch[name] == nil && !known:
			lost = append(lost, name)
		case object != nil && below["type"] == "object":
			faults = append(faults, s.takenUnknown(append(slices.Clone(where), name), object, below)...)
		}
	}
	return append(faults, unknowns(where, lost, namesOf(node))...)
}

// whence points a fault of a merged mission at where in the request it comes from: the set-up where it
// sent the place or something around it, took it away, or left out what the mission lacks too, or where
// two facts do not go together and the set-up changed the part; else the mission.
func whence(patch map[string]any, f Fault, setUp string) string {
	part, _, _ := strings.Cut(strings.TrimPrefix(f.Pointer, "/"), "/")
	_, touched := patch[part]
	if f.Code == FaultMissing || f.Code == FaultConflict && touched || sentBy(patch, f.Pointer) {
		return setUp + f.Pointer
	}
	return "/mission" + f.Pointer
}

// sentBy reports whether a patch holds the place a pointer names, or something that is no object around it.
func sentBy(patch map[string]any, pointer string) bool {
	var at any = patch
	for token := range jsontext.Pointer(pointer).Tokens() {
		object, ok := at.(map[string]any)
		if !ok {
			return true
		}
		if at, ok = object[token]; !ok {
			return false
		}
	}
	return pointer != ""
}

// countValues counts the values in a tree.
func countValues(value any) int {
	count := 1
	switch v := value.(type) {
	case map[string]any:
		for _, member := range v {
			count += countValues(member)
		}
	case []any:
		for _, item := range v {
			count += countValues(item)
		}
	}
	return count
}

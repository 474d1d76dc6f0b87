package wire

import "encoding/json"

// decision runs the three passes over a body that holds more than one mission. meaning is pass 3: it
// gets the body and its value, or what is sound of them and the faults known already, and reports what it
// finds.
func (r *Reader) decision(endpoint Endpoint, body []byte, meaning func(text []byte, value any, known []located) []Fault) []Fault {
	read := readText(body)
	found := read.faults
	if !read.whole {
		return inOrder(found)
	}
	shape := r.shapes.check(endpoint, read.value)
	if len(found)+len(shape) == 0 {
		return inOrder(placed(body, meaning(body, read.value, nil)))
	}
	found = append(found, placed(body, beside(read.faults, shape))...)
	root, ok := read.value.(map[string]any)
	if !ok {
		return inOrder(found)
	}
	for _, f := range found {
		if f.Code != FaultDuplicate {
			prune(root, f.Pointer)
		}
	}
	if rest, err := json.Marshal(root); err == nil {
		found = append(found, placed(body, beside(found, meaning(rest, root, found)))...)
	}
	return inOrder(found)
}

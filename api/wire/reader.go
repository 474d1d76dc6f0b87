package wire

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"

	strict "github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"tractcheck/feasibility"
	"tractcheck/openapi"
)

// Reader reads request bodies strictly, in three passes over the same bytes. It is built once and
// may be used by any number of goroutines. A body without fault, which most are, is read a quicker way
// with the same result.
type Reader struct {
	engine string
	shapes *shapes
	forms  map[Endpoint]*form
	field  *mappedField // see onOneField
}

// NewReader reads the request schemas of the embedded contract. engine is the program's name and
// build, as Engine makes it; digests depend on it. The error is for a contract that cannot be read,
// which is a mistake of the build.
func NewReader(engine string) (*Reader, error) {
	s, err := readShapes(strings.NewReader(openapi.Requests))
	if err != nil {
		return nil, err
	}
	return &Reader{engine: engine, shapes: s, forms: s.formsOf()}, nil
}

// Warm does what the first faulty body would have to wait for.
func (r *Reader) Warm() { _, _ = r.shapes.compiled() }

// Read makes a mission of a body. The faults are all that the three passes found, in the order of
// the body; where there is one, the other results are empty and must not be used. Broken syntax
// ends the reading, so only what stands before it is reported with it.
func (r *Reader) Read(endpoint Endpoint, body []byte) (*Request, feasibility.Mission, string, []Fault) {
	if request, mission, digest, ok := r.readSound(endpoint, body); ok {
		return request, mission, digest, nil
	}
	return r.readThrough(endpoint, body)
}

// readSound reads a body that is without fault; false where it may have one. The form stands for
// passes 1 and 2 and for the tags of pass 3, which the schemas say as well.
func (r *Reader) readSound(endpoint Endpoint, body []byte) (*Request, feasibility.Mission, string, bool) {
	digest, ok := r.admits(endpoint, body)
	if !ok {
		return nil, feasibility.Mission{}, "", false
	}
	request := &Request{}
	if err := strict.Unmarshal(body, request, strict.RejectUnknownMembers(true)); err != nil || !request.paired() {
		return nil, feasibility.Mission{}, "", false
	}
	m := &mapper{known: r.field}
	mission := m.mission(endpoint, request)
	return request, mission, digest, len(m.faults) == 0
}

// admits holds a body to the form of its endpoint and reports its digest; false where it does not fit, or
// there is no form.
func (r *Reader) admits(endpoint Endpoint, body []byte) (digest string, fits bool) {
	form, ok := r.forms[endpoint]
	fits = ok && form.admits(body, func(canonical []byte) { digest = digestOf(endpoint, r.engine, canonical) })
	return digest, fits
}

// readThrough reads a body in the three passes, to find every fault.
func (r *Reader) readThrough(endpoint Endpoint, body []byte) (*Request, feasibility.Mission, string, []Fault) {
	read := readText(body)
	found := read.faults
	if read.whole {
		shape := r.shapes.check(endpoint, read.value)
		if len(found)+len(shape) == 0 {
			request, mission, faults := r.decode(endpoint, body)
			if len(faults) == 0 {
				return request, mission, Digest(endpoint, r.engine, body), nil
			}
			return nil, feasibility.Mission{}, "", inOrder(placed(body, faults))
		}
		found = append(found, placed(body, beside(read.faults, shape))...)
		found = append(found, placed(body, r.sound(endpoint, read.value, found))...)
	}
	return nil, feasibility.Mission{}, "", inOrder(found)
}

// decode is pass 3 on a body that passed the first two.
func (r *Reader) decode(endpoint Endpoint, body []byte) (*Request, feasibility.Mission, []Fault) {
	request := &Request{}
	if err := strict.Unmarshal(body, request, strict.RejectUnknownMembers(true)); err != nil {
		return nil, feasibility.Mission{}, []Fault{undecodable(err)}
	}
	mission, faults := request.missionOn(r.field, endpoint)
	return request, mission, faults
}

// undecodable words a body that the contract admits and the program cannot decode.
func undecodable(err error) Fault {
	f := Fault{
		Code: FaultType, Allowed: "a value the contract describes",
		Message: "This value cannot be read. Compare it with the contract at /openapi.json.",
	}
	var semantic *strict.SemanticError
	if errors.As(err, &semantic) {
		f.Pointer = string(semantic.JSONPointer)
	}
	return f
}

// sound is pass 3 on what is sound of a faulty value, so that its other faults come to light in the
// same answer. Faulty members are left out, and faults that only follow from leaving them out are
// dropped.
func (r *Reader) sound(endpoint Endpoint, value any, known []located) []Fault {
	root, ok := value.(map[string]any)
	if !ok {
		return nil
	}
	for _, f := range known {
		if f.Code != FaultDuplicate {
			prune(root, f.Pointer)
		}
	}
	rest, err := json.Marshal(root)
	if err != nil {
		return nil
	}
	_, _, faults := r.decode(endpoint, rest)
	return beside(known, faults)
}

// prune removes the member at a pointer. An item of a list goes with its list: taking it alone
// would move the pointers of the items behind it.
func prune(root map[string]any, pointer string) {
	holder, member := root, ""
	var at any = root
	for token := range jsontext.Pointer(pointer).Tokens() {
		switch v := at.(type) {
		case map[string]any:
			holder, member = v, token
			at = v[token]
		case []any:
			at = item(v, token)
		default:
			return
		}
	}
	delete(holder, member)
}

// beside keeps the faults that say something new: not at a place that is known to be faulty, nor
// inside one, nor missing because of one.
func beside(known []located, faults []Fault) []Fault {
	faulty, above := map[string]bool{}, map[string]bool{}
	for _, k := range known {
		if k.Code == FaultDuplicate {
			continue // of two members with one name, the last was read
		}
		for at := k.Pointer; at != ""; at = parent(at) {
			above[at] = true
		}
		faulty[k.Pointer] = k.Pointer != ""
	}
	return slices.DeleteFunc(faults, func(f Fault) bool {
		if f.Code == FaultMissing && above[f.Pointer] {
			return true
		}
		for at := f.Pointer; at != ""; at = parent(at) {
			if faulty[at] {
				return true
			}
		}
		return false
	})
}

// parent is the pointer of the object or list around a place.
func parent(pointer string) string { return pointer[:strings.LastIndexByte(pointer, '/')] }

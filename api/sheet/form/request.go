package form

import (
	"bytes"
	"encoding/json"
	"regexp"
	"strings"

	"tractcheck/api/wire"
)

// Request makes the JSON request of what was typed, which must be tidy. Blank is absent. The faults
// are those that only the form can see; what is wrong with a value is for the reader of the request
// to say, so a text that is no number goes into the request as it was typed.
func (f *Form) Request(v Values) ([]byte, []wire.Fault) {
	b := builder{values: v, root: newTree()}
	for _, l := range f.lines {
		if only := l.part.only; only.at != "" && v.text(only.at) != only.value {
			continue
		}
		if l.part.list == "" {
			b.add(l, l.path)
			continue
		}
		for row := range v.rows(l.part.list) {
			b.add(l, l.place(row))
		}
	}
	b.nones(f)
	for _, pointer := range f.contract.objects {
		b.root.at(pointer) // so that what is missing in it is named one by one
	}
	var out bytes.Buffer
	b.root.write(&out)
	return out.Bytes(), b.faults
}

// Indented is a request as people read it; the text itself where it is not JSON.
func Indented(request []byte) string {
	var out bytes.Buffer
	if json.Indent(&out, request, "", "  ") != nil {
		return string(request)
	}
	return out.String()
}

// builder makes one request.
type builder struct {
	values Values
	root   *tree
	faults []wire.Fault
}

// add puts the value of a field into the request, where something was typed.
func (b *builder) add(l line, place string) {
	switch text := b.values.text(place); l.kind {
	case kindQuantity:
		b.quantity(l, place)
	case kindMoment:
		b.moment(place)
	case kindPoint:
		b.point(place)
	case kindPolygons:
		b.polygons(place, text)
	case kindIDs:
		b.ids(place)
	case kindNumber, kindWhole:
		if text != "" {
			b.root.set(place, literal(text))
		}
	case kindYesNo:
		if text != "" {
			b.root.set(place, flag(text))
		}
	default:
		if text != "" {
			b.root.set(place, quoted(text))
		}
	}
}

func (b *builder) quantity(l line, place string) {
	value := b.values.text(place + valueName)
	if value == "" {
		return
	}
	unit := b.values.text(place + unitName)
	if unit == "" {
		unit = l.unit(b.values.units())
	}
	b.root.set(place+valueName, literal(value))
	b.root.set(place+unitName, quoted(unit))
}

// moment joins a local date and time with its offset. A browser leaves out seconds of zero.
func (b *builder) moment(place string) {
	local, offset := b.values.text(place+localName), b.values.text(place+offsetName)
	if local == "" {
		return
	}
	local = strings.Replace(local, " ", "T", 1)
	if minutesOnly.MatchString(local) {
		local += ":00"
	}
	if offset == "" {
		b.fault(place, wire.FaultMissing, "Say how far the local time is from UTC. Central daylight time is 5 hours behind: -05:00.")
		return
	}
	b.root.set(place, quoted(local+offset))
}

var minutesOnly = regexp.MustCompile(`T\d\d:\d\d$`)

// point makes a GeoJSON Point; longitude stands first in it.
func (b *builder) point(place string) {
	latitude, longitude := b.values.text(place+latitudeName), b.values.text(place+longitudeName)
	switch {
	case latitude == "" && longitude == "":
	case latitude == "" || longitude == "":
		b.fault(place, wire.FaultMissing, "Give both the latitude and the longitude, or neither.")
	default:
		b.root.set(place, `{"type":"Point","coordinates":[`+literal(longitude)+`,`+literal(latitude)+`]}`)
	}
}

// ids lists what is ticked and what was typed beside it, each once.
func (b *builder) ids(place string) {
	seen := map[string]bool{}
	var list []string
	typed := strings.FieldsFunc(b.values.text(place+otherName), func(r rune) bool { return strings.ContainsRune(", \t\r\n;", r) })
	for _, id := range append(b.values[place], typed...) {
		if id = strings.TrimSpace(id); id != "" && !seen[id] {
			seen[id] = true
			list = append(list, quoted(id))
		}
	}
	if len(list) > 0 {
		b.root.set(place, "["+strings.Join(list, ",")+"]")
	}
}

// nones sends an empty list where it was ticked that there is nothing to list.
func (b *builder) nones(f *Form) {
	for _, l := range f.lines {
		place := l.part.list
		if l.kind == kindIDs {
			place = l.path
		}
		if place == "" || l.path != f.first(place) || !b.values.ticked(place+noneName) {
			continue
		}
		if at := b.root.at(place); at.text != "" || len(at.names) > 0 {
			b.fault(l.place(0), wire.FaultConflict, "You ticked that there are none, and listed some. Take away the one that is wrong.")
			continue
		}
		b.root.set(place, "[]")
	}
}

// first is the path of the first field of a list.
func (f *Form) first(list string) string {
	for _, l := range f.lines {
		if l.part.list == list || l.path == list {
			return l.path
		}
	}
	return ""
}

func (b *builder) fault(place string, code wire.FaultCode, message string) {
	b.faults = append(b.faults, wire.Fault{Pointer: place, Code: code, Message: message})
}

// flag is a yes or no as JSON; anything else goes on as it is, for the reader to refuse.
func flag(text string) string {
	if text == "true" || text == "false" {
		return text
	}
	return quoted(text)
}

// What people write for a number, and what JSON admits.
var (
	grouped    = regexp.MustCompile(`^[-+]?\d{1,3}(,\d{3})+(\.\d*)?$`)
	written    = regexp.MustCompile(`^[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d+)?$`)
	jsonNumber = regexp.MustCompile(`^-?(0|[1-9]\d*)(\.\d+)?([eE][-+]?\d+)?$`)
)

// literal is a typed number as JSON: 1,250 and +3 and .5 mean what they say. A text that is no
// number becomes a JSON string.
func literal(text string) string {
	plain := strings.ReplaceAll(strings.TrimSpace(text), "\u2212", "-")
	if grouped.MatchString(plain) {
		plain = strings.ReplaceAll(plain, ",", "")
	}
	if jsonNumber.MatchString(plain) {
		return plain
	}
	if !written.MatchString(plain) {
		return quoted(text)
	}
	sign := ""
	if plain[0] == '-' {
		sign = "-"
	}
	plain = strings.TrimLeft(plain, "+-0")
	mantissa, exponent, _ := strings.Cut(strings.ToLower(plain), "e")
	mantissa = strings.TrimSuffix(mantissa, ".")
	if mantissa == "" || mantissa[0] == '.' {
		mantissa = "0" + mantissa
	}
	if exponent != "" {
		exponent = "e" + exponent
	}
	return sign + mantissa + exponent
}

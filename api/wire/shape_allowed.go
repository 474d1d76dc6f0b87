package wire

import (
	"fmt"
	"strconv"
	"strings"
)

// allowed words what the contract asks for at a place of a body. The schema of a quantity is shared
// by every member of its dimension, so its range is that of the member, not of the schema.
func (s *shapes) allowed(body any, where []string, node map[string]any) string {
	if l, ok := rangeAt(where); ok {
		return fmt.Sprintf("an object with value (%s) and unit (%s)",
			l.allowed(l.unitOf(nil)), s.describe(s.property(node, "unit")))
	}
	last := len(where) - 1
	if last < 0 || where[last] != "value" {
		return s.describe(node)
	}
	if l, ok := rangeAt(where[:last]); ok {
		return "a number from " + l.allowed(l.unitOf(sentAt(body, where[:last])))
	}
	return s.describe(node)
}

// rangeAt finds the range of the quantity at a place.
func rangeAt(where []string) (limit, bool) {
	var path strings.Builder
	for _, token := range where {
		if _, err := strconv.Atoi(token); err == nil {
			token = "*"
		}
		path.WriteString("/" + token)
	}
	l, ok := limitOf[inMission(path.String())]
	return l, ok
}

// inMission is the path of a member in a mission, for one in a request that holds a mission or hours of
// weather.
func inMission(path string) string {
	if rest, ok := strings.CutPrefix(path, "/hours/*/"); ok {
		return "/weather/" + rest
	}
	return strings.TrimPrefix(path, "/mission")
}

// unitOf is the unit to say a limit in: that of the quantity sent where it has one, else the first
// of the dimension.
func (l limit) unitOf(sent any) unit {
	d, _ := dimensionOf(l.low.Dimension())
	quantity, _ := sent.(map[string]any)
	code, _ := quantity["unit"].(string)
	if u, ok := d.find(code); ok {
		return u
	}
	return d.units[0]
}

// sentAt is what a body holds at a place; nil where it holds nothing.
func sentAt(body any, where []string) any {
	for _, token := range where {
		switch v := body.(type) {
		case map[string]any:
			body = v[token]
		case []any:
			body = item(v, token)
		default:
			return nil
		}
	}
	return body
}

// scalar is what a fault repeats of a value: texts clipped, nothing of lists and objects.
func scalar(value any) any {
	switch v := value.(type) {
	case string:
		return clip(v)
	case bool, float64:
		return v
	default:
		return nil
	}
}

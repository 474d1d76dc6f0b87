package wire

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// describe words what a schema of the contract asks for, short enough for a fault: "a number above
// 0 and at most 400", "one of us, si", "an object with value (a number) and unit (one of lb, kg, g)".
func (s *shapes) describe(node map[string]any) string {
	if list, ok := node["enum"].([]any); ok {
		return orList(list)
	}
	if only, ok := node["const"]; ok {
		return orList([]any{only})
	}
	switch node["type"] {
	case "object":
		return s.describeObject(node)
	case "array":
		return "a list" + bounds(node, "minItems", "maxItems", " items")
	case "string":
		return describeText(node)
	case "integer":
		return "a whole number" + interval(node)
	case "number":
		return "a number" + interval(node)
	case "boolean":
		return "true or false"
	default:
		return ""
	}
}

// describeObject words an object; a quantity by its unit codes, another by the members it needs.
func (s *shapes) describeObject(node map[string]any) string {
	value, unit := s.property(node, "value"), s.property(node, "unit")
	if value != nil && unit != nil {
		return fmt.Sprintf("an object with value (a number) and unit (%s)", s.describe(unit))
	}
	required, _ := node["required"].([]any)
	if names := namesOf(node); len(required) == 0 && len(names) > 0 {
		return "an object with any of " + strings.Join(names, ", ")
	}
	if len(required) == 0 {
		return "an object"
	}
	return "an object with " + sayList(required, " and ")
}

// describeText words a string by its form.
func describeText(node map[string]any) string {
	switch node["format"] {
	case "date-time":
		return "a time with its offset, such as 2026-06-03T07:30:00-05:00"
	case "date":
		return "a date such as 2027-03-31"
	}
	if pattern, ok := node["pattern"].(string); ok {
		if examples, _ := node["examples"].([]any); len(examples) > 0 {
			return fmt.Sprintf("text such as %v, by the pattern %s", examples[0], pattern)
		}
		return "text that matches " + pattern
	}
	return "text" + bounds(node, "minLength", "maxLength", " characters")
}

// interval words the range of a number.
func interval(node map[string]any) string {
	var parts []string
	for _, bound := range []struct{ keyword, words string }{
		{"minimum", "at least"}, {"exclusiveMinimum", "above"}, {"maximum", "at most"}, {"exclusiveMaximum", "below"},
	} {
		if limit, ok := node[bound.keyword]; ok {
			parts = append(parts, fmt.Sprintf("%s %v", bound.words, limit))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return " " + strings.Join(parts, " and ")
}

// bounds words the least and the most of a length.
func bounds(node map[string]any, least, most, of string) string {
	low, hasLow := node[least]
	high, hasHigh := node[most]
	switch {
	case hasLow && hasHigh:
		return fmt.Sprintf(" of %v to %v%s", low, high, of)
	case hasLow:
		return fmt.Sprintf(" of at least %v%s", low, of)
	case hasHigh:
		return fmt.Sprintf(" of at most %v%s", high, of)
	default:
		return ""
	}
}

// orList words a closed list.
func orList(values []any) string {
	if len(values) == 1 {
		return fmt.Sprint(values[0])
	}
	return "one of " + sayList(values, ", ")
}

func sayList(values []any, last string) string {
	words := make([]string, len(values))
	for i, value := range values {
		words[i] = fmt.Sprint(value)
	}
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + last + words[n-1]
	}
	return strings.Join(words, "")
}

// namesOf lists the members a schema knows, in order.
func namesOf(node map[string]any) []string {
	properties, _ := node["properties"].(map[string]any)
	return slices.Sorted(maps.Keys(properties))
}

// Nearest finds the known name a sent one was probably meant to be: the same but for letter case
// and underscores, or two slips away at most. Empty where none is near.
func Nearest(sent string, known []string) string {
	const longest = 64 // a longer name is no slip, and comparing it would only cost time
	if len(sent) > longest {
		return ""
	}
	plain := plainName(sent)
	best, slips := "", 3
	for _, name := range known {
		n := slipsBetween(plain, plainName(name))
		if n < slips && n < len(plain) {
			best, slips = name, n
		}
	}
	return best
}

func plainName(name string) string {
	return strings.ToLower(strings.NewReplacer("_", "", "-", "", " ", "").Replace(name))
}

// slipsBetween counts the single-letter changes from one name to another (the edit distance).
func slipsBetween(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		corner := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := corner
			if a[i] != b[j] {
				change++
			}
			corner = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}

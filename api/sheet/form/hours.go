package form

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"tractcheck/api/wire"
)

// HoursInput is the name of the input with the weather of the hours.
const HoursInput = "hours"

// mostHours is the most hours of one question, as the contract has it.
const mostHours = 336

// HoursRequest makes the JSON request of what was typed and the weather of the hours: the JSON list of
// the contract, or a table whose first row names the columns. A fault at /hours is about its text.
func (f *Form) HoursRequest(v Values, weather string) ([]byte, []wire.Fault) {
	mission, faults := f.Request(v)
	for i := range faults {
		faults[i].Pointer = "/mission" + faults[i].Pointer
	}
	hours, message := f.hours(v, weather)
	if message != "" {
		return nil, append(faults, wire.Fault{Pointer: "/hours", Code: wire.FaultFormat, Message: message})
	}
	return fmt.Appendf(nil, `{"mission":%s,"hours":%s}`, mission, hours), faults
}

// hours is the weather as the JSON list of the contract; the message says why there is none.
func (f *Form) hours(v Values, text string) (list, message string) {
	text = strings.TrimSpace(text)
	if strings.HasPrefix(text, "[") || strings.HasPrefix(text, "{") {
		return sentHours(text)
	}
	reader := csv.NewReader(strings.NewReader(text))
	reader.TrimLeadingSpace = true
	rows, err := reader.ReadAll()
	if err != nil || len(rows) < 2 {
		return "", "Paste a table: the names of the columns in the first row, then one row for each hour, with commas between."
	}
	if len(rows) > mostHours+1 {
		return "", fmt.Sprintf("There are %d hours. Send at most %d.", len(rows)-1, mostHours)
	}
	columns, message := f.columns(v, rows[0])
	if message != "" {
		return "", message
	}
	b := builder{values: Values{}, root: newTree()}
	b.root.list = true
	for i, row := range rows[1:] {
		for j, c := range columns {
			c.put(&b, fmt.Sprintf("/%d", i), strings.TrimSpace(row[j]))
		}
	}
	var out bytes.Buffer
	b.root.write(&out)
	return out.String(), ""
}

// sentHours takes the list out of JSON: the list itself, or a request around it.
func sentHours(text string) (list, message string) {
	var around struct {
		Hours json.RawMessage `json:"hours"`
	}
	switch {
	case !json.Valid([]byte(text)):
		return "", "This begins like JSON and is not. Paste all of it, or a table."
	case text[0] == '[':
		return text, ""
	case json.Unmarshal([]byte(text), &around) != nil || len(around.Hours) == 0:
		return "", "This JSON has no member named hours. Paste the list of hours."
	default:
		return string(around.Hours), ""
	}
}

// column is one column of the table: its member of the weather and the unit of its values.
type column struct {
	line

	unit   string
	offset string // for a time without one
}

// columns reads the first row: names of members, each perhaps with its unit.
func (f *Form) columns(v Values, names []string) ([]column, string) {
	var all []column
	var known []string
	for _, l := range f.lines {
		if name, ok := strings.CutPrefix(l.path, "/weather/"); ok && !strings.Contains(name, "/") {
			known = append(known, name)
		}
	}
	for _, cell := range names {
		words := strings.FieldsFunc(cell, func(r rune) bool { return strings.ContainsRune(" ()[]", r) })
		if len(words) == 0 || !slices.Contains(known, words[0]) {
			return nil, fmt.Sprintf("There is no column %.40q. The columns are %s.", cell, strings.Join(known, ", "))
		}
		i := slices.IndexFunc(f.lines, func(l line) bool { return l.path == "/weather/"+words[0] })
		c := column{line: f.lines[i], unit: f.lines[i].unit(v.units()), offset: v.text("/weather/at" + offsetName)}
		if len(words) > 1 {
			c.unit = words[1]
		}
		all = append(all, c)
	}
	return all, ""
}

// put adds one value of a row to the request.
func (c column) put(b *builder, row, text string) {
	if text == "" {
		return
	}
	place := row + strings.TrimPrefix(c.path, "/weather")
	switch c.kind {
	case kindQuantity:
		b.root.set(place+valueName, literal(text))
		b.root.set(place+unitName, quoted(c.unit))
	case kindMoment:
		local, offset := splitMoment(strings.Replace(text, " ", "T", 1))
		if minutesOnly.MatchString(local) {
			local += ":00"
		}
		if offset == "" {
			offset = c.offset
		}
		b.root.set(place, quoted(local+offset))
	default:
		switch strings.ToLower(text) {
		case "yes":
			text = "true"
		case "no":
			text = "false"
		}
		b.root.set(place, flag(text))
	}
}

// exampleHours is an invented day to start from, on the day of the job.
func exampleHours(v Values) string {
	day, offset := "2026-06-03", "-05:00"
	if local := v.text("/weather/at" + localName); len(local) > len(day) {
		day = local[:len(day)]
	}
	if typed := v.text("/weather/at" + offsetName); typed != "" {
		offset = typed
	}
	rows := []string{"at, wind_speed (mph), wind_from (deg), gust (mph), temperature (degF), relative_humidity (%), cloud_cover (%)"}
	for i, r := range inventedDay {
		rows = append(rows, fmt.Sprintf("%sT%02d:00:00%s, %s", day, inventedFrom+i, offset, r))
	}
	return strings.Join(rows, "\n")
}

// inventedFrom is the first hour of the invented day.
const inventedFrom = 6

// inventedDay is a summer day, hour by hour: a calm morning, a breeze, a windy afternoon. Invented.
var inventedDay = []string{
	"2, 200, 3, 66, 88, 20", "3, 205, 4, 68, 84, 20", "4, 210, 6, 71, 78, 20", "5, 215, 7, 74, 71, 25", "6, 220, 8, 77, 65, 30",
	"7, 220, 9, 80, 59, 30", "8, 225, 11, 83, 54, 35", "10, 225, 14, 85, 50, 40", "12, 225, 17, 86, 48, 40", "12, 230, 18, 87, 46, 35",
	"11, 230, 16, 87, 47, 30", "9, 230, 13, 85, 50, 25", "6, 225, 9, 82, 56, 20", "4, 220, 6, 78, 64, 15", "2, 215, 3, 74, 72, 10",
}

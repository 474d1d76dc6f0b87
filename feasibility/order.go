package feasibility

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// change says a remedy as an order. What is taken out of the request is no order to the crew.
func change(r Remedy) string {
	said := make([]string, 0, len(r.Changes))
	fit := nozzleWords(r.Changes)
	for _, c := range r.Changes {
		words, known := changeWords[c.Pointer]
		switch {
		case c.Remove:
		case c.Pointer == overPeople:
			said = append(said, words)
		case known:
			said = append(said, fmt.Sprintf(words, c.toWords()))
		case fit != "" && slices.Contains([]string{nozzleType, ratedFlow, ratedPressure}, c.Pointer):
			said, fit = append(said, fit), "" // once
		}
	}
	if n := len(said); n > 2 {
		return strings.Join(said[:n-1], ", ") + " and " + said[n-1]
	}
	return strings.Join(said, " and ")
}

// nozzleWords says as one order which nozzles to fit; empty where they stay.
func nozzleWords(changes []Change) string {
	kind, size, pressure := "", "", ""
	for _, c := range changes {
		switch {
		case c.Remove:
		case c.Pointer == nozzleType:
			kind = c.toWords() + " "
		case c.Pointer == ratedFlow:
			size = " rated " + c.toWords()
		case c.Pointer == ratedPressure:
			pressure = " at " + c.toWords()
		}
	}
	if kind == "" && size == "" {
		return ""
	}
	return "fit " + kind + "nozzles" + cmp.Or(size, " of the same size") + pressure
}

// changeWords says each fact a remedy may change as an order.
var changeWords = map[string]string{
	"/load/fill":             "fill no more than %s",
	"/load/application_rate": "apply %s",
	"/flight/speed":          "fly at %s",
	"/flight/height":         "release the spray %s above the crop",
	"/flight/swath":          "space the lines %s apart",
	"/flight/course":         "fly the lines on a course of %s",
	"/aircraft/count":        "fly %s at once",
	"/weather/at":            "start at %s",
	overPeople:               "keep everyone out of the field and 100 ft around it",
	discRotation:             "turn the discs at %s",
}

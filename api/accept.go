package api

import (
	"cmp"
	"mime"
	"net/http"
	"slices"
	"strconv"
	"strings"
)

// accepted is the forms of an answer that the caller takes, the most welcome first and, among those
// as welcome, in the order of the forms (RFC 9110, section 12.5.1). No header, or one that cannot be
// read, accepts everything. Where no form is welcome, the error lists them.
func accepted(r *http.Request, forms ...string) ([]string, error) {
	ranges := mediaRanges(r.Header.Values("Accept"))
	if len(ranges) == 0 {
		return forms, nil
	}
	welcome := slices.DeleteFunc(slices.Clone(forms), func(form string) bool { return quality(ranges, form) <= 0 })
	if len(welcome) == 0 {
		return nil, notAcceptable.problem("This answer comes as " + strings.Join(forms, " or ") +
			". Send an Accept header that admits it, or none.")
	}
	slices.SortStableFunc(welcome, func(a, b string) int {
		return cmp.Compare(quality(ranges, b), quality(ranges, a))
	})
	return welcome, nil
}

// mediaRange is one entry of an Accept header.
type mediaRange struct {
	mediaType string
	quality   float64
}

// mediaRanges reads Accept headers; entries that cannot be read are left out.
func mediaRanges(values []string) []mediaRange {
	var ranges []mediaRange
	for _, value := range values {
		for entry := range strings.SplitSeq(value, ",") {
			mediaType, parameters, err := mime.ParseMediaType(entry)
			if err != nil || !strings.Contains(mediaType, "/") {
				continue
			}
			weight := 1.0
			if q, ok := parameters["q"]; ok {
				weight, err = strconv.ParseFloat(q, 64)
				if inRange := weight >= 0 && weight <= 1; err != nil || !inRange {
					continue
				}
			}
			ranges = append(ranges, mediaRange{mediaType, weight})
		}
	}
	return ranges
}

// quality is how welcome a form is: the weight of the most precise range that names it.
func quality(ranges []mediaRange, form string) float64 {
	kind, _, _ := strings.Cut(form, "/")
	for _, name := range []string{form, kind + "/*", "*/*"} {
		i := slices.IndexFunc(ranges, func(r mediaRange) bool { return r.mediaType == name })
		if i >= 0 {
			return ranges[i].quality
		}
	}
	return 0
}

package api

import (
	"mime"
	"net/http"
	"slices"
	"strconv"
	"strings"
)

// acceptable holds the forms an answer comes in against the caller's Accept header (RFC 9110,
// section 12.5.1). No header, or one that cannot be read, accepts everything.
func acceptable(r *http.Request, forms ...string) error {
	ranges := mediaRanges(r.Header.Values("Accept"))
	if len(ranges) == 0 || slices.ContainsFunc(forms, func(form string) bool { return quality(ranges, form) > 0 }) {
		return nil
	}
	return notAcceptable.problem("This answer comes as " + strings.Join(forms, " or ") +
		". Send an Accept header that admits it, or none.")
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

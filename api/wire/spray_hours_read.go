package wire

import (
	"errors"
	"strconv"
	"strings"
	"time"

	strict "github.com/go-json-experiment/json"
	"github.com/go-playground/validator/v10"

	"tractcheck/feasibility"
	"tractcheck/feasibility/tract"
)

// ReadSprayHours makes a mission and its hours of a body, strictly and in the three passes of Read; a
// body without fault is read the quicker way. The faults are all that were found, in the order of the
// body; where there is one, the other results are empty.
func (r *Reader) ReadSprayHours(body []byte) (*SprayHoursRequest, feasibility.Mission, []feasibility.Forecast, string, []Fault) {
	if request, mission, hours, digest, ok := r.soundHours(body); ok {
		return request, mission, hours, digest, nil
	}
	return r.hoursThrough(body)
}

// soundHours reads a body that is without fault; false where it may have one.
func (r *Reader) soundHours(body []byte) (*SprayHoursRequest, feasibility.Mission, []feasibility.Forecast, string, bool) {
	digest, ok := r.admits(SprayHours, body)
	if !ok {
		return nil, feasibility.Mission{}, nil, "", false
	}
	request := &SprayHoursRequest{}
	if err := strict.Unmarshal(body, request, strict.RejectUnknownMembers(true)); err != nil || !request.paired() {
		return nil, feasibility.Mission{}, nil, "", false
	}
	mission, hours, faults := request.meaning(false)
	return request, mission, hours, digest, len(faults) == 0
}

// hoursThrough reads a body in the three passes, to find every fault.
func (r *Reader) hoursThrough(body []byte) (*SprayHoursRequest, feasibility.Mission, []feasibility.Forecast, string, []Fault) {
	var request *SprayHoursRequest
	var mission feasibility.Mission
	var hours []feasibility.Forecast
	faults := r.decision(SprayHours, body, func(text []byte, _ any, _ []located) []Fault {
		var found []Fault
		request, mission, hours, found = decodeSprayHours(text)
		return found
	})
	if len(faults) > 0 {
		return nil, feasibility.Mission{}, nil, "", faults
	}
	return request, mission, hours, Digest(SprayHours, r.engine, body), nil
}

// decodeSprayHours is pass 3 of a body of hours.
func decodeSprayHours(text []byte) (*SprayHoursRequest, feasibility.Mission, []feasibility.Forecast, []Fault) {
	request := &SprayHoursRequest{}
	if err := strict.Unmarshal(text, request, strict.RejectUnknownMembers(true)); err != nil {
		return nil, feasibility.Mission{}, nil, []Fault{undecodable(err)}
	}
	mission, hours, faults := request.meaning(true)
	return request, mission, hours, faults
}

// meaning makes a mission and its hours of a request, with all that is at fault in them. tags says whether
// the rules of the tags are to be checked as well; a body that fits its form keeps them.
func (s *SprayHoursRequest) meaning(tags bool) (feasibility.Mission, []feasibility.Forecast, []Fault) {
	mission, faults := s.mission(tags)
	hours, found := s.forecasts(mission.Field.Ground.Boundary, tags)
	return mission, hours, append(faults, found...)
}

// mission reads the mission as an assessment of the first hour would, without the faults of that hour's
// weather: forecasts finds those.
func (s *SprayHoursRequest) mission(tags bool) (feasibility.Mission, []Fault) {
	inner, own := Request{}, (*Weather)(nil)
	if s.Mission != nil {
		inner, own = *s.Mission, s.Mission.Weather
	}
	inner.Weather = &Weather{}
	if len(s.Hours) > 0 {
		inner.Weather = new(Weather(s.Hours[0]))
	}
	m := &mapper{}
	if tags {
		m.tags(&inner)
	}
	mission := m.mission(Assessments, &inner)
	mission.Weather = nil
	var faults []Fault
	for _, f := range m.once() {
		if !strings.HasPrefix(f.Pointer, "/weather") && (f.Pointer != "/flight/course" || f.Code != FaultConflict) {
			faults = append(faults, f)
		}
	}
	if own != nil {
		m := &mapper{}
		if tags {
			m.structs("/weather", own)
		}
		mission.Weather = m.weather(own)
		faults = append(faults, m.once()...)
	}
	for i := range faults {
		faults[i].Pointer = "/mission" + faults[i].Pointer
	}
	return mission, faults
}

// structs notes every broken rule of a struct, at a place.
func (m *mapper) structs(place string, value any) {
	var broken validator.ValidationErrors
	if err := structRules.Struct(value); !errors.As(err, &broken) {
		return
	}
	for _, b := range broken {
		f := tagFault(b)
		f.Pointer = place + f.Pointer
		m.add(f)
	}
}

// hoursAlone are hours without their mission, whose rules are checked with the first of them.
type hoursAlone struct {
	Hours []HourWeather `json:"hours" validate:"dive"`
}

// forecasts reads the hours: each as the weather of a mission, and all in the order of time.
func (s *SprayHoursRequest) forecasts(boundary []tract.Polygon, tags bool) ([]feasibility.Forecast, []Fault) {
	rules := &mapper{}
	if tags {
		rules.structs("", &hoursAlone{s.Hours})
	}
	faults := rules.faults
	hours := make([]feasibility.Forecast, len(s.Hours))
	places := placeChecker{boundary: boundary}
	var last *time.Time
	for i := range s.Hours {
		m := &mapper{}
		sent := Weather(s.Hours[i])
		w := m.weather(&sent)
		hours[i] = feasibility.Forecast{Weather: *w, HumidityMissing: sent.RelativeHumidity == nil}
		places.check(m, w, &sent)
		if w.At != nil && last != nil && !w.At.After(*last) {
			m.conflict(at("/weather/at"), clip(textOf(sent.At)), "a time after "+last.Format(time.RFC3339),
				"The hours must stand in the order of time, each once. Sort them by at and leave out doubles.")
		} else if w.At != nil {
			last = w.At
		}
		for _, f := range m.once() {
			f.Pointer = "/hours/" + strconv.Itoa(i) + strings.TrimPrefix(f.Pointer, "/weather")
			faults = append(faults, f)
		}
	}
	return hours, faults
}

// placeChecker refuses places of the weather that are far from the field. Most hours have the same.
type placeChecker struct {
	boundary []tract.Polygon
	last     tract.Position
	near     bool
}

func (c *placeChecker) check(m *mapper, w *feasibility.Weather, sent *Weather) {
	if w.Latitude == nil || w.Longitude == nil || len(c.boundary) == 0 {
		return
	}
	position := tract.Position{Longitude: *w.Longitude, Latitude: *w.Latitude}
	if !c.near || position != c.last {
		c.last, c.near = position, near(position, c.boundary, weatherReach)
	}
	if !c.near {
		m.conflict(at("/weather/longitude"), *sent.Longitude, "within 100 km of the field's boundary",
			"The weather's place is far from the field. Check the signs: west and south are negative.")
	}
}

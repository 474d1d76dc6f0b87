package feasibility

import (
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/finding"
)

// CodeLightNotKnown says that nobody can tell whether an hour is day, twilight or night.
const CodeLightNotKnown finding.Code = "light_not_known"

// lightNotKnown finds an hour whose light is not known: such an hour is never good, whatever else is said
// of it. An assessment lists what the dark would ask for as needed.
func (h *hour) lightNotKnown() []finding.Finding {
	if h.light.Phase != daylight.Unknown {
		return nil
	}
	f := finding.Finding{
		Code: CodeLightNotKnown, Severity: finding.Needed, Subject: "/weather/latitude", Source: sourceForecast,
		Message: "The place is missing, so nobody can tell whether this hour is day, twilight or night. " +
			"Send the latitude and longitude, with each hour or in the mission's weather, or the field's boundary.",
	}
	if h.weather.Latitude != nil && h.weather.Longitude != nil {
		f.Subject, f.Message = "/weather/at", "The sun cannot be worked out for this date and place, so nobody can tell whether it is day, twilight or night. Check both and send them again."
	}
	return []finding.Finding{f}
}

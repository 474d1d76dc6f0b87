package feasibility

import (
	"fmt"
	"time"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Own choices for an hour without humidity: how far another hour's air is carried, and what is taken
// where none is near: drier than most hours that labels and extension guides allow, since dry air
// shrinks drops and makes them drift.
const (
	carriedAtMost = 6 * time.Hour
	dryHumidity   = 20 * units.Percent
)

// sourceForecast stands behind what is taken for facts that a forecast leaves out.
var sourceForecast = finding.Source{
	ID:       "forecast-choices",
	Citation: "Choices of this program: from how far off a humidity is carried to an hour without one, what is taken where none is near, how long a forecast speaks for, and how windows are drawn and compared",
	Standing: finding.OwnDesign,
}

// hoursSources lists them.
func hoursSources() []finding.Source { return []finding.Source{sourceForecast} }

// completed fills in what the forecasts leave out, and says what was taken. The humidities taken stand
// beside, nil where one was stated.
func (m Mission) completed(forecasts []Forecast) ([]Weather, []*units.Proportion, []finding.Assumption) {
	var book finding.Ledger
	whole := make([]Weather, len(forecasts))
	taken := make([]*units.Proportion, len(forecasts))
	placed, near, dry := 0, 0, 0
	middle := m.middle()
	for i, f := range forecasts {
		w := f.Weather
		if own := m.Weather; own != nil {
			w.WindHeight = firstStated(w.WindHeight, own.WindHeight)
			if w.Latitude == nil || w.Longitude == nil {
				w.Latitude, w.Longitude = own.Latitude, own.Longitude
			}
		}
		if (w.Latitude == nil || w.Longitude == nil) && middle != nil {
			w.Latitude, w.Longitude = &middle.latitude, &middle.longitude
			placed++
		}
		if f.HumidityMissing {
			from := nearestHumidity(forecasts, i)
			w.RelativeHumidity = dryHumidity
			if from >= 0 {
				w.RelativeHumidity = air.Carried(forecasts[from].RelativeHumidity, forecasts[from].Temperature, w.Temperature)
				near++
			} else {
				dry++
			}
			taken[i] = new(w.RelativeHumidity)
		}
		whole[i] = w
	}
	assume := func(count int, subject, assumed, settle string) {
		if count > 0 {
			book.Assume(subject, fmt.Sprintf(assumed, counted(count, "hour", "hours")), settle, sourceForecast)
		}
	}
	assume(placed, "/weather/latitude", "for %s, the middle of the field's boundary as the place of the weather", "send latitude and longitude with the hours, or in the mission's weather")
	assume(near, "/weather/relative_humidity", "for %s without humidity, the air of the nearest hour that states one, within 6 hours, at the hour's own temperature", "send the relative humidity of every hour")
	assume(dry, "/weather/relative_humidity", "for %s without humidity and none within 6 hours, dry air of 20 percent", "send the relative humidity of every hour")
	return whole, taken, book.Assumptions
}

// firstStated is the first of two facts that was stated.
func firstStated[Q any](first, second *Q) *Q {
	if first != nil {
		return first
	}
	return second
}

// spot is a place for the sun.
type spot struct{ latitude, longitude units.Angle }

// middle is the middle of the field's boundary; nil where there is none.
func (m Mission) middle() *spot {
	low, high, known := m.extent()
	if !known {
		return nil
	}
	return &spot{latitude: (low.Latitude + high.Latitude) / 2, longitude: (low.Longitude + high.Longitude) / 2}
}

// nearestHumidity finds the hour nearest in time that states a humidity, the earlier of two as near; -1
// where none lies within reach. Hours are in the order of time.
func nearestHumidity(forecasts []Forecast, i int) int {
	found, least := -1, carriedAtMost+1
	consider := func(j int) bool {
		apart := forecasts[i].At.Sub(*forecasts[j].At).Abs()
		if apart > carriedAtMost {
			return false
		}
		if !forecasts[j].HumidityMissing && apart < least {
			found, least = j, apart
		}
		return true
	}
	for j := i - 1; j >= 0 && consider(j); j-- {
	}
	for j := i + 1; j < len(forecasts) && consider(j); j++ {
	}
	return found
}

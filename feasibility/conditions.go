package feasibility

import (
	"time"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Standard sea-level air: temperature 288.15 K, falling 6.5 K per kilometer to 11 km.
// Source: U.S. Standard Atmosphere 1976, table 2 and defining constants.
const (
	standardTemperature units.Temperature           = 288.15
	lapsePerKilometer   units.TemperatureDifference = 6.5
)

// light is the daylight at the mission's time and place; the phase is unknown where either was
// not stated.
func (m Mission) light() daylight.Light {
	if m.Weather == nil || m.Weather.At == nil || m.Weather.Latitude == nil || m.Weather.Longitude == nil {
		return daylight.Light{Phase: daylight.Unknown}
	}
	return daylight.At(*m.Weather.At, daylight.Place{
		Latitude: *m.Weather.Latitude, Longitude: *m.Weather.Longitude,
	})
}

// observation is what the air room reads of the mission. The weather must be stated.
func (m Mission) observation(light daylight.Light) air.Observation {
	w := m.Weather
	return air.Observation{
		Temperature:       w.Temperature,
		RelativeHumidity:  w.RelativeHumidity,
		Pressure:          w.Pressure,
		Elevation:         m.Field.Elevation,
		WindSpeed:         w.WindSpeed,
		WindHeight:        w.WindHeight,
		Gust:              w.Gust,
		CropHeight:        m.Field.CropHeight,
		CloudCover:        w.CloudCover,
		InversionObserved: w.InversionObserved,
		Lapse:             w.Lapse,
		Sun:               sun(light, w.At),
	}
}

// sun is what the air needs of the daylight; nil where time or place is unknown.
func sun(light daylight.Light, at *time.Time) *air.Sun {
	if light.Phase == daylight.Unknown || at == nil {
		return nil
	}
	return &air.Sun{
		Elevation:         light.SunElevation,
		NightForStability: light.NightForStability(*at),
		InversionHours:    light.InversionHours(*at),
	}
}

// skyIfStated is the air of the mission, nil where no weather was stated.
func (m Mission) skyIfStated() *air.State {
	if m.Weather == nil {
		return nil
	}
	sky := air.Observe(m.observation(m.light()))
	return &sky
}

// airDensity is the density of the stated weather, else of the standard atmosphere at the field.
func (m Mission) airDensity(sky *air.State) units.Density {
	if sky != nil {
		return sky.Density
	}
	elevation := orElse(m.Field.Elevation, 0)
	drop := units.TemperatureDifference(elevation.In(units.Kilometer)) * lapsePerKilometer
	return air.Observe(air.Observation{
		Temperature: standardTemperature.Plus(-drop),
		Elevation:   m.Field.Elevation,
	}).Density
}

// airReport is what the air room noticed, where there was weather at all.
func airReport(sky *air.State) report {
	if sky == nil {
		return report{assumptions: []finding.Assumption{weatherNotStated()}}
	}
	return report{sky.Findings, sky.Assumptions, sky.Sources}
}

// weatherNotStated is the assumption of the part computations that run without weather.
func weatherNotStated() finding.Assumption {
	return finding.Assumption{
		Subject: "/weather",
		Assumed: "calm air of the standard atmosphere at the field's elevation",
		Settle:  "Send the weather: hot or thin air lowers what the aircraft can lift.",
		Source:  standardAtmosphere,
	}
}

// orElse reads an optional quantity, or the given value where it was not stated.
func orElse[Q any](stated *Q, otherwise Q) Q {
	if stated == nil {
		return otherwise
	}
	return *stated
}

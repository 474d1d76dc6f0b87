package wire

import (
	"tractcheck/feasibility"
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/units"
)

// Weather is the weather at the job.
type Weather struct {
	At                *string   `json:"at,omitzero" validate:"omitempty,max=40"`
	Latitude          *Quantity `json:"latitude,omitzero" validate:"required_with=Longitude"`
	Longitude         *Quantity `json:"longitude,omitzero" validate:"required_with=Latitude"`
	WindSpeed         *Quantity `json:"wind_speed,omitzero"`
	WindHeight        *Quantity `json:"wind_height,omitzero"`
	WindFrom          *Quantity `json:"wind_from,omitzero"`
	Gust              *Quantity `json:"gust,omitzero"`
	Temperature       *Quantity `json:"temperature,omitzero" validate:"required"`
	RelativeHumidity  *Quantity `json:"relative_humidity,omitzero" validate:"required"`
	Pressure          *Quantity `json:"pressure,omitzero"`
	CloudCover        *Quantity `json:"cloud_cover,omitzero"`
	Visibility        *Quantity `json:"visibility,omitzero"`
	CloudBelow        *Quantity `json:"cloud_below,omitzero"`
	CloudSide         *Quantity `json:"cloud_side,omitzero"`
	InversionObserved *bool     `json:"inversion_observed,omitzero"`
	Lapse             *Lapse    `json:"lapse,omitzero"`
}

// Lapse is a measured pair of air temperatures at two heights above ground.
type Lapse struct {
	LowerTemperature *Quantity `json:"lower_temperature,omitzero" validate:"required"`
	UpperTemperature *Quantity `json:"upper_temperature,omitzero" validate:"required"`
	LowerHeight      *Quantity `json:"lower_height,omitzero" validate:"required"`
	UpperHeight      *Quantity `json:"upper_height,omitzero" validate:"required"`
}

func (m *mapper) weather(w *Weather) *feasibility.Weather {
	if w == nil {
		return nil
	}
	out := &feasibility.Weather{
		At:                m.moment(at("/weather/at"), w.At),
		Latitude:          optional[units.Angle](m, at("/weather/latitude"), w.Latitude),
		Longitude:         optional[units.Angle](m, at("/weather/longitude"), w.Longitude),
		WindSpeed:         stated[units.Speed](m, at("/weather/wind_speed"), w.WindSpeed),
		WindHeight:        optional[units.Length](m, at("/weather/wind_height"), w.WindHeight),
		WindFrom:          stated[units.Bearing](m, at("/weather/wind_from"), w.WindFrom),
		Gust:              optional[units.Speed](m, at("/weather/gust"), w.Gust),
		Temperature:       stated[units.Temperature](m, at("/weather/temperature"), w.Temperature),
		RelativeHumidity:  stated[units.Proportion](m, at("/weather/relative_humidity"), w.RelativeHumidity),
		Pressure:          optional[units.AbsolutePressure](m, at("/weather/pressure"), w.Pressure),
		CloudCover:        optional[units.Proportion](m, at("/weather/cloud_cover"), w.CloudCover),
		Visibility:        optional[units.Length](m, at("/weather/visibility"), w.Visibility),
		CloudBelow:        optional[units.Length](m, at("/weather/cloud_below"), w.CloudBelow),
		CloudSide:         optional[units.Length](m, at("/weather/cloud_side"), w.CloudSide),
		InversionObserved: w.InversionObserved,
		Lapse:             m.lapse(w.Lapse),
	}
	if out.Gust != nil && w.WindSpeed != nil && !units.AtLeast(*out.Gust, out.WindSpeed) {
		m.conflict(at("/weather/gust"), *w.Gust, "at least "+sayQuantity(*w.WindSpeed),
			"A gust cannot be slower than the mean wind. Check whether gust and wind_speed are swapped.")
	}
	return out
}

func (m *mapper) lapse(l *Lapse) *air.Lapse {
	if l == nil {
		return nil
	}
	lower := optional[units.Length](m, at("/weather/lapse/lower_height"), l.LowerHeight)
	upper := optional[units.Length](m, at("/weather/lapse/upper_height"), l.UpperHeight)
	below(m, at("/weather/lapse/lower_height"), lower, l.LowerHeight, upper, l.UpperHeight, "upper_height")
	return &air.Lapse{
		LowerTemperature: stated[units.Temperature](m, at("/weather/lapse/lower_temperature"), l.LowerTemperature),
		UpperTemperature: stated[units.Temperature](m, at("/weather/lapse/upper_temperature"), l.UpperTemperature),
		LowerHeight:      valueOf(lower),
		UpperHeight:      valueOf(upper),
	}
}

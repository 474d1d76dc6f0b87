package air

import (
	"fmt"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// CodeWeatherImplausible marks a weather value that cannot occur on farmland. The nearest value
// that can is used in its place, so the answer is not to be relied on until it is put right.
const CodeWeatherImplausible finding.Code = "weather_implausible"

// The spans of weather and field values in which this package computes. They are wider than
// farming needs and no wider than the formulas bear.
var (
	temperatureBounds = bounds[units.Temperature]{units.FromCelsius(-40), units.FromCelsius(60)} // Buck 1996: stated to -40 C over water; own choice above 50 C
	shareBounds       = bounds[units.Proportion]{0, units.Whole}
	pressureBounds    = bounds[units.AbsolutePressure]{50 * units.KilopascalAbsolute, 110 * units.KilopascalAbsolute} // own choice: 5,600 m up, to over any sea-level record
	elevationBounds   = bounds[units.Length]{-450 * units.Meter, 5500 * units.Meter}                                  // own choice: Dead Sea shore to the highest fields
	windBounds        = bounds[units.Speed]{0, 60 * units.MeterPerSecond}                                             // own choice: a strong tropical storm
	windHeightBounds  = bounds[units.Length]{0, 100 * units.Meter}                                                    // own choice: the surface layer in which the profile holds
	cropHeightBounds  = bounds[units.Length]{0, 40 * units.Meter}                                                     // own choice: tall timber
)

// plausible reports the observation with every value held where it can occur, with a finding for
// each value that was moved.
func (n *notes) plausible(o Observation) Observation {
	o.Temperature = held(n, temperatureBounds, o.Temperature, "/weather/temperature", "air temperature", fahrenheit)
	o.RelativeHumidity = held(n, shareBounds, o.RelativeHumidity, "/weather/relative_humidity", "relative humidity", percent)
	o.WindSpeed = held(n, windBounds, o.WindSpeed, "/weather/wind_speed", "wind speed", mph)
	o.Pressure = heldIfStated(n, pressureBounds, o.Pressure, "/weather/pressure", "air pressure", psi)
	o.Elevation = heldIfStated(n, elevationBounds, o.Elevation, "/field/elevation", "field elevation", feet)
	o.WindHeight = heldIfStated(n, windHeightBounds, o.WindHeight, "/weather/wind_height", "height of the wind meter", feet)
	o.CropHeight = heldIfStated(n, cropHeightBounds, o.CropHeight, "/field/crop_height", "crop height", feet)
	o.Gust = heldIfStated(n, windBounds, o.Gust, "/weather/gust", "gust speed", mph)
	o.CloudCover = heldIfStated(n, shareBounds, o.CloudCover, "/weather/cloud_cover", "cloud cover", percent)
	return o
}

// held holds one value within its bounds and says so where it moved.
func held[Q interface {
	~float64
	units.Quantity
}](n *notes, b bounds[Q], q Q, subject, name string, say func(Q, int) string) Q {
	value, moved := b.hold(q)
	if moved {
		sent, used, _ := finding.Apart(q, value, say)
		n.find(finding.Finding{
			Code:     CodeWeatherImplausible,
			Severity: finding.Needed,
			Subject:  subject,
			Message: fmt.Sprintf("The %s of %s cannot be right. Check the number and its unit and send it again. Until then we figured with %s.",
				name, sent, used),
			Measured: q,
			Limit:    value,
			Source:   ownBounds,
		})
	}
	return value
}

// heldIfStated holds a value that may not be stated; what is not stated stays so.
func heldIfStated[Q interface {
	~float64
	units.Quantity
}](n *notes, b bounds[Q], q *Q, subject, name string, say func(Q, int) string) *Q {
	if q == nil {
		return nil
	}
	return new(held(n, b, *q, subject, name, say))
}

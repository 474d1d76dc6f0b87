package air

import "tractcheck/feasibility/units"

// Observation is what is known of the weather at the job; nil means not stated. Whatever is not
// stated makes the State less certain: it is taken as an Assumption says, never as good news.
type Observation struct {
	// Temperature is that of the air, dry bulb, in shade, at about the height of the spray.
	Temperature units.Temperature
	// RelativeHumidity is that over water, from 0 to the whole.
	RelativeHumidity units.Proportion
	// Pressure is station pressure: read at the field, not corrected to sea level.
	Pressure *units.AbsolutePressure
	// Elevation is that of the field above mean sea level.
	Elevation *units.Length
	// WindSpeed is the mean wind, as usual over two to ten minutes, at WindHeight.
	WindSpeed units.Speed
	// WindHeight is that of the wind meter above ground; it means something above the crop only.
	WindHeight *units.Length
	// Gust is the highest gust seen, at the same height.
	Gust *units.Speed
	// CropHeight is zero on bare ground.
	CropHeight *units.Length
	// CloudCover is the covered part of the sky.
	CloudCover *units.Proportion
	// InversionObserved is true where the caller saw one; false says only that none was seen.
	InversionObserved *bool
	// Lapse is two temperatures measured at the field at about the same time.
	Lapse *Lapse
	// Sun is nil where time or place is unknown.
	Sun *Sun
}

// Lapse is a measured pair of air temperatures at two heights above ground. The heights need to
// be a foot apart to tell anything; a pair written down the wrong way round is read rightly.
type Lapse struct {
	LowerTemperature units.Temperature
	UpperTemperature units.Temperature
	LowerHeight      units.Length
	UpperHeight      units.Length
}

// Sun is what the air needs of the daylight.
type Sun struct {
	// Elevation is that of the sun's center above the horizon, negative at night.
	Elevation units.Angle
	// NightForStability is true from one hour before sunset to one hour after sunrise, the
	// "night" of the stability table.
	NightForStability bool
	// InversionHours is true from two hours before sunset to one hour after sunrise, the hours
	// in which inversions are presumed.
	InversionHours bool
}

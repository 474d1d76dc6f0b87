package wire

import "tractcheck/feasibility/units"

// taken takes a quantity apart: its dimension and its amount in SI; nil where its type is not known. It asks
// for the type and calls nothing through the interface, so the compiler can leave the quantity where it
// stands: an answer has hundreds, and each would else be put in memory of its own.
func taken(q units.Quantity) (*dimension, float64) {
	switch q := q.(type) {
	case units.Length:
		return &dimensions[lengthAt], q.SI()
	case units.Area:
		return &dimensions[areaAt], q.SI()
	case units.Volume:
		return &dimensions[volumeAt], q.SI()
	case units.Angle:
		return &dimensions[angleAt], q.SI()
	case units.Bearing:
		return &dimensions[angleAt], q.SI()
	case units.Mass:
		return &dimensions[massAt], q.SI()
	case units.Force:
		return &dimensions[forceAt], q.SI()
	case units.Density:
		return &dimensions[densityAt], q.SI()
	case units.Flow:
		return &dimensions[flowAt], q.SI()
	case units.ApplicationRate:
		return &dimensions[applicationRateAt], q.SI()
	case units.Pressure:
		return &dimensions[pressureAt], q.SI()
	case units.AbsolutePressure:
		return &dimensions[pressureAt], q.SI()
	case units.SurfaceTension:
		return &dimensions[surfaceTensionAt], q.SI()
	case units.Speed:
		return &dimensions[speedAt], q.SI()
	case units.Duration:
		return &dimensions[timeAt], q.SI()
	case units.RotationRate:
		return &dimensions[rotationAt], q.SI()
	case units.AreaRate:
		return &dimensions[areaRateAt], q.SI()
	case units.Energy:
		return &dimensions[energyAt], q.SI()
	case units.Power:
		return &dimensions[powerAt], q.SI()
	case units.Money:
		return &dimensions[moneyAt], q.SI()
	case units.AreaCost:
		return &dimensions[areaCostAt], q.SI()
	case units.Proportion:
		return &dimensions[proportionAt], q.SI()
	case units.Temperature:
		return &dimensions[temperatureAt], q.SI()
	case units.TemperatureDifference:
		return &dimensions[temperatureDifferenceAt], q.SI()
	case units.Count:
		return &dimensions[countAt], q.SI()
	default:
		return nil, 0
	}
}

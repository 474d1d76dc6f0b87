package wire

import "tractcheck/feasibility/units"

// The places of the dimensions in their table.
const (
	massAt = iota
	volumeAt
	lengthAt
	areaAt
	speedAt
	pressureAt
	flowAt
	applicationRateAt
	densityAt
	surfaceTensionAt
	temperatureAt
	temperatureDifferenceAt
	energyAt
	powerAt
	forceAt
	timeAt
	angleAt
	rotationAt
	proportionAt
	areaRateAt
	moneyAt
	areaCostAt
	countAt
)

// dimensions are the unit codes of the wire, closed per dimension, in the order of the contract.
// The constants behind the codes, and their sources, are those of feasibility/units.
var dimensions = []dimension{
	massAt: {name: units.DimensionMass, us: "lb", si: "kg", units: []unit{
		scaled("lb", units.Pound), scaled("kg", units.Kilogram), scaled("g", units.Gram),
	}},
	volumeAt: {name: units.DimensionVolume, us: "gal", si: "L", units: []unit{
		scaled("gal", units.Gallon), scaled("L", units.Liter),
		scaled("mL", units.Milliliter), scaled("fl_oz", units.FluidOunce),
	}},
	lengthAt: {name: units.DimensionLength, us: "ft", si: "m", units: []unit{
		scaled("ft", units.Foot), scaled("m", units.Meter), scaled("in", units.Inch),
		scaled("cm", units.Centimeter), scaled("mi", units.Mile), scaled("km", units.Kilometer),
		scaled("um", units.Micrometer),
	}},
	areaAt: {name: units.DimensionArea, us: "ac", si: "ha", units: []unit{
		scaled("ac", units.Acre), scaled("ha", units.Hectare), scaled("m2", units.SquareMeter),
	}},
	speedAt: {name: units.DimensionSpeed, us: "mph", si: "m/s", units: []unit{
		scaled("mph", units.MilePerHour), scaled("m/s", units.MeterPerSecond),
		scaled("km/h", units.KilometerPerHour), scaled("kn", units.Knot),
	}},
	pressureAt: {name: units.DimensionPressure, us: "psi", si: "bar", units: []unit{
		scaled("psi", units.PoundPerSquareInch), scaled("bar", units.Bar), scaled("kPa", units.Kilopascal),
	}},
	flowAt: {name: units.DimensionFlow, us: "gal/min", si: "L/min", units: []unit{
		scaled("gal/min", units.GallonPerMinute), scaled("L/min", units.LiterPerMinute),
	}},
	applicationRateAt: {name: units.DimensionApplicationRate, us: "gal/ac", si: "L/ha", units: []unit{
		scaled("gal/ac", units.GallonPerAcre), scaled("L/ha", units.LiterPerHectare),
	}},
	densityAt: {name: units.DimensionDensity, us: "lb/gal", si: "kg/L", units: []unit{
		scaled("lb/gal", units.PoundPerGallon), scaled("kg/L", units.KilogramPerLiter),
	}},
	surfaceTensionAt: {name: units.DimensionSurfaceTension, us: "mN/m", si: "mN/m", units: []unit{
		scaled("mN/m", units.MillinewtonPerMeter),
	}},
	temperatureAt: {name: units.DimensionTemperature, us: "degF", si: "degC", units: []unit{
		{
			code: "degF",
			toSI: func(value float64) float64 { return units.FromFahrenheit(value).SI() },
			from: func(si float64) float64 { return units.Temperature(si).Fahrenheit() },
		},
		{
			code: "degC",
			toSI: func(value float64) float64 { return units.FromCelsius(value).SI() },
			from: func(si float64) float64 { return units.Temperature(si).Celsius() },
		},
	}},
	// A difference of temperatures has codes of its own: 10 degC of difference are 18 degF, while a
	// temperature of 10 degC is 50 degF.
	temperatureDifferenceAt: {name: units.DimensionTemperatureDifference, us: "delta_degF", si: "delta_degC", units: []unit{
		scaled("delta_degF", units.FahrenheitDifference), scaled("delta_degC", units.KelvinDifference),
	}},
	energyAt: {name: units.DimensionEnergy, us: "Wh", si: "Wh", units: []unit{
		scaled("Wh", units.WattHour), scaled("kWh", units.KilowattHour),
	}},
	powerAt: {name: units.DimensionPower, us: "W", si: "W", units: []unit{
		scaled("W", units.Watt), scaled("kW", units.Kilowatt), scaled("hp", units.Horsepower),
	}},
	forceAt: {name: units.DimensionForce, us: "N", si: "N", units: []unit{scaled("N", units.Newton)}},
	timeAt: {name: units.DimensionTime, us: "min", si: "min", units: []unit{
		scaled("s", units.Second), scaled("min", units.Minute), scaled("h", units.Hour),
	}},
	angleAt: {name: units.DimensionAngle, us: "deg", si: "deg", units: []unit{scaled("deg", units.Degree)}},
	rotationAt: {name: units.DimensionRotation, us: "rpm", si: "rpm", units: []unit{
		scaled("rpm", units.RevolutionPerMinute),
	}},
	proportionAt: {name: units.DimensionProportion, us: "%", si: "%", units: []unit{scaled("%", units.Percent)}},
	areaRateAt: {name: units.DimensionAreaRate, us: "ac/h", si: "ha/h", units: []unit{
		scaled("ac/h", units.AcrePerHour), scaled("ha/h", units.HectarePerHour),
	}},
	moneyAt: {name: units.DimensionMoney, us: "USD", si: "USD", units: []unit{scaled("USD", units.Dollar)}},
	areaCostAt: {name: units.DimensionAreaCost, us: "USD/ac", si: "USD/ha", units: []unit{
		scaled("USD/ac", units.DollarPerAcre), scaled("USD/ha", units.DollarPerHectare),
	}},
	countAt: {name: units.DimensionCount, us: "count", si: "count", units: []unit{scaled("count", units.Count(1))}},
}

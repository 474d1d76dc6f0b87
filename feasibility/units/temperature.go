package units

// Temperature is an absolute thermodynamic temperature, in kelvins. The zero value is absolute
// zero. Celsius and Fahrenheit are affine, so they are constructors and readers, never factors.
type Temperature float64

// FromCelsius makes a temperature from degrees Celsius.
func FromCelsius(degrees float64) Temperature { return Temperature(degrees + 273.15) }

// FromFahrenheit makes a temperature from degrees Fahrenheit: K = (F + 459.67)/1.8, exact.
func FromFahrenheit(degrees float64) Temperature { return Temperature((degrees + 459.67) / 1.8) }

// Celsius reads the temperature in degrees Celsius.
func (q Temperature) Celsius() float64 { return float64(q) - 273.15 }

// Fahrenheit reads the temperature in degrees Fahrenheit.
func (q Temperature) Fahrenheit() float64 { return float64(q)*1.8 - 459.67 }

// Minus reports the difference between two temperatures.
func (q Temperature) Minus(other Temperature) TemperatureDifference {
	return TemperatureDifference(q - other)
}

// Plus reports the temperature that lies a difference away.
func (q Temperature) Plus(d TemperatureDifference) Temperature { return q + Temperature(d) }

// SI reports the bare value in kelvins.
func (q Temperature) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Temperature) Dimension() Dimension { return DimensionTemperature }

// String prints the value in degrees Celsius.
func (q Temperature) String() string { return text(q.Celsius(), "degC") }

// TemperatureDifference is a difference of temperatures, in kelvins (equal to Celsius degrees).
type TemperatureDifference float64

// Units of TemperatureDifference.
const (
	KelvinDifference     TemperatureDifference = 1
	FahrenheitDifference                       = KelvinDifference / 1.8
)

// In reports the value in the given unit.
func (q TemperatureDifference) In(unit TemperatureDifference) float64 {
	return float64(q) / float64(unit)
}

// SI reports the bare value in kelvins.
func (q TemperatureDifference) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q TemperatureDifference) Dimension() Dimension { return DimensionTemperatureDifference }

// String prints the value in kelvins.
func (q TemperatureDifference) String() string { return text(float64(q), "K") }

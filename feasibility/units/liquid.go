package units

// Flow is volume per time, in cubic meters per second.
type Flow float64

// Units of Flow; factors are exact unless the comment says otherwise.
const (
	CubicMeterPerSecond Flow = 1
	LiterPerMinute           = Flow(float64(Liter) / 60)
	GallonPerMinute          = Flow(float64(Gallon) / 60)
)

// In reports the value in the given unit.
func (q Flow) In(unit Flow) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in cubic meters per second.
func (q Flow) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Flow) Dimension() Dimension { return DimensionFlow }

// String prints the value in cubic meters per second, with its unit.
func (q Flow) String() string { return text(float64(q), "m3/s") }

// During reports the volume that flows in a time.
func (q Flow) During(t Duration) Volume { return Volume(float64(q) * float64(t)) }

// Time reports how long a volume takes to flow; flow must be positive.
func (q Flow) Time(v Volume) Duration { return Duration(float64(v) / float64(q)) }

// ApplicationRate is spray volume per ground area, in cubic meters per square meter.
type ApplicationRate float64

// Units of ApplicationRate; factors are exact unless the comment says otherwise.
const (
	CubicMeterPerSquareMeter ApplicationRate = 1
	LiterPerHectare                          = ApplicationRate(float64(Liter) / float64(Hectare))
	GallonPerAcre                            = ApplicationRate(float64(Gallon) / float64(Acre)) // 9.353956 L/ha
)

// In reports the value in the given unit.
func (q ApplicationRate) In(unit ApplicationRate) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in cubic meters per square meter.
func (q ApplicationRate) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q ApplicationRate) Dimension() Dimension { return DimensionApplicationRate }

// String prints the value in cubic meters per square meter, with its unit.
func (q ApplicationRate) String() string { return text(float64(q), "m3/m2") }

// Over reports the volume that an area takes at this rate.
func (q ApplicationRate) Over(a Area) Volume { return Volume(float64(q) * float64(a)) }

// Covers reports the area that a volume covers; rate must be positive.
func (q ApplicationRate) Covers(v Volume) Area { return Area(float64(v) / float64(q)) }

// Flow reports the flow that holds this rate at a ground speed over a swath:
// GPM = GPA x MPH x ft / 495 in US units (Mesa County, Stationary calibration method for boom sprayers).
func (q ApplicationRate) Flow(ground Speed, swath Length) Flow {
	return Flow(float64(q) * float64(ground) * float64(swath))
}

// Pressure is gauge pressure of a liquid, in pascals.
type Pressure float64

// Units of Pressure; factors are exact unless the comment says otherwise.
const (
	Pascal             Pressure = 1
	Kilopascal                  = 1000 * Pascal
	Bar                         = 1e5 * Pascal
	PoundPerSquareInch          = Pascal * 4.4482216152605 / (0.0254 * 0.0254) // pound-force per square inch; NIST SP 811 (2008) B.8
)

// In reports the value in the given unit.
func (q Pressure) In(unit Pressure) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in pascals.
func (q Pressure) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Pressure) Dimension() Dimension { return DimensionPressure }

// String prints the value in pascals, with its unit.
func (q Pressure) String() string { return text(float64(q), "Pa") }

// AbsolutePressure is pressure of the air, measured from vacuum, in pascals.
type AbsolutePressure float64

// Units of AbsolutePressure; factors are exact unless the comment says otherwise.
const (
	PascalAbsolute             AbsolutePressure = 1
	KilopascalAbsolute                          = 1000 * PascalAbsolute
	BarAbsolute                                 = 1e5 * PascalAbsolute
	PoundPerSquareInchAbsolute                  = AbsolutePressure(float64(PoundPerSquareInch))
)

// In reports the value in the given unit.
func (q AbsolutePressure) In(unit AbsolutePressure) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in pascals.
func (q AbsolutePressure) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q AbsolutePressure) Dimension() Dimension { return DimensionPressure }

// String prints the value in pascals, with its unit.
func (q AbsolutePressure) String() string { return text(float64(q), "Pa") }

// SurfaceTension is force per length of a liquid surface, in newtons per meter.
type SurfaceTension float64

// Units of SurfaceTension; factors are exact unless the comment says otherwise.
const (
	NewtonPerMeter      SurfaceTension = 1
	MillinewtonPerMeter                = NewtonPerMeter / 1000
)

// In reports the value in the given unit.
func (q SurfaceTension) In(unit SurfaceTension) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in newtons per meter.
func (q SurfaceTension) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q SurfaceTension) Dimension() Dimension { return DimensionSurfaceTension }

// String prints the value in newtons per meter, with its unit.
func (q SurfaceTension) String() string { return text(float64(q), "N/m") }

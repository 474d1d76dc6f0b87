package units

// Mass is an amount of matter, in kilograms.
type Mass float64

// Units of Mass; factors are exact unless the comment says otherwise.
const (
	Kilogram Mass = 1
	Gram          = Kilogram / 1000
	Pound         = 0.45359237 * Kilogram // NIST SP 811 (2008) B.8, exact by definition
)

// In reports the value in the given unit.
func (q Mass) In(unit Mass) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in kilograms.
func (q Mass) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Mass) Dimension() Dimension { return DimensionMass }

// String prints the value in kilograms, with its unit.
func (q Mass) String() string { return text(float64(q), "kg") }

// Weight reports the force of standard gravity on the mass.
func (q Mass) Weight() Force { return Force(float64(q) * StandardGravity) }

// Force is a push or a pull, in newtons.
type Force float64

// Units of Force; factors are exact unless the comment says otherwise.
const (
	Newton Force = 1
)

// In reports the value in the given unit.
func (q Force) In(unit Force) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in newtons.
func (q Force) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Force) Dimension() Dimension { return DimensionForce }

// String prints the value in newtons, with its unit.
func (q Force) String() string { return text(float64(q), "N") }

// Density is mass per volume, in kilograms per cubic meter.
type Density float64

// Units of Density; factors are exact unless the comment says otherwise.
const (
	KilogramPerCubicMeter Density = 1
	KilogramPerLiter              = 1000 * KilogramPerCubicMeter
	PoundPerGallon                = Density(float64(Pound) / float64(Gallon)) // exact ratio of exact constants
)

// In reports the value in the given unit.
func (q Density) In(unit Density) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in kilograms per cubic meter.
func (q Density) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Density) Dimension() Dimension { return DimensionDensity }

// String prints the value in kilograms per cubic meter, with its unit.
func (q Density) String() string { return text(float64(q), "kg/m3") }

// Mass reports the mass of a volume at this density.
func (q Density) Mass(v Volume) Mass { return Mass(float64(q) * float64(v)) }

// Volume reports the volume that a mass fills at this density; density must be positive.
func (q Density) Volume(m Mass) Volume { return Volume(float64(m) / float64(q)) }

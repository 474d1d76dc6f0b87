package units

// Energy is work or heat, in joules.
type Energy float64

// Units of Energy; factors are exact unless the comment says otherwise.
const (
	Joule        Energy = 1
	WattHour            = 3600 * Joule
	KilowattHour        = 1000 * WattHour
)

// In reports the value in the given unit.
func (q Energy) In(unit Energy) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in joules.
func (q Energy) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Energy) Dimension() Dimension { return DimensionEnergy }

// String prints the value in joules, with its unit.
func (q Energy) String() string { return text(float64(q), "J") }

// Over reports the mean power when the energy is spent in a time; the time must be positive.
func (q Energy) Over(t Duration) Power { return Power(float64(q) / float64(t)) }

// Power is energy per time, in watts.
type Power float64

// Units of Power; factors are exact unless the comment says otherwise.
const (
	Watt       Power = 1
	Kilowatt         = 1000 * Watt
	Horsepower       = 745.69987158227022 * Watt // 550 ft lbf/s; NIST SP 811 (2008) B.8
)

// In reports the value in the given unit.
func (q Power) In(unit Power) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in watts.
func (q Power) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Power) Dimension() Dimension { return DimensionPower }

// String prints the value in watts, with its unit.
func (q Power) String() string { return text(float64(q), "W") }

// During reports the energy spent in a time.
func (q Power) During(t Duration) Energy { return Energy(float64(q) * float64(t)) }

// Time reports how long an energy lasts; power must be positive.
func (q Power) Time(e Energy) Duration { return Duration(float64(e) / float64(q)) }

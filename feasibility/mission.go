package feasibility

import (
	"time"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// Mission is one job as the caller states it. A nil pointer is a fact that was not stated; it is
// never read as good news. Assess needs every part; the part functions say which they need.
type Mission struct {
	Aircraft    *Aircraft
	SpraySystem *SpraySystem
	Load        Load
	Flight      *Flight
	Field       Field
	Weather     *Weather
	Operation   *Operation
	Crew        crew.Crew

	MayChange []Knob // what a remedy may change; everything where nil, nothing where empty
	Scales    Scales // the units the caller writes in
}

// Aircraft is the machine flown.
type Aircraft struct {
	Label            string
	Count            *units.Count // machines flown; 1 where not stated
	EmptyWeight      units.Mass   // airframe, tank empty, no battery
	Battery          Battery
	OtherOnboard     *units.Mass
	TankCapacity     units.Volume
	MaxTakeoffWeight units.Mass
	Rotors           *flight.Rotors
	EmptyEndurance   *units.Duration // measured hover, tank empty
	FullEndurance    *units.Duration // measured hover, at the maximum takeoff weight
	DragArea         *units.Area
	Sensing          Sensing
}

// Battery is one battery of the aircraft.
type Battery struct {
	Weight  units.Mass
	Energy  units.Energy
	Usable  *units.Proportion
	OnBoard *units.Count // 1 where not stated
}

// HeightSensor is how the aircraft senses its height above the crop.
type HeightSensor string

// The height sensors.
const (
	RadarHeight HeightSensor = "radar"
	LaserHeight HeightSensor = "laser"
	NoHeight    HeightSensor = "none"
)

// Sensing is what the aircraft can sense.
type Sensing struct {
	Obstacle  *bool
	Height    *HeightSensor
	TankLevel *bool
	Resume    *bool
	Camera    *bool
}

// SpraySystem is the atomizers and the pump.
type SpraySystem struct {
	System      spray.System
	Spacing     *units.Length
	UnderRotors *bool // nil: placement not stated; false: on a boom
}

// Load is what the tank holds and what for.
type Load struct {
	Fill            *units.Volume
	Density         *units.Density
	ApplicationRate units.ApplicationRate
	SurfaceTension  *units.SurfaceTension
	Pesticide       bool
	Label           permits.Label
}

// Flight is how the aircraft is flown.
type Flight struct {
	Speed     units.Speed
	Height    units.Length // above the crop
	Swath     units.Length
	Course    *units.Bearing
	Crosswind *bool
	TurnTime  *units.Duration
	Headlands *units.Count // passes round the edge; nil: none
}

// Field is the ground and what lies around it.
type Field struct {
	Ground     tract.Field
	Elevation  *units.Length
	CropHeight *units.Length
	Crop       *string // crop, commodity or site, for the application record
	Neighbors  []drift.Neighbor
}

// Weather is the weather at the job.
type Weather struct {
	At                *time.Time
	Latitude          *units.Angle
	Longitude         *units.Angle
	WindSpeed         units.Speed
	WindHeight        *units.Length
	WindFrom          units.Bearing
	Gust              *units.Speed
	Temperature       units.Temperature
	RelativeHumidity  units.Proportion
	Pressure          *units.AbsolutePressure
	CloudCover        *units.Proportion
	Visibility        *units.Length
	CloudBelow        *units.Length
	CloudSide         *units.Length
	InversionObserved *bool
	Lapse             *air.Lapse
}

// Operation is who flies, where and under what authority.
type Operation struct {
	Country           string
	Purpose           permits.Purpose
	Airspace          permits.Airspace
	LineOfSight       bool
	VisualObservers   *units.Count
	RemotePilots      *units.Count
	OverPeople        bool
	CongestedArea     bool
	OverWater         *bool
	UsePattern        *permits.UsePattern
	Applicator        permits.Applicator // for the application record
	EmployeesNear     *bool
	Holds             []string
	Expiries          []permits.Expiry
	Dispenses         *permits.Dispenses
	Hazmat            *bool
	OwnInterest       *bool
	Paid              *bool
	Alaska            *bool
	Lights3SM         *bool
	NightTrained      *bool
	MovingVehicles    *bool
	FromVehicle       *bool
	State             *string
	WPSSite           *bool
	ForeignRegistered *bool
	OnApprovedList    *bool
	ApprovedWeight    *units.Mass

	// Facts that single rules ask for beside the common ones; see permits.Facts.
	NearAirport             *bool
	ProhibitedArea          *bool
	FlightRestriction       *bool
	SparselyPopulated       *bool
	GrantHeight             *units.Length
	GrantDistance           *units.Length
	NearestPerson           *units.Length
	HiredHandlers           *bool
	HiredWorkers            *bool
	CertificateChange       *bool
	BaseMoves               *bool
	StateConfirmsUnmanned   *bool
	StateAsksAerialCategory *bool
}

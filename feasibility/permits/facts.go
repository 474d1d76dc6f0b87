package permits

import (
	"slices"
	"time"

	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// Purpose is why the aircraft flies.
type Purpose string

// The purposes.
const (
	Commercial Purpose = "commercial"
	Private    Purpose = "private"
	Public     Purpose = "public"
)

// Airspace is the class of the airspace over the field.
type Airspace string

// The airspace classes.
const (
	AirspaceG        Airspace = "G"
	AirspaceESurface Airspace = "E-surface"
	AirspaceD        Airspace = "D"
	AirspaceC        Airspace = "C"
	AirspaceB        Airspace = "B"
	AirspaceUnknown  Airspace = "unknown"
)

// Dispenses is what leaves the tank, in the words of 14 CFR 137.3.
type Dispenses string

// The things dispensed.
const (
	EconomicPoison   Dispenses = "economic_poison"
	Nourishment      Dispenses = "nourishment"
	SoilTreatment    Dispenses = "soil_treatment"
	Seed             Dispenses = "seed"
	PestControlOther Dispenses = "pest_control_other"
	LiveInsects      Dispenses = "live_insects"
	WaterTest        Dispenses = "water_test"
	OtherDispensed   Dispenses = "other"
)

// UsePattern is the kind of use, as far as water law asks. The four beside field use are the patterns
// of the general discharge permit (state summaries: Iowa DNR; Alabama).
type UsePattern string

// The use patterns.
const (
	FieldUse      UsePattern = "field"          // crops, pasture and other ground that is not at water
	MosquitoUse   UsePattern = "mosquito"       // mosquitoes and other flying insects
	AquaticWeed   UsePattern = "aquatic_weed"   // weeds or algae at water
	AquaticAnimal UsePattern = "aquatic_animal" // animals at water
	ForestCanopy  UsePattern = "forest_canopy"  // pests in the canopy of a forest
)

// AtWater reports whether the use is a pattern of the general discharge permit.
func (p UsePattern) AtWater() bool {
	return slices.Contains([]UsePattern{MosquitoUse, AquaticWeed, AquaticAnimal, ForestCanopy}, p)
}

// Expiry is the last day on which something held is valid.
type Expiry struct {
	ID   string
	Date time.Time
}

// Facts is everything the table asks about a mission. A nil pointer is a fact not stated: a row
// that needs it answers unknown. So does a zero quantity, an empty droplet class or an empty
// airspace, because a caller who asks for the checklist alone sends no flight and no weather.
type Facts struct {
	Country           string // ISO 3166-1 alpha-2; the table is for US; empty is taken as US and said
	At                *time.Time
	TakeoffWeight     units.Mass
	Small             bool // strictly under 55 lb, as the takeoff room decided
	Dispenses         *Dispenses
	Pesticide         bool
	Hazmat            *bool
	Purpose           Purpose
	OwnInterest       *bool
	Paid              *bool
	Airspace          Airspace
	Phase             daylight.Phase
	Alaska            *bool
	Lights3SM         *bool
	NightTrained      *bool
	HeightAGL         units.Length
	HighestAGL        units.Length // the most HeightAGL can be where the crop height was not stated; else zero
	Groundspeed       units.Speed
	Visibility        *units.Length
	CloudBelow        *units.Length // clearance below cloud
	CloudSide         *units.Length
	LineOfSight       bool
	VisualObservers   *units.Count
	RemotePilots      *units.Count
	Aircraft          units.Count // flown at once; 0 is not stated
	OverPeople        bool
	MovingVehicles    *bool
	FromVehicle       *bool
	CongestedArea     *bool
	OverWater         *bool // the spray goes over water, or the use is one of UsePattern's at water
	UsePattern        *UsePattern
	EmployeesNear     *bool
	State             *string
	WPSSite           *bool
	ForeignRegistered *bool
	OnApprovedList    *bool
	ApprovedWeight    *units.Mass
	Label             Label
	Rate              units.ApplicationRate
	WindSpeed         units.Speed
	DropletClass      spray.Class // as computed or declared
	ReleaseHeight     units.Length
	Neighbors         []Neighbor // nil is not stated; empty and not nil is none
	Holds             []string
	Expiries          []Expiry

	// OtherSide is a takeoff weight on the other side of the 55 lb line that the job may have as well,
	// because what Unweighed points at was not stated; nil where the side is settled.
	OtherSide *units.Mass
	Unweighed []string

	// Facts that single rows ask for beside the common ones.
	CalmMeasured            bool          // WindSpeed 0 is a measured calm, not a missing wind
	CloudFree               *bool         // the sky holds no cloud; answers a cloud clearance not stated
	NearAirport             *bool         // airport, heliport or seaplane base close by
	ProhibitedArea          *bool         // field inside a prohibited or restricted area
	FlightRestriction       *bool         // a temporary restriction or notice covers place and time
	SparselyPopulated       *bool         // for flying from a moving vehicle
	GrantHeight             *units.Length // ceiling written in the caller's own grant
	GrantDistance           *units.Length // distance from people written in the caller's own grant
	NearestPerson           *units.Length // nearest person not taking part
	HiredHandlers           *bool         // hired people mix, load or apply
	HiredWorkers            *bool         // hired people work on the establishment
	CertificateChange       *bool         // a term of the operator certificate is about to change
	BaseMoves               *bool         // the home base is about to move
	StateAsksAerialCategory *bool         // the state asks for an aerial category for this product and applicator
	StateConfirmsUnmanned   *bool         // the state reads an aerial label as covering unmanned aircraft
}

// Neighbor is a place next to the field, for the buffer and exclusion rows.
type Neighbor struct {
	Kind     string
	Distance units.Length
	Downwind bool
}

// name is the neighbor in words.
func (n Neighbor) name() string {
	if n.Kind == "other" {
		return "place"
	}
	return n.Kind
}

// Label is what the product label says; nil is not stated.
type Label struct {
	AerialAllowed, UnmannedAllowed   *bool
	MinRate                          *units.ApplicationRate
	MaxWind, MinWind                 *units.Speed
	DropletClassMin, DropletClassMax *spray.Class
	DownwindBuffer                   *units.Length
	RestrictedUse                    *bool
	RestrictedEntry                  *units.Duration
	MaxReleaseHeight                 *units.Length
	BulletinRequired                 *bool
	WPSLabel                         *bool
	BoomShare                        *units.Proportion // spray width as a share of the wing or rotor

	// For the application record; no row asks for them.
	Brand                 *string
	EPARegistrationNumber *string
	ProductRate           *units.ApplicationRate // product, undiluted, per ground area of this job
}

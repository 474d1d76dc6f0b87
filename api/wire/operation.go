package wire

import (
	"slices"

	"tractcheck/feasibility"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/units"
)

// Operation is who flies, where and under what authority.
type Operation struct {
	Country                 *string   `json:"country,omitzero" validate:"required,len=2,alpha,uppercase"`
	Purpose                 *string   `json:"purpose,omitzero" validate:"required,oneof=commercial private public"`
	Airspace                *string   `json:"airspace,omitzero" validate:"required,oneof=G E-surface D C B unknown"`
	LineOfSight             *bool     `json:"line_of_sight,omitzero" validate:"required"`
	VisualObservers         *Whole    `json:"visual_observers,omitzero" validate:"omitempty,min=0,max=100"`
	RemotePilots            *Whole    `json:"remote_pilots,omitzero" validate:"omitempty,min=1,max=100"`
	OverPeople              *bool     `json:"over_people,omitzero" validate:"required"`
	CongestedArea           *bool     `json:"congested_area,omitzero" validate:"required"`
	OverWater               *bool     `json:"over_water,omitzero"`
	UsePattern              *string   `json:"use_pattern,omitzero" validate:"omitempty,oneof=field mosquito aquatic_weed aquatic_animal forest_canopy"`
	EmployeesNear           *bool     `json:"employees_near,omitzero"`
	Holds                   []string  `json:"holds,omitzero" validate:"max=200,dive,min=1,max=100"`
	Expiries                []Expiry  `json:"expiries,omitzero" validate:"max=200,dive"`
	Dispenses               *string   `json:"dispenses,omitzero" validate:"omitempty,oneof=economic_poison nourishment soil_treatment seed pest_control_other live_insects water_test other"`
	Hazmat                  *bool     `json:"hazmat,omitzero"`
	OwnInterest             *bool     `json:"own_interest,omitzero"`
	Paid                    *bool     `json:"paid,omitzero"`
	Alaska                  *bool     `json:"alaska,omitzero"`
	Lights3SM               *bool     `json:"lights_3sm,omitzero"`
	NightTrained            *bool     `json:"night_trained,omitzero"`
	MovingVehicles          *bool     `json:"moving_vehicles,omitzero"`
	FromVehicle             *bool     `json:"from_vehicle,omitzero"`
	State                   *string   `json:"state,omitzero" validate:"omitempty,len=2,alpha,uppercase"`
	WPSSite                 *bool     `json:"wps_site,omitzero"`
	ForeignRegistered       *bool     `json:"foreign_registered,omitzero"`
	OnApprovedList          *bool     `json:"on_approved_list,omitzero"`
	ApprovedWeight          *Quantity `json:"approved_weight,omitzero"`
	NearAirport             *bool     `json:"near_airport,omitzero"`
	ProhibitedArea          *bool     `json:"prohibited_area,omitzero"`
	FlightRestriction       *bool     `json:"flight_restriction,omitzero"`
	SparselyPopulated       *bool     `json:"sparsely_populated,omitzero"`
	GrantHeight             *Quantity `json:"grant_height,omitzero"`
	GrantDistance           *Quantity `json:"grant_people_distance,omitzero"`
	NearestPerson           *Quantity `json:"nearest_person,omitzero"`
	HiredHandlers           *bool     `json:"hired_handlers,omitzero"`
	HiredWorkers            *bool     `json:"hired_workers,omitzero"`
	CertificateChange       *bool     `json:"certificate_change,omitzero"`
	BaseMoves               *bool     `json:"base_moves,omitzero"`
	StateConfirmsUnmanned   *bool     `json:"state_confirms_unmanned,omitzero"`
	StateAsksAerialCategory *bool     `json:"state_asks_aerial_category,omitzero"`

	Applicator *Applicator `json:"applicator,omitzero"`
}

// Applicator is the certified applicator who answers for the job.
type Applicator struct {
	Name        *string `json:"name,omitzero" validate:"omitempty,min=1,max=100"`
	Certificate *string `json:"certificate_number,omitzero" validate:"omitempty,min=1,max=60"`
}

// Expiry is the last day on which something held is valid.
type Expiry struct {
	ID   *string `json:"id,omitzero" validate:"required,min=1,max=100"`
	Date *string `json:"date,omitzero" validate:"required,max=40"`
}

func (m *mapper) operation(o *Operation) *feasibility.Operation {
	if o == nil {
		return nil
	}
	return &feasibility.Operation{
		Country:                 textOf(o.Country),
		Purpose:                 permits.Purpose(textOf(o.Purpose)),
		Airspace:                permits.Airspace(textOf(o.Airspace)),
		LineOfSight:             flagOf(o.LineOfSight),
		VisualObservers:         countOf(o.VisualObservers),
		RemotePilots:            countOf(o.RemotePilots),
		OverPeople:              flagOf(o.OverPeople),
		CongestedArea:           flagOf(o.CongestedArea),
		OverWater:               o.OverWater,
		UsePattern:              codeOf[permits.UsePattern](o.UsePattern),
		Applicator:              applicator(o.Applicator),
		EmployeesNear:           o.EmployeesNear,
		Holds:                   slices.Clone(o.Holds),
		Expiries:                m.expiries(o.Expiries),
		Dispenses:               codeOf[permits.Dispenses](o.Dispenses),
		Hazmat:                  o.Hazmat,
		OwnInterest:             o.OwnInterest,
		Paid:                    o.Paid,
		Alaska:                  o.Alaska,
		Lights3SM:               o.Lights3SM,
		NightTrained:            o.NightTrained,
		MovingVehicles:          o.MovingVehicles,
		FromVehicle:             o.FromVehicle,
		State:                   o.State,
		WPSSite:                 o.WPSSite,
		ForeignRegistered:       o.ForeignRegistered,
		OnApprovedList:          o.OnApprovedList,
		ApprovedWeight:          optional[units.Mass](m, at("/operation/approved_weight"), o.ApprovedWeight),
		NearAirport:             o.NearAirport,
		ProhibitedArea:          o.ProhibitedArea,
		FlightRestriction:       o.FlightRestriction,
		SparselyPopulated:       o.SparselyPopulated,
		GrantHeight:             optional[units.Length](m, at("/operation/grant_height"), o.GrantHeight),
		GrantDistance:           optional[units.Length](m, at("/operation/grant_people_distance"), o.GrantDistance),
		NearestPerson:           optional[units.Length](m, at("/operation/nearest_person"), o.NearestPerson),
		HiredHandlers:           o.HiredHandlers,
		HiredWorkers:            o.HiredWorkers,
		CertificateChange:       o.CertificateChange,
		BaseMoves:               o.BaseMoves,
		StateConfirmsUnmanned:   o.StateConfirmsUnmanned,
		StateAsksAerialCategory: o.StateAsksAerialCategory,
	}
}

func applicator(a *Applicator) permits.Applicator {
	if a == nil {
		return permits.Applicator{}
	}
	return permits.Applicator{Name: a.Name, Certificate: a.Certificate}
}

// expiries reads the dates; the same id with two dates is a contradiction.
func (m *mapper) expiries(rows []Expiry) []permits.Expiry {
	var out []permits.Expiry
	seen := make(map[string]bool, len(rows))
	for i, row := range rows {
		place := atIndex("/operation/expiries/*", i)
		date := m.date(place.member("date"), row.Date)
		id := textOf(row.ID)
		if id != "" && seen[id] {
			m.conflict(place.member("id"), clip(id), "each id once", "This id is listed twice. Keep the date that is right.")
		}
		seen[id] = true
		if date != nil {
			out = append(out, permits.Expiry{ID: id, Date: *date})
		}
	}
	return out
}

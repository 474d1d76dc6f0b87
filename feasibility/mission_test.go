package feasibility_test

import (
	"time"

	"tractcheck/feasibility"
	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// leveeStrip is an invented mission: a small machine on a narrow strip, in good weather, with
// every paper held. Each test changes what it is about.
func leveeStrip() feasibility.Mission {
	at := time.Date(2026, time.June, 12, 14, 40, 0, 0, time.UTC)
	return feasibility.Mission{
		Aircraft: &feasibility.Aircraft{
			Label:            "invented",
			EmptyWeight:      24 * units.Pound,
			Battery:          feasibility.Battery{Weight: 10.5 * units.Pound, Energy: 800 * units.WattHour, Usable: new(units.Proportion(0.8))},
			OtherOnboard:     new(units.Mass(0)),
			TankCapacity:     2.6 * units.Gallon,
			MaxTakeoffWeight: 56 * units.Pound,
			Rotors:           &flight.Rotors{Count: 4, Diameter: 30 * units.Inch},
		},
		SpraySystem: &feasibility.SpraySystem{
			System: spray.System{
				Atomizer: spray.HydraulicAtomizer,
				Count:    4,
				Hydraulic: &spray.Hydraulic{
					Type:          spray.PreOrifice,
					RatedFlow:     0.15 * units.GallonPerMinute,
					RatedPressure: 40 * units.PoundPerSquareInch,
					MinPressure:   new(15 * units.PoundPerSquareInch),
					MaxPressure:   new(60 * units.PoundPerSquareInch),
					FanAngle:      new(110 * units.Degree),
				},
				Pump: &spray.Pump{MaxFlow: 1.6 * units.GallonPerMinute, MaxPressure: 70 * units.PoundPerSquareInch},
			},
			UnderRotors: new(true),
		},
		Load: feasibility.Load{
			Fill:            new(2 * units.Gallon),
			Density:         new(8.345 * units.PoundPerGallon),
			ApplicationRate: 2 * units.GallonPerAcre,
			Pesticide:       true,
			Label: permits.Label{
				AerialAllowed: new(true), UnmannedAllowed: new(true), RestrictedUse: new(false),
				BulletinRequired: new(false), WPSLabel: new(true),
				MaxWind: new(10 * units.MilePerHour), MinWind: new(3 * units.MilePerHour),
				MinRate: new(2 * units.GallonPerAcre), MaxReleaseHeight: new(10 * units.Foot),
			},
		},
		Flight: &feasibility.Flight{
			Speed: 10 * units.MilePerHour, Height: 8 * units.Foot, Swath: 13 * units.Foot,
			Crosswind: new(true), TurnTime: new(5 * units.Second),
		},
		Field: feasibility.Field{
			Ground:     tract.Field{Area: new(40 * units.Acre), FerryDistance: new(250 * units.Foot)},
			Elevation:  new(130 * units.Foot),
			CropHeight: new(1.5 * units.Foot),
			Neighbors: []drift.Neighbor{{
				Kind: "crop", Distance: 400 * units.Foot, Bearing: 45 * units.BearingDegree, Tolerance: new(1 * units.Percent),
			}},
		},
		Weather: &feasibility.Weather{
			At: &at, Latitude: new(33.42 * units.Degree), Longitude: new(-90.85 * units.Degree),
			WindSpeed: 5 * units.MilePerHour, WindHeight: new(10 * units.Foot), WindFrom: 225 * units.BearingDegree,
			Gust: new(7 * units.MilePerHour), Temperature: units.FromFahrenheit(76), RelativeHumidity: 0.66,
			CloudCover: new(units.Proportion(0.3)), Visibility: new(10 * units.Mile),
			CloudBelow: new(4000 * units.Foot), CloudSide: new(1 * units.Mile), InversionObserved: new(false),
		},
		Operation: &feasibility.Operation{
			Country: "US", Purpose: permits.Commercial, Airspace: permits.AirspaceG, LineOfSight: true,
			VisualObservers: new(units.Count(1)), RemotePilots: new(units.Count(1)),
			OverWater: new(false), EmployeesNear: new(false), Holds: heldPapers(),
			Dispenses: new(permits.EconomicPoison), Hazmat: new(true), Paid: new(true), Alaska: new(false),
			MovingVehicles: new(false), FromVehicle: new(false), State: new("MS"), WPSSite: new(false),
			ForeignRegistered: new(false),
		},
		Crew: crew.Crew{
			People: new(units.Count(2)), Batteries: new(units.Count(4)), Chargers: new(units.Count(2)),
			ChargeTime: new(14 * units.Minute), BatterySwapTime: new(1 * units.Minute), RefillTime: new(90 * units.Second),
			Generator: new(9 * units.Kilowatt), WorkHours: new(9 * units.Hour),
		},
	}
}

// heldPapers holds everything the rules table could ask of a small commercial job.
func heldPapers() []string {
	return []string{
		"exemption-small-agricultural", "hazmat-relief", "agricultural-operator-certificate:commercial",
		"knowledge-and-skill-test", "registration-small", "remote-id", "remote-pilot-certificate",
		"recurrent-training", "aerial-category", "state-applicator-license", "restricted-use-certification",
		"handler-training",
	}
}

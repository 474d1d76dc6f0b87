package permits

import (
	"time"

	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// fullJob is an invented commercial pesticide job, at 51 lb or at 80 lb, with every fact stated and
// nothing held; the tests change one thing at a time.
func fullJob(large bool) Facts {
	f := Facts{
		Country: "US", At: new(time.Date(2026, time.December, 1, 16, 0, 0, 0, time.UTC)),
		TakeoffWeight: 51 * units.Pound, Small: true, Pesticide: true, Dispenses: new(EconomicPoison),
		Hazmat: new(true), Purpose: Commercial, OwnInterest: new(false), Paid: new(true),
		Airspace: AirspaceG, Phase: daylight.Day, Alaska: new(false), Lights3SM: new(true), NightTrained: new(true),
		HeightAGL: 15 * units.Foot, Groundspeed: 12 * units.MilePerHour, Visibility: new(10 * units.Mile),
		CloudBelow: new(5000 * units.Foot), CloudSide: new(5000 * units.Foot), CloudFree: new(false),
		LineOfSight: true, VisualObservers: new(units.Count(0)), RemotePilots: new(units.Count(1)), Aircraft: 1,
		MovingVehicles: new(false), FromVehicle: new(false), CongestedArea: new(false), OverWater: new(false),
		EmployeesNear: new(false), State: new("Invented State"), WPSSite: new(true), ForeignRegistered: new(false),
		OnApprovedList: new(true), ApprovedWeight: new(100 * units.Pound),
		Rate: 3 * units.GallonPerAcre, WindSpeed: 5 * units.MilePerHour, DropletClass: spray.Coarse, ReleaseHeight: 9 * units.Foot,
		Label:       fullLabel(),
		Neighbors:   []Neighbor{{Kind: "dwelling", Distance: 300 * units.Foot, Downwind: true}},
		NearAirport: new(false), ProhibitedArea: new(false), FlightRestriction: new(false), SparselyPopulated: new(true),
		GrantHeight: new(200 * units.Foot), GrantDistance: new(100 * units.Foot), NearestPerson: new(300 * units.Foot),
		HiredHandlers: new(true), HiredWorkers: new(true), CertificateChange: new(false), BaseMoves: new(false),
	}
	if large {
		f.TakeoffWeight, f.Small = 80*units.Pound, false
	}
	return f
}

// fullLabel is an invented label with every limit stated.
func fullLabel() Label {
	return Label{
		AerialAllowed: new(true), UnmannedAllowed: new(true), MinRate: new(2 * units.GallonPerAcre),
		MaxWind: new(10 * units.MilePerHour), MinWind: new(2 * units.MilePerHour),
		DropletClassMin: new(spray.Medium), DropletClassMax: new(spray.VeryCoarse), DownwindBuffer: new(50 * units.Foot),
		RestrictedUse: new(false), RestrictedEntry: new(12 * units.Hour), MaxReleaseHeight: new(10 * units.Foot),
		BulletinRequired: new(false), WPSLabel: new(true),
	}
}

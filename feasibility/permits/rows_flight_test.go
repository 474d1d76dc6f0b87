package permits

import (
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/units"
)

// flightRowCases is the cases of airspace, grant, light, people, weather and dispensing.
func flightRowCases() []rowCase {
	return []rowCase{
		{"airspace-authorization", false, func(f *Facts) { f.Airspace = AirspaceESurface }, NeededNow},
		{"airspace-authorization", false, func(f *Facts) { f.Airspace = AirspaceESurface; f.Holds = []string{"airspace-authorization"} }, Held},
		{"airspace-authorization", false, func(f *Facts) { f.Airspace = AirspaceG }, NotNeeded},
		{"airspace-authorization", false, func(f *Facts) { f.Airspace = "" }, Unknown},
		{"airspace-authorization", true, func(f *Facts) { f.Airspace = AirspaceD }, NotNeeded},
		{"dispensing-in-airport-surface-area", false, func(f *Facts) { f.Airspace = AirspaceD }, NeededNow},
		{"dispensing-in-airport-surface-area", false, func(f *Facts) { f.Airspace = AirspaceD; f.Holds = []string{"dispensing-in-airport-surface-area"} }, Held},
		{"dispensing-in-airport-surface-area", false, func(f *Facts) { f.Airspace = AirspaceC }, NotNeeded},
		{"dispensing-in-airport-surface-area", false, func(f *Facts) { f.Airspace = AirspaceUnknown }, Unknown},
		{"dispensing-in-airport-surface-area", false, func(f *Facts) { f.Airspace = AirspaceESurface }, NotNeeded},
		{"dispensing-in-airport-surface-area", false, func(f *Facts) { f.Airspace, f.Visibility = AirspaceESurface, new(2*units.Mile) }, NeededNow},
		{"dispensing-in-airport-surface-area", false, func(f *Facts) { f.Airspace, f.Visibility = AirspaceESurface, nil }, Unknown},
		{"prohibited-restricted-area", false, func(f *Facts) { f.ProhibitedArea = new(true) }, NeededNow},
		{"prohibited-restricted-area", false, func(f *Facts) { f.ProhibitedArea = new(true); f.Holds = []string{"prohibited-restricted-area"} }, Held},
		{"prohibited-restricted-area", false, func(f *Facts) { f.ProhibitedArea = new(false) }, NotNeeded},
		{"prohibited-restricted-area", false, func(f *Facts) { f.ProhibitedArea = nil }, Unknown},
		{"notice-restrictions", false, func(f *Facts) {}, NotNeeded},
		{"notice-restrictions", false, func(f *Facts) { f.FlightRestriction = new(true) }, NeededNow},
		{"notice-restrictions", false, func(f *Facts) { f.FlightRestriction = new(true); f.Holds = []string{"waiver:notice-restrictions"} }, Held},
		{"notice-restrictions", false, func(f *Facts) { f.FlightRestriction = nil }, Unknown},
		{"airport-vicinity", false, func(f *Facts) { f.NearAirport = new(true) }, NeededNow},
		{"airport-vicinity", false, func(f *Facts) { f.NearAirport = new(true); f.Holds = []string{"airport-vicinity"} }, Held},
		{"airport-vicinity", false, func(f *Facts) { f.NearAirport = new(false) }, NotNeeded},
		{"airport-vicinity", false, func(f *Facts) { f.NearAirport = nil }, Unknown},
		{"airport-vicinity", false, func(f *Facts) { f.Airspace, f.NearAirport = AirspaceD, nil }, NeededNow},
		{"grant-groundspeed", true, func(f *Facts) {}, NotNeeded},
		{"grant-groundspeed", true, func(f *Facts) { f.Groundspeed = 41 * units.MilePerHour }, NeededNow},
		{"grant-groundspeed", true, func(f *Facts) { f.Groundspeed = 41 * units.MilePerHour; f.Holds = []string{"waiver:grant-groundspeed"} }, Held},
		{"grant-groundspeed", true, func(f *Facts) { f.Groundspeed = 0 }, Unknown},
		{"grant-groundspeed", true, func(f *Facts) { f.Groundspeed = 40 * units.MilePerHour }, NotNeeded},
		{"grant-groundspeed", false, func(f *Facts) {}, NotNeeded},
		{"grant-airspace", true, func(f *Facts) {}, NotNeeded},
		{"grant-airspace", true, func(f *Facts) { f.Airspace = AirspaceD }, NeededNow},
		{"grant-airspace", true, func(f *Facts) { f.Airspace = AirspaceD; f.Holds = []string{"waiver:grant-airspace"} }, Held},
		{"grant-airspace", true, func(f *Facts) { f.Airspace = AirspaceUnknown }, Unknown},
		{"grant-people-distance", true, func(f *Facts) {}, NotNeeded},
		{"grant-people-distance", true, func(f *Facts) { f.OverPeople = true }, NeededNow},
		{"grant-people-distance", true, func(f *Facts) { f.OverPeople = true; f.Holds = []string{"waiver:grant-people-distance"} }, Held},
		{"grant-people-distance", true, func(f *Facts) { f.GrantDistance = nil }, Unknown},
		{"grant-people-distance", true, func(f *Facts) { f.OverPeople = true; f.GrantDistance = nil }, NeededNow},
		{"grant-people-distance", true, func(f *Facts) { f.NearestPerson = nil }, Unknown},
		{"grant-people-distance", true, func(f *Facts) { f.NearestPerson = new(90 * units.Foot) }, NeededNow},
		{"grant-height", true, func(f *Facts) {}, NotNeeded},
		{"grant-height", true, func(f *Facts) { f.HeightAGL = 201 * units.Foot }, NeededNow},
		{"grant-height", true, func(f *Facts) { f.HeightAGL = 201 * units.Foot; f.Holds = []string{"waiver:grant-height"} }, Held},
		{"grant-height", true, func(f *Facts) { f.GrantHeight = nil }, Unknown},
		{"grant-height", true, func(f *Facts) { f.HeightAGL = 0 }, Unknown},
		{"night-training", false, func(f *Facts) {}, NotNeeded},
		{"night-training", false, func(f *Facts) { f.Phase = daylight.Night }, Held},
		{"night-training", false, func(f *Facts) { f.Phase = daylight.Night; f.NightTrained = new(false) }, NeededNow},
		{"night-training", false, func(f *Facts) { f.Phase = daylight.Night; f.NightTrained = nil }, Unknown},
		{"night-training", false, func(f *Facts) { f.Phase = daylight.Night; f.NightTrained = nil; f.Holds = []string{"night-training"} }, Held},
		{"night-training", false, func(f *Facts) {
			f.Phase = daylight.Night
			f.NightTrained = new(false)
			f.Holds = []string{"waiver:night-training"}
		}, NeededNow},
		{"night-training", false, func(f *Facts) { f.Phase = daylight.Unknown }, Unknown},
		{"night-training", false, func(f *Facts) { f.Phase, f.At = "", nil }, Unknown},
		{"night-lights", false, func(f *Facts) {}, NotNeeded},
		{"night-lights", false, func(f *Facts) { f.Phase = daylight.Night; f.Lights3SM = new(false) }, NeededNow},
		{"night-lights", false, func(f *Facts) {
			f.Phase = daylight.Night
			f.Lights3SM = new(false)
			f.Holds = []string{"waiver:night-lights"}
		}, Held},
		{"night-lights", false, func(f *Facts) { f.Phase = daylight.Night; f.Lights3SM = nil }, Unknown},
		{"night-lights", false, func(f *Facts) { f.Phase = daylight.Night }, NotNeeded},
		{"night-lights", false, func(f *Facts) { f.Phase, f.Lights3SM = daylight.Unknown, nil }, Unknown},
		{"night-lights", true, func(f *Facts) { f.Phase = daylight.Night; f.Lights3SM = nil }, NotNeeded},
		{"twilight-lights", false, func(f *Facts) {}, NotNeeded},
		{"twilight-lights", false, func(f *Facts) { f.Phase = daylight.Twilight; f.Lights3SM = new(false) }, NeededNow},
		{"twilight-lights", false, func(f *Facts) {
			f.Phase = daylight.Twilight
			f.Lights3SM = new(false)
			f.Holds = []string{"waiver:twilight-lights"}
		}, Held},
		{"twilight-lights", false, func(f *Facts) { f.Phase = daylight.Twilight; f.Lights3SM = nil }, Unknown},
		{"twilight-lights", false, func(f *Facts) { f.Phase = daylight.Unknown }, NotNeeded},
		{"twilight-lights", false, func(f *Facts) { f.Phase = daylight.Twilight; f.Lights3SM, f.Alaska = new(false), new(true) }, NeededNow},
		{"over-people", false, func(f *Facts) {}, NotNeeded},
		{"over-people", false, func(f *Facts) { f.OverPeople = true }, NeededNow},
		{"over-people", false, func(f *Facts) { f.OverPeople = true; f.Holds = []string{"waiver:over-people"} }, Held},
		{"over-people", true, func(f *Facts) { f.OverPeople = true }, NotNeeded},
		{"over-moving-vehicles", false, func(f *Facts) {}, NotNeeded},
		{"over-moving-vehicles", false, func(f *Facts) { f.MovingVehicles = new(true) }, NeededNow},
		{"over-moving-vehicles", false, func(f *Facts) { f.MovingVehicles = new(true); f.Holds = []string{"waiver:over-moving-vehicles"} }, Held},
		{"over-moving-vehicles", false, func(f *Facts) { f.MovingVehicles = nil }, Unknown},
		{"from-moving-vehicle", false, func(f *Facts) {}, NotNeeded},
		{"from-moving-vehicle", false, func(f *Facts) { f.FromVehicle = new(true); f.SparselyPopulated = new(false) }, NeededNow},
		{"from-moving-vehicle", false, func(f *Facts) {
			f.FromVehicle = new(true)
			f.SparselyPopulated = new(false)
			f.Holds = []string{"waiver:from-moving-vehicle"}
		}, Held},
		{"from-moving-vehicle", false, func(f *Facts) { f.FromVehicle, f.SparselyPopulated = new(true), nil }, Unknown},
		{"from-moving-vehicle", false, func(f *Facts) { f.FromVehicle, f.SparselyPopulated, f.CongestedArea = new(true), nil, new(true) }, NeededNow},
		{"from-moving-vehicle", false, func(f *Facts) { f.FromVehicle, f.SparselyPopulated = nil, nil }, Unknown},
		{"from-moving-vehicle", false, func(f *Facts) { f.FromVehicle = new(true) }, NotNeeded},
		{"from-moving-vehicle", false, func(f *Facts) { f.FromVehicle, f.CongestedArea = new(true), nil }, Unknown},
		{"groundspeed-limit", false, func(f *Facts) {}, NotNeeded},
		{"groundspeed-limit", false, func(f *Facts) { f.Groundspeed = 100.1 * units.MilePerHour }, NeededNow},
		{"groundspeed-limit", false, func(f *Facts) {
			f.Groundspeed = 100.1 * units.MilePerHour
			f.Holds = []string{"waiver:groundspeed-limit"}
		}, Held},
		{"groundspeed-limit", false, func(f *Facts) { f.Groundspeed = 0 }, Unknown},
		{"groundspeed-limit", false, func(f *Facts) { f.Groundspeed = 100 * units.MilePerHour }, NotNeeded},
		{"height-limit", false, func(f *Facts) {}, NotNeeded},
		{"height-limit", false, func(f *Facts) { f.HeightAGL = 400.1 * units.Foot }, NeededNow},
		{"height-limit", false, func(f *Facts) { f.HeightAGL = 400.1 * units.Foot; f.Holds = []string{"waiver:height-limit"} }, Held},
		{"height-limit", false, func(f *Facts) { f.HeightAGL = 0 }, Unknown},
		{"height-limit", false, func(f *Facts) { f.HeightAGL = 400 * units.Foot }, NotNeeded},
		{"visibility", false, func(f *Facts) {}, NotNeeded},
		{"visibility", false, func(f *Facts) { f.Visibility = new(2.99 * units.Mile) }, NeededNow},
		{"visibility", false, func(f *Facts) { f.Visibility = new(2.99 * units.Mile); f.Holds = []string{"waiver:visibility"} }, Held},
		{"visibility", false, func(f *Facts) { f.Visibility = nil }, Unknown},
		{"visibility", false, func(f *Facts) { f.Visibility = new(3 * units.Mile) }, NotNeeded},
		{"cloud-clearance", false, func(f *Facts) {}, NotNeeded},
		{"cloud-clearance", false, func(f *Facts) { f.CloudBelow = new(499 * units.Foot) }, NeededNow},
		{"cloud-clearance", false, func(f *Facts) { f.CloudBelow = new(499 * units.Foot); f.Holds = []string{"waiver:cloud-clearance"} }, Held},
		{"cloud-clearance", false, func(f *Facts) { f.CloudBelow = nil }, Unknown},
		{"cloud-clearance", false, func(f *Facts) { f.CloudSide = new(1999 * units.Foot) }, NeededNow},
		{"cloud-clearance", false, func(f *Facts) { f.CloudBelow, f.CloudSide = new(500*units.Foot), new(2000*units.Foot) }, NotNeeded},
		{"cloud-clearance", false, func(f *Facts) { f.CloudBelow, f.CloudSide, f.CloudFree = nil, nil, new(true) }, NotNeeded},
		{"cloud-clearance", false, func(f *Facts) { f.CloudSide, f.CloudFree = nil, nil }, Unknown},
		{"no-hazard-dispensing", false, func(f *Facts) {}, NeededNow},
		{"no-hazard-dispensing", false, func(f *Facts) { f.Holds = []string{"no-hazard-dispensing"} }, Held},
		{"no-hazard-dispensing", false, func(f *Facts) { f.Pesticide = false; f.Dispenses = new(WaterTest) }, NotNeeded},
		{"no-hazard-dispensing", false, func(f *Facts) { f.Pesticide = false; f.Dispenses = nil }, Unknown},
		{"low-flight-permission", false, func(f *Facts) {}, NotNeeded},
		{"congested-area-approval", false, func(f *Facts) { f.CongestedArea = new(true) }, NeededNow},
		{"congested-area-approval", false, func(f *Facts) { f.CongestedArea = new(true); f.Holds = []string{"congested-area-approval"} }, Held},
		{"congested-area-approval", false, func(f *Facts) { f.CongestedArea = new(false) }, NotNeeded},
		{"congested-area-approval", false, func(f *Facts) { f.CongestedArea = nil }, Unknown},
		{"congested-area-approval", false, func(f *Facts) { f.CongestedArea = new(true); f.Purpose = Private }, NotNeeded},
		{"congested-area-pilot-aircraft", false, func(f *Facts) { f.CongestedArea = new(true) }, NeededNow},
		{"congested-area-pilot-aircraft", false, func(f *Facts) { f.CongestedArea = new(true); f.Holds = []string{"congested-area-pilot-aircraft"} }, Held},
		{"congested-area-pilot-aircraft", false, func(f *Facts) { f.CongestedArea = new(false) }, NotNeeded},
		{"congested-area-pilot-aircraft", false, func(f *Facts) { f.CongestedArea = nil }, Unknown},
		{"congested-area-pilot-aircraft", false, func(f *Facts) { f.CongestedArea = new(true); f.Purpose = Private }, NotNeeded},
	}
}

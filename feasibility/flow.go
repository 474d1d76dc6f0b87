package feasibility

import (
	"slices"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// takeoffInput is what the takeoff room reads; sky is nil where no weather was stated.
func (m Mission) takeoffInput(sky *air.State) takeoff.Input {
	in := takeoff.Input{
		Aircraft: takeoff.Aircraft{
			EmptyWeight:      m.Aircraft.EmptyWeight,
			BatteryWeight:    m.Aircraft.Battery.Weight,
			BatteriesOnBoard: orElse(m.Aircraft.Battery.OnBoard, 0), // not stated: the room says what it takes
			OtherOnboard:     m.Aircraft.OtherOnboard,
			TankCapacity:     m.Aircraft.TankCapacity,
			MaxTakeoffWeight: m.Aircraft.MaxTakeoffWeight,
		},
		Load:         takeoff.Load{Fill: m.Load.Fill, Density: m.Load.Density},
		LargeAllowed: m.largeAllowed(),
	}
	if o := m.Operation; o != nil {
		in.PublicAgency, in.LineElsewhere = o.Purpose == permits.Public, !permits.Covers(o.Country)
	}
	if sky != nil {
		in.Air = &takeoff.Air{DensityRatio: sky.DensityRatio, DensityAltitude: sky.DensityAltitude}
	}
	return in
}

// largeAllowed reports whether the caller holds, on the day of the job, what allows a takeoff at
// 55 lb and over.
func (m Mission) largeAllowed() bool {
	if m.Operation == nil {
		return false
	}
	facts := m.operationFacts()
	if m.Weather != nil {
		facts.At = m.Weather.At
	}
	return permits.AllowsLarge(facts)
}

// liquid is the weight of a mission without an aircraft: only the density of the liquid counts.
func (m Mission) liquid() takeoff.Result {
	return takeoff.Result{Density: orElse(m.Load.Density, takeoff.Water)}
}

// sprayJob is what the spray room is asked to do.
func (m Mission) sprayJob(weight takeoff.Result) spray.Job {
	return spray.Job{
		Rate:           m.Load.ApplicationRate,
		Speed:          m.Flight.Speed,
		Swath:          m.Flight.Swath,
		Density:        weight.Density,
		SurfaceTension: m.Load.SurfaceTension,
	}
}

// rateIfStated is the spray of a mission that states enough for it, else nil.
func (m Mission) rateIfStated(weight takeoff.Result) *spray.Result {
	if m.SpraySystem == nil || m.Flight == nil || m.Load.ApplicationRate == 0 {
		return nil
	}
	rate := spray.Hold(m.SpraySystem.System, m.sprayJob(weight))
	return &rate
}

// machine is what the power model needs of the aircraft.
func (m Mission) machine() flight.Machine {
	a := m.Aircraft
	onBoard := orElse(a.Battery.OnBoard, 1)
	ready := a.EmptyWeight + units.Mass(onBoard)*a.Battery.Weight + orElse(a.OtherOnboard, 0)
	return flight.Machine{
		Rotors:         a.Rotors,
		BatteryEnergy:  units.Energy(onBoard) * a.Battery.Energy,
		UsableShare:    a.Battery.Usable,
		DragArea:       a.DragArea,
		EmptyEndurance: a.EmptyEndurance,
		FullEndurance:  a.FullEndurance,
		EmptyMass:      ready,
		FullMass:       max(a.MaxTakeoffWeight, ready),
	}
}

// flightHeight is the height above ground: the release height and the crop under it.
func (m Mission) flightHeight() units.Length {
	return m.Flight.Height + orElse(m.Field.CropHeight, air.DefaultCropHeight)
}

// tractJob is how the field is to be flown.
func (m Mission) tractJob(sky *air.State, weight takeoff.Result, power flight.Model) tract.Job {
	liquid := weight.Density.Mass(weight.Fill)
	job := tract.Job{
		Swath:             m.Flight.Swath,
		Speed:             m.Flight.Speed,
		Height:            m.flightHeight(),
		Course:            m.Flight.Course,
		Crosswind:         m.Flight.Crosswind,
		TurnTime:          m.Flight.TurnTime,
		Headland:          orElse(m.Flight.Headlands, 0),
		Rate:              m.Load.ApplicationRate,
		Fill:              weight.Fill,
		FillBoundByWeight: fillBoundByWeight(m, weight),
		Density:           weight.Density,
		DryMass:           max(0, weight.Total-liquid),
		Aircraft:          orElse(m.Aircraft.Count, 1),
		Power:             power,
	}
	if sky != nil {
		job.WindFrom = m.Weather.WindFrom
		job.WindSpeed = sky.WindAt(job.Height)
		job.Clear = m.clear()
	}
	return job
}

// clear lists the strips that keep the label's buffer between the last swath and the neighbors that
// lie downwind nearer than that. In calm air there is no downwind side to leave.
func (m Mission) clear() []tract.Clear {
	buffer := m.Load.Label.DownwindBuffer
	if buffer == nil || !(m.Weather.WindSpeed > 0) {
		return nil
	}
	var strips []tract.Clear
	for i, n := range m.Field.Neighbors {
		if n.LiesDownwind(m.Weather.WindFrom) && !units.AtLeast(n.Distance, *buffer) {
			strips = append(strips, tract.Clear{
				Neighbor: units.Count(i), Kind: n.Words(), Bearing: n.Bearing, Distance: n.Distance, Buffer: *buffer,
			})
		}
	}
	return strips
}

// neighbors lists the neighbors with their distance from the last swath: the stated one, and the
// strip that the plan leaves unsprayed.
func (m Mission) neighbors(plan *tract.Plan) []drift.Neighbor {
	if plan == nil || len(plan.Cleared) == 0 {
		return m.Field.Neighbors
	}
	list := slices.Clone(m.Field.Neighbors)
	for _, c := range plan.Cleared {
		list[c.Neighbor].Distance = c.Buffer
	}
	return list
}

// fillBoundByWeight says whether a weight limit, not the tank, keeps the fill where it is; nil
// where the caller chose the fill, for a reason that was not stated.
func fillBoundByWeight(m Mission, weight takeoff.Result) *bool {
	if m.Load.Fill != nil && units.StrictlyBelow(*m.Load.Fill, weight.LargestFill.Volume) {
		return nil
	}
	bound := weight.LargestFill.BoundBy != takeoff.TankCapacity
	return &bound
}

// crewInput is what the crew room reads.
func (m Mission) crewInput(light daylight.Light, plan tract.Plan) crew.Input {
	in := crew.Input{
		Crew:           m.Crew,
		Plan:           plan,
		Aircraft:       orElse(m.Aircraft.Count, 1),
		BatteryEnergy:  units.Energy(orElse(m.Aircraft.Battery.OnBoard, 1)) * m.Aircraft.Battery.Energy,
		BatteriesInSet: orElse(m.Aircraft.Battery.OnBoard, 1),
	}
	in.Elevation = m.Field.Elevation
	if m.Weather != nil {
		in.Temperature = &m.Weather.Temperature
	}
	if m.Operation != nil {
		in.RemotePilots, in.Observers = m.Operation.RemotePilots, m.Operation.VisualObservers
	}
	if light.Sunrise != nil && light.Sunset != nil {
		span := units.Duration(light.Sunset.Sub(*light.Sunrise).Seconds()) * units.Second
		in.Daylight = &span
	}
	return in
}

// tallestCrop is the tallest crop the contract admits, 300 ft: what the height of a crop that was not
// stated may come to. Own choice.
const tallestCrop = 300 * units.Foot

// permitFacts is everything the rules table asks; rate and risk are nil where not worked out.
func (m Mission) permitFacts(light daylight.Light, weight takeoff.Result, rate *spray.Result, risk *drift.Result, plan *tract.Plan) permits.Facts {
	f := m.operationFacts()
	f.TakeoffWeight, f.Small = weight.Total, weight.Small
	f.OtherSide, f.Unweighed = m.otherSide(weight)
	f.Aircraft = orElse(m.Aircraft.Count, 0) // not stated: the table cannot tell how many fly at once
	f.Phase = light.Phase
	f.Pesticide, f.Label, f.Rate = m.Load.Pesticide, m.Load.Label, m.Load.ApplicationRate
	if rate != nil {
		f.DropletClass = rate.Droplet.Class
	}
	if m.Flight != nil {
		f.HeightAGL, f.Groundspeed = m.flightHeight(), m.Flight.Speed
		f.ReleaseHeight = m.Flight.Height
		if m.Field.CropHeight == nil {
			f.HighestAGL = m.Flight.Height + tallestCrop
		}
	}
	if w := m.Weather; w != nil {
		f.At, f.WindSpeed = w.At, w.WindSpeed
		f.Visibility, f.CloudBelow, f.CloudSide = w.Visibility, w.CloudBelow, w.CloudSide
		f.CalmMeasured = w.WindSpeed == 0
		if w.CloudCover != nil {
			free := *w.CloudCover == 0
			f.CloudFree = &free
		}
	}
	if m.Field.Neighbors != nil {
		f.Neighbors = make([]permits.Neighbor, 0, len(m.Field.Neighbors)) // stated: perhaps none
	}
	for i, n := range m.neighbors(plan) {
		// Without a drift computation every neighbor counts as downwind.
		downwind := risk == nil || i >= len(risk.AtNeighbors) || risk.AtNeighbors[i].Downwind
		f.Neighbors = append(f.Neighbors, permits.Neighbor{Kind: n.Kind, Distance: n.Distance, Downwind: downwind})
	}
	return f
}

// operationFacts is the part of the facts that the caller states under operation.
func (m Mission) operationFacts() permits.Facts {
	o := m.Operation
	return permits.Facts{
		Country: o.Country, Purpose: o.Purpose, Airspace: o.Airspace,
		LineOfSight: o.LineOfSight, VisualObservers: o.VisualObservers, RemotePilots: o.RemotePilots,
		OverPeople: o.OverPeople, CongestedArea: &o.CongestedArea, OverWater: o.OverWater, UsePattern: o.UsePattern,
		EmployeesNear: o.EmployeesNear, Holds: o.Holds, Expiries: o.Expiries,
		Dispenses: o.Dispenses, Hazmat: o.Hazmat, OwnInterest: o.OwnInterest, Paid: o.Paid,
		Alaska: o.Alaska, Lights3SM: o.Lights3SM, NightTrained: o.NightTrained,
		MovingVehicles: o.MovingVehicles, FromVehicle: o.FromVehicle, State: o.State, WPSSite: o.WPSSite,
		ForeignRegistered: o.ForeignRegistered, OnApprovedList: o.OnApprovedList, ApprovedWeight: o.ApprovedWeight,
		NearAirport:           o.NearAirport,
		ProhibitedArea:        o.ProhibitedArea,
		FlightRestriction:     o.FlightRestriction,
		SparselyPopulated:     o.SparselyPopulated,
		GrantHeight:           o.GrantHeight,
		GrantDistance:         o.GrantDistance,
		NearestPerson:         o.NearestPerson,
		HiredHandlers:         o.HiredHandlers,
		HiredWorkers:          o.HiredWorkers,
		CertificateChange:     o.CertificateChange,
		BaseMoves:             o.BaseMoves,
		StateConfirmsUnmanned: o.StateConfirmsUnmanned, StateAsksAerialCategory: o.StateAsksAerialCategory,
	}
}

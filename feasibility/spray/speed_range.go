package spray

import "tractcheck/feasibility/units"

// speedFor reports the ground speed at which a total flow holds the rate over the swath.
func speedFor(total units.Flow, job Job) units.Speed {
	// v = Q/(rate x swath), SI; in US units mph = 495 gal/min / (gal/ac x ft): Mesa County.
	return units.Speed(total.SI() / (job.Rate.SI() * job.Swath.SI()))
}

// speedAt reports the ground speed at which the nozzles at pressure p hold the rate. Speed goes
// with the square root of pressure: Iowa State University news 844.
func (n nozzles) speedAt(p units.Pressure) units.Speed {
	return speedFor(units.Flow(n.count)*n.nozzle.FlowAt(p, n.job.Density), n.job)
}

// speedRange reports the speeds that hold the rate, and what bounds each end.
func (n nozzles) speedRange() SpeedRange {
	top, bound := n.limits.ceiling()
	if !units.AtLeast(top, n.limits.low.pressure) {
		return SpeedRange{LowestBound: BoundNozzlePressure, HighestBound: bound}
	}
	return SpeedRange{
		Lowest: n.speedAt(n.limits.low.pressure), LowestBound: BoundNozzlePressure,
		Highest: n.speedAt(top), HighestBound: bound,
	}
}

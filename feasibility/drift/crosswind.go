package drift

import (
	"math"

	"tractcheck/feasibility/air"
)

// fanOuts is how fast a plume widens across the wind: its standard deviation over the distance come, by
// stability class. Briggs (1973), Diffusion Estimation for Small Emissions, ATDL contribution 79, open
// country: sigma_y = a x (1 + 0.0001 x)^-1/2. It is fitted from 100 m on; nearer only the slope a means
// anything, and that is taken everywhere.
var fanOuts = []struct {
	class air.Stability
	slope float64
}{
	{air.VeryUnstable, 0.22},
	{air.Unstable, 0.16},
	{air.SlightlyUnstable, 0.11},
	{air.Neutral, 0.08},
	{air.SlightlyStable, 0.06},
	{air.Stable, 0.04},
}

// fanOut is that of a class; an unknown one counts as the most stable, in which a plume stays together.
func fanOut(class air.Stability) float64 {
	for _, f := range fanOuts {
		if f.class == class {
			return f.slope
		}
	}
	return fanOuts[len(fanOuts)-1].slope
}

// extentAcross is how far the field reaches across the wind, m, at least one swath; 0 where that is not
// known, or where a calm has no direction to count on.
func extentAcross(in Input) float64 {
	across := in.Ground.Across
	if across == nil && in.Ground.Shortest != nil {
		across = in.Ground.Shortest
	}
	if across == nil || isCalm(in) {
		return 0
	}
	swath := hold(in.Release.Swath.SI(), 0.5, longest, 0.5)
	return hold(across.SI(), swath, math.MaxFloat64, swath)
}

// extentTurned is how far a rectangle reaches along the wind with its shorter side, m; 0 where its lie is
// known.
func extentTurned(in Input) float64 {
	if in.Ground.Shortest == nil {
		return 0
	}
	swath := hold(in.Release.Swath.SI(), 0.5, longest, 0.5)
	return hold(in.Ground.Shortest.SI(), swath, longest, swath)
}

// narrow takes off what spreads sideways out of the reach of a field of a width: opposite the middle of
// the edge arrives, from a line at a distance, the part erf(width/2 / (sqrt 2 sigma_y)) of what would
// from one without ends. Far down the wind of a narrow strip that is little.
func (l *landing) narrow(width, fan float64) {
	if width <= 0 || fan <= 0 {
		l.opposite = l.landed
		return
	}
	for i := 1; i < l.steps; i++ {
		middle := (l.distance[i-1] + l.distance[i]) / 2
		part := math.Erf(width / (2 * math.Sqrt2 * fan * middle))
		l.opposite[i] = l.opposite[i-1] + part*(l.landed[i]-l.landed[i-1])
	}
}

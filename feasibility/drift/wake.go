package drift

import (
	"math"

	"tractcheck/feasibility/units"
)

// rotor is what the wake is made by, in bare SI; the zero value makes no wake.
type rotor struct {
	thrust   float64 // N
	disc     float64 // m2
	speed    float64 // over the ground, m/s
	captured float64 // share of the spray let go inside the wake
	assumed  wakeAssumptions
}

// wake is the rotor wake below the machine, followed from the nozzles until it reaches the crop or
// is lost in the turbulence of the air.
type wake struct {
	help   float64 // share of the spray it carries down, 0 to 1
	swept  float64 // how far it is swept back, 0 to 1; 1 too where nothing is known of it
	lost   float64 // the share of the way down to the crop that it does not carry, 0 to 1
	hover  float64 // induced velocity in hover, m/s
	depth  float64 // how far down it carries, m
	time   float64 // that it takes, s
	final  float64 // its downward speed there, m/s
	least  float64 // the speed at which it counts as lost, m/s
	radius float64 // its half-width there, m
	spread float64 // how far it throws the drops each way along the wind, m
	wind   float64 // half way down, m/s
	thick  float64 // of the layer it leaves, m
}

// wakeAssumptions are the properties of a wake that nobody measures at the job.
type wakeAssumptions struct {
	// growth is the growth of the wake's half-width per meter of descent.
	growth float64
	// fullHelp and noHelp are ratios of air speed across the disc to hover induced velocity: up to the
	// first the wake helps in full, from the second it is swept back and does not help at all.
	fullHelp, noHelp float64
	// layer is the depth of the layer that the wake leaves over the crop as it turns outward there,
	// in half-widths.
	layer float64
	// outwash is how far the wake throws its drops each way along the ground, in half-widths. A strip of
	// wake turns outward to both sides of its track, so lines along the wind throw less down the wind; it
	// is taken in full for both.
	outwash float64
	// lostAt is the speed at which the wake is lost, in standard deviations of the vertical wind.
	lostAt float64
}

// assumedWake is the wake that answers are made with. Own design but for the growth, which is fitted
// so that a wake of 6 to 8 m/s in hover, let go 2 to 3 m up, trails the machine as measured over a
// crop at 3 to 6 m/s of flight (Trans. Chin. Soc. Agric. Mach. 2021, article 20210105: 1.77 to
// 4.31 m). Momentum theory puts the skew at 52 and 68 degrees from the vertical at the two ratios.
var assumedWake = wakeAssumptions{growth: 0.3, fullHelp: 1.0, noHelp: noHelp, layer: 0.5, outwash: 1.0, lostAt: 2.0}

// The shares of the spray let go inside the wake, and the speed limit told to the caller.
const (
	noHelp = 1.5
	// capturedUnderRotors leaves out what the tip vortices throw out of the wake. Own design.
	capturedUnderRotors = 0.95
	// capturedOnBoom: a wake contracts to 0.71 of the rotor's diameter (momentum theory: half the disc
	// area), and a boom may be as long as 0.90 of it (federal auxin label), so that 0.79 of its length
	// lies inside.
	capturedOnBoom = 0.79
)

// newRotor reads the machine of an input; missing facts make no wake.
func newRotor(r Release) rotor {
	if r.Mass == nil || r.DiscArea == nil {
		return rotor{}
	}
	out := rotor{
		thrust:   hold(r.Mass.Weight().SI(), 0, 1e5, 0),
		disc:     hold(r.DiscArea.SI(), 0, 1e3, 0),
		speed:    hold(r.Speed.SI(), 0, 100, 0),
		captured: capturedOnBoom,
		assumed:  assumedWake,
	}
	if r.UnderRotors != nil && *r.UnderRotors {
		out.captured = capturedUnderRotors
	}
	return out
}

// below works out the wake of the machine for a release height above the crop, m.
func (r rotor) below(height float64, m medium) wake {
	hover := hoverInduced(units.Force(r.thrust), units.Area(r.disc), units.Density(m.airDensity)).SI()
	if hover <= 0.1 || r.disc < 0.01 {
		return wake{swept: 1}
	}
	a := r.assumed
	// Air meets the disc by the flight and by the wind across it, taken square to each other.
	flight := math.Hypot(r.speed, m.at(height))
	induced := induced(hover, flight)
	_, turbulence := m.exchange(height / 2)
	upright := max(0, min(1, (a.noHelp-flight/hover)/(a.noHelp-a.fullHelp)))
	w := wake{
		help:  r.captured * upright,
		swept: 1 - upright,
		hover: hover,
		least: max(0.3, a.lostAt*turbulence),
	}
	if induced <= w.least || w.help <= 0 {
		return wake{hover: hover, swept: 1}
	}
	// The wakes of the rotors join to one, twice the disc area wide, in which momentum theory's far
	// wake of 2 v_i over the contracted area has slowed to v_i: ratio of areas 4 at equal momentum.
	radius := math.Sqrt(2 * r.disc / math.Pi)
	// A strip of moving air keeps its momentum per length of track while it grows: w b^2 = constant.
	reach := radius / a.growth * (math.Sqrt(induced/w.least) - 1)
	w.depth = min(height, reach)
	w.lost = 1 - w.depth/height
	grown := 1 + a.growth*w.depth/radius
	w.final = induced / (grown * grown)
	w.radius = radius * grown
	// The integral of dz/w(z) over the depth.
	w.time = radius / (3 * a.growth * induced) * (grown*grown*grown - 1)
	w.wind = m.at(height - w.depth/2)
	w.spread = a.outwash * w.radius
	w.thick = a.layer * w.radius
	return w
}

// hoverInduced is the induced velocity in hover by momentum theory, v_h = sqrt(T/(2 rho A)):
// Rankine and Froude; Glauert (1926); Leishman, Principles of Helicopter Aerodynamics, ch. 2
// (from memory). It is zero where the disc or the air is.
func hoverInduced(thrust units.Force, disc units.Area, air units.Density) units.Speed {
	mass := 2 * air.SI() * disc.SI()
	if mass <= 0 || thrust <= 0 {
		return 0
	}
	return units.Speed(math.Sqrt(thrust.SI() / mass))
}

// induced is the induced velocity in level flight: v_i^2 = (-V^2 + sqrt(V^4 + 4 v_h^4))/2,
// Glauert (1926), the disc taken level. Written without the difference of near-equal numbers.
func induced(hover, flight float64) float64 {
	v2, h2 := flight*flight, hover*hover
	return math.Sqrt(2 * h2 * h2 / (v2 + math.Sqrt(v2*v2+4*h2*h2)))
}

// touchdown is the span down the wind, from where a class of drops was let go, over which the wake lays
// it down, m; it begins upwind of there where the wake throws further than the wind carries.
//
// The travel of the machine is no part of it. A wake trails its machine by speed x time, because the
// machine flies on; the air in it was at rest over the ground, is pushed down, and comes down near
// where it was passed. The drops' own headway is lost in a few diameters of the stopping distance: of
// 300 um let go at 7 m/s, half a meter.
func (w wake) touchdown(fallSpeed float64) (from, to float64) {
	// Mean speed down: that of the wake, depth over time, plus the drop's own.
	time := w.depth / (w.depth/w.time + fallSpeed)
	// Drift meanwhile by the wind half way down, m.
	middle := w.wind * time
	return middle - w.spread, middle + w.spread
}

// pressed is the share of the drops in the wake that reach the crop while the wake turns over once
// above it: of a mixed layer, 1 - exp(-v t/h) falls out in the turnover time t = h/w.
func (w wake) pressed(fallSpeed float64) float64 {
	if w.final <= w.least {
		return 0
	}
	reach := 1 - w.least/w.final
	return reach * -math.Expm1(-fallSpeed/w.final)
}

// layer reports the bottom and top of the layer in which the wake leaves its drops, m above the crop.
func (w wake) layer(height float64) (bottom, top float64) {
	thick := min(w.thick, height)
	middle := max(height-w.depth, thick/2)
	return middle - thick/2, middle + thick/2
}

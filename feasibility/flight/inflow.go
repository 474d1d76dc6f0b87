package flight

import "math"

// flow is the air through the rotors of a whole aircraft in level flight, all in SI.
type flow struct {
	thrust   float64 // N
	drag     float64 // N; the disc tilts nose down by atan(drag/weight)
	hover    float64 // m/s, induced velocity at the same thrust in hover
	induced  float64 // m/s, induced velocity
	parasite float64 // W, work against drag
}

// idealHover reports the ideal power of a rotor set in hover, T^1.5/sqrt(2 rho A), in W.
// Momentum theory; Leishman, Principles of Helicopter Aerodynamics (from memory).
func idealHover(thrust, density, discs float64) float64 {
	return thrust * hoverInflow(thrust, density, discs)
}

// hoverInflow reports the induced velocity in hover, sqrt(T/(2 rho A)), in m/s.
func hoverInflow(thrust, density, discs float64) float64 {
	return math.Sqrt(thrust / (2 * density * discs))
}

// levelInflow reports v_i/v_h of a disc that is not tilted, at x = V/v_h:
// sqrt(sqrt(x^4/4 + 1) - x^2/2). Glauert's hypothesis; Leishman (from memory).
func levelInflow(x float64) float64 {
	half := x * x / 2
	// The same expression with the difference of two near numbers multiplied out, so that it keeps
	// its digits at high speed: sqrt(h^2+1) - h = 1/(sqrt(h^2+1) + h).
	return math.Sqrt(1 / (math.Hypot(half, 1) + half))
}

// bladeGrowth reports how profile power grows with the advance ratio, 1 + K mu^2.
func bladeGrowth(k, mu float64) float64 { return 1 + k*mu*mu }

// parasitePower reports the work against drag, V times 0.5 rho V^2 f, in W.
func parasitePower(density, dragArea, speed float64) float64 {
	return 0.5 * density * dragArea * speed * speed * speed
}

// forwardFlow solves level flight: thrust carries weight and drag, T = sqrt(W^2 + D^2), the disc
// tilts by atan(D/W), and Glauert's v_i = v_h^2/sqrt((V cos a)^2 + (V sin a + v_i)^2) gives the
// inflow. Weight in N, density in kg/m3, areas in m2, speed in m/s, all positive.
func forwardFlow(weight, density, discs, dragArea, speed float64) flow {
	drag := 0.5 * density * dragArea * speed * speed
	f := flow{thrust: math.Hypot(weight, drag), drag: drag, parasite: drag * speed}
	f.hover = hoverInflow(f.thrust, density, discs)
	// V cos a and V sin a, with cos a = W/T and sin a = D/T.
	f.induced = inducedVelocity(f.hover, speed*(weight/f.thrust), speed*(drag/f.thrust))
	return f
}

// rounds bounds the iteration. Newton's steps double the digits each time, and they start within a
// factor of the answer, so they end well before.
const rounds = 64

// inducedVelocity solves Glauert's equation for v_i by Newton's steps on
// v sqrt(across^2 + (through + v)^2) = v_h^2, from the level solution. The left side rises and bends
// upward, so after the first step they come down onto the answer; they stop at one part in 1e13.
func inducedVelocity(hover, across, through float64) float64 {
	if hover <= 0 {
		return 0
	}
	v := hover * levelInflow(math.Hypot(across, through)/hover)
	for range rounds {
		past := math.Sqrt(across*across + (through+v)*(through+v))
		off := v*(past/hover) - hover
		next := v - off/((past+v*((through+v)/past))/hover)
		if !(math.Abs(next-v) > 1e-13*v) {
			return next
		}
		v = next
	}
	return v
}

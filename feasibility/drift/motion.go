package drift

import (
	"math"

	"tractcheck/feasibility/units"
)

// The span of drop diameters the room flies, m: the drag law is checked from 10 um to 2 mm, and
// the ends give room to drops that shrink and to the upper tail of a coarse spray.
const (
	smallestDrop = 1e-6
	largestDrop  = 6e-3
)

// fall is a table of terminal speeds in one air, even steps of ln(diameter). Between two rows the
// logarithm of the speed runs straight, which is within 0.2 % of the solved speed.
type fall struct {
	logSpeed [fallRows]float64
}

const fallRows = 48

var (
	fallStart = math.Log(smallestDrop)
	fallStep  = (math.Log(largestDrop) - math.Log(smallestDrop)) / (fallRows - 1)
)

// newFall solves the terminal speeds of drops of the liquid in air of a density and viscosity.
func newFall(liquid, air, viscosity float64) *fall {
	var f fall
	for i := range f.logSpeed {
		d := math.Exp(fallStart + float64(i)*fallStep)
		f.logSpeed[i] = math.Log(terminalSpeed(d, liquid, air, viscosity))
	}
	return &f
}

// speed reports the terminal speed of a drop, m/s; diameters beyond the table are held at its ends.
func (f *fall) speed(diameter float64) float64 {
	at := (math.Log(diameter) - fallStart) / fallStep
	at = max(0, min(fallRows-1, at))
	i := min(int(at), fallRows-2)
	part := at - float64(i)
	return math.Exp(f.logSpeed[i] + part*(f.logSpeed[i+1]-f.logSpeed[i]))
}

// terminalSpeed solves weight = drag for a sphere: C_D Re^2 = 4/3 Ga, with the Galileo number
// Ga = rho_a (rho_l - rho_a) g d^3 / mu^2. All SI. Within 5 % of Gunn and Kinzer (1949) from 200 um
// to 1.8 mm and of Beard (1976) from 20 um to 1 mm; above about 2 mm real drops flatten and fall
// more slowly than a sphere. Newton steps in ln Re from the Stokes speed, which lies above.
func terminalSpeed(d, liquid, air, viscosity float64) float64 {
	galileo := air * (liquid - air) * units.StandardGravity * d * d * d / (viscosity * viscosity)
	goal := math.Log(galileo * 4 / 3)
	// Stokes: C_D Re^2 = 24 Re, so Re = Ga/18.
	x := math.Log(galileo / 18)
	for range 20 {
		const h = 1e-5
		here := logDragNumber(x)
		slope := (logDragNumber(x+h) - here) / h
		step := (goal - here) / slope
		x += step
		if math.Abs(step) < 1e-10 {
			break
		}
	}
	return math.Exp(x) * viscosity / (air * d)
}

// logDragNumber is ln(C_D Re^2) at ln Re.
func logDragNumber(logReynolds float64) float64 {
	re := math.Exp(logReynolds)
	return math.Log(dragCoefficient(re)) + 2*logReynolds
}

// dragCoefficient is the drag coefficient of a sphere, valid to Re = 3e5: Schiller and Naumann
// (1933) with the high-speed term of Clift and Gauvin (1970).
func dragCoefficient(re float64) float64 {
	// Clift and Gauvin (1970): 24/Re (1 + 0.15 Re^0.687) + 0.42/(1 + 4.25e4 Re^-1.16).
	return 24/re*(1+0.15*math.Pow(re, 0.687)) + 0.42/(1+4.25e4*math.Pow(re, -1.16))
}

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

// fall is a table of terminal speed over diameter in one air, 1/s, in even steps of the root of the
// diameter, on which it is smooth. Read between its rows it is within 1 % of terminalSpeed from 20 um.
type fall struct {
	overDiameter [fallRows]float64
}

const fallRows = 96

var (
	fallStep    = math.Sqrt(largestDrop) / (fallRows - 1)
	fallPerRoot = 1 / fallStep
)

// fallLogs are the logarithms of the diameters of the rows, only read; the first row has none.
var fallLogs = func() (logs [fallRows]float64) {
	for i := 1; i < fallRows; i++ {
		logs[i] = 2 * math.Log(fallStep*float64(i))
	}
	return logs
}()

// newFall sets up the fall of drops of a density through air of a density and viscosity, all SI.
func newFall(liquid, air, viscosity float64) *fall {
	// Ga = rho_a (rho_l - rho_a) g d^3/mu^2, v = Re mu/(rho_a d).
	logGalileo := math.Log(air * (liquid - air) * units.StandardGravity / (viscosity * viscosity))
	var f fall
	for i := 1; i < fallRows; i++ {
		logD := fallLogs[i]
		f.overDiameter[i] = math.Exp(settling.logReynolds(logGalileo+3*logD)-2*logD) * viscosity / air
	}
	return &f
}

// speed reports the terminal speed of a drop of a diameter in m, m/s; over the table it is held.
func (f *fall) speed(diameter float64) float64 {
	at := min(fallRows-1, math.Sqrt(diameter)*fallPerRoot)
	i := min(int(at), fallRows-2)
	return diameter * (f.overDiameter[i] + (at-float64(i))*(f.overDiameter[i+1]-f.overDiameter[i]))
}

// settlingTable is ln(Re) of a settling sphere against ln(Ga) in even steps. Weight against drag
// ties the two for every sphere in every fluid, so the table is made once.
type settlingTable [settlingRows]float64

const (
	settlingRows  = 240
	settlingFirst = -21.0 // ln(Ga) of a drop of 1 um in thin air is above -13
	settlingLast  = 22.0
	settlingStep  = (settlingLast - settlingFirst) / (settlingRows - 1)
)

// settling is the table, only read.
var settling = newSettlingTable()

func newSettlingTable() *settlingTable {
	var t settlingTable
	for i := range t {
		t[i] = solveReynolds(settlingFirst + float64(i)*settlingStep)
	}
	return &t
}

// logReynolds reads the table between its rows; beyond its ends it is held.
func (t *settlingTable) logReynolds(logGalileo float64) float64 {
	at := max(0, min(settlingRows-1, (logGalileo-settlingFirst)/settlingStep))
	i := min(int(at), settlingRows-2)
	return t[i] + (at-float64(i))*(t[i+1]-t[i])
}

// terminalSpeed solves weight = drag for a sphere. All SI. Within 5 % of Gunn and Kinzer (1949) from
// 200 um to 1.8 mm and of Beard (1976) from 20 um to 1 mm; above about 2 mm real drops flatten and
// fall more slowly than a sphere.
func terminalSpeed(d, liquid, air, viscosity float64) float64 {
	galileo := air * (liquid - air) * units.StandardGravity * d * d * d / (viscosity * viscosity)
	return math.Exp(solveReynolds(math.Log(galileo))) * viscosity / (air * d)
}

// solveReynolds solves C_D Re^2 = 4/3 Ga for ln(Re), with the Galileo number
// Ga = rho_a (rho_l - rho_a) g d^3/mu^2. Newton steps in ln Re from the Stokes speed, which lies above.
func solveReynolds(logGalileo float64) float64 {
	goal := logGalileo + math.Log(4.0/3)
	// Stokes: C_D Re^2 = 24 Re, so Re = Ga/18.
	x := logGalileo - math.Log(18)
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
	return x
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

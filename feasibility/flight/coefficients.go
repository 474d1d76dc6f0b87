package flight

import "tractcheck/feasibility/units"

const (
	// seaLevelDensity is the air of the standard atmosphere at sea level, 1.225 kg/m3. US Standard
	// Atmosphere 1976. Measured hover times are taken as flown in it.
	seaLevelDensity = 1.225 * units.KilogramPerCubicMeter

	// defaultEfficiency is ideal power over electrical power in hover, all losses in one: rotor,
	// motor and controller. Own estimate from declared hover powers of four spray multirotors
	// (from memory), which give 0.48 to 0.58; stated range 0.45 to 0.62.
	defaultEfficiency = 0.53
	lowEfficiency     = 0.45
	highEfficiency    = 0.62

	// The efficiency that parts can reach: figure of merit 0.5 to 0.75, motor 0.80 to 0.90,
	// controller 0.93 to 0.97 (all from memory). A calibration outside the product of these ends
	// is worth a warning.
	leastPartsEfficiency = 0.50 * 0.80 * 0.93
	mostPartsEfficiency  = 0.75 * 0.90 * 0.97

	// driveEfficiency stands between shaft and electrical power, motor times controller; the low
	// end 0.80 x 0.93 of the ranges above (from memory). It prices the work against drag.
	driveEfficiency = 0.80 * 0.93

	// hoverExponent is the power of mass that hover power follows at one efficiency: momentum
	// theory, P = T^1.5/sqrt(2 rho A).
	hoverExponent = 1.5
	// A measured pair outside 0.9 to 2.1 is held at that end, and outside 1.2 to 1.8 it mixes
	// different rules of when to stop the clock. Own choice.
	leastExponent, mostExponent           = 0.9, 2.1
	leastUsualExponent, mostUsualExponent = 1.2, 1.8
	// The exponents of five declared pairs (from memory) lie between these; they bound what one
	// measured hover says of another weight. testdata/published/spray-multirotors-declared.csv.
	lowestDeclaredExponent, highestDeclaredExponent = 0.93, 1.61
	// leastMassRatio is how much heavier full must be than empty for the pair to tell an exponent:
	// below it a minute's error swings the result. Own choice.
	leastMassRatio = 1.1

	// inducedShare is the part of hover power that makes lift; the rest turns the blades against
	// their own drag. Range 0.70 to 0.80 (from memory; Leishman).
	inducedShare = 0.75
	// profileGrowth is K in P0 (1 + K mu^2): 3 by simple blade elements, 4.65 with reversed flow
	// and radial terms (from memory; Leishman). The larger one is taken.
	profileGrowth = 4.65
	// tipSpeed sets the advance ratio mu = V/tip speed. 120 m/s: Sensors 2023 23(15):6795, table 2.
	tipSpeed = 120 * units.MeterPerSecond

	// coaxialInterference is the induced power of a pair over that of the same two rotors far
	// apart; measured 1.16 to 1.22 (from memory; Leishman, coaxial rotors). The larger one is taken.
	coaxialInterference = 1.22

	// usableShare is the part of the nameplate energy that a flight may spend; the rest is reserve.
	// Default 0.80, range 0.70 to 0.85 (from memory).
	usableShare     = 0.80
	mostUsableShare = 0.85

	// discLoading is the takeoff mass per disc area taken for an aircraft whose rotors were not
	// stated. Declared spray multirotors have 11.9 to 15.2 kg/m2 loaded (from memory); the highest
	// is taken, since it costs the most power.
	discLoading, leastDiscLoading = 15.2, 11.9 // kg/m2
	// A disc area inferred from a measured hover is held between these loadings. Own choice: about
	// half and twice those of the declared machines.
	lightestDiscLoading, mostDiscLoading = 6.0, 30.0 // kg/m2

	// A drag area that was not stated is scaled from 0.30 m2 at 24 kg with the two-thirds power of
	// the mass, as areas of like shapes go. Own estimate, good to a factor of two.
	dragAreaAtMass = 0.30 * units.SquareMeter
	dragMass       = 24 * units.Kilogram

	// sprayShare is what pump and atomizers are allowed, as a part of the hover power at the
	// maker's maximum. Own estimate: it gives 130 W at 3.2 kW and 400 W at 10 kW, and such systems
	// draw 50 to 400 W (from memory).
	sprayShare = 0.04
)

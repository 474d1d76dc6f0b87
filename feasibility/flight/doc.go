// Package flight works out how much electrical power a multirotor needs to hover, to fly forward
// and to spray while its tank empties, and how long its battery lasts.
//
// The model is momentum theory. In hover the ideal power of a rotor set of disc area A carrying a
// thrust T in air of density rho is T^1.5/sqrt(2 rho A). One overall efficiency stands between
// ideal and electrical power; it is taken as 0.53 (range 0.45 to 0.62) until the caller states a
// measured hover time, which calibrates it. Two measured times, tank empty and full, also
// calibrate how power grows with mass; from one it is taken to grow with m^1.5, and of five declared
// pairs, which lie between m^0.93 and m^1.61, three are met within 8 percent. Forward flight follows Glauert: induced power falls with
// speed, profile power grows slowly and parasite power grows with the cube of the speed.
//
// Sources: Leishman, Principles of Helicopter Aerodynamics (hover, Glauert's inflow, coaxial
// rotors; from memory); Sensors 2023 23(15):6795, table 2 (a published parameter set of the
// forward-flight terms); declared figures of spray multirotors (from memory), against which the
// uncalibrated model holds within 20 percent.
//
// Assumed conditions: level flight in still air at the given air speed (add the headwind), rotors
// side by side without overlap unless coaxial, a battery at room temperature and in good health.
// Limits and cautions: turns and stops cost more than steady flight; a battery near freezing gives
// 10 to 20 percent less (from memory), which this room does not see; published energy models that
// are given the same parameters differ by a factor of three and more, so a measured hover time is
// always worth more than any default. No figure is rounded here.
//
// Package takeoff comes before this room in the pipeline; package tract comes after it.
package flight

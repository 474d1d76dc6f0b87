package form

import (
	"strconv"

	"tractcheck/api/wire"
	"tractcheck/feasibility/units"
)

// machine is a class of aircraft that a form can start from. The figures are invented: no maker's
// machine has them.
type machine struct {
	id, title string
	tank      units.Volume
	empty     units.Mass // airframe, tank empty, no battery
	battery   units.Mass
	most      units.Mass // takeoff
	energy    units.Energy
	rotors    units.Count
	coaxial   bool
	diameter  units.Length
	discs     units.Count // spinning discs; 0 with nozzles
	nozzles   units.Count
	rated     units.Flow // of one nozzle, at 40 psi
	pump      units.Flow
	speed     units.Speed
	swath     units.Length
	source    string
}

// machines are the classes, by tank size. Every figure is an own choice inside what is published or
// declared for such machines: battery packs of 120 to 200 Wh/kg and 11 to 18 kg of takeoff mass on
// each square meter of rotor disk (from memory, the declared figures reprinted in field papers). They
// are places to start from, decide nothing, and are marked so on the page.
var machines = []machine{
	{
		id: "generic-10", title: "10 L tank, 4 rotors", tank: 10 * units.Liter,
		empty: 10.4 * units.Kilogram, battery: 4 * units.Kilogram, most: 24.8 * units.Kilogram, energy: 560 * units.WattHour,
		rotors: 4, diameter: 0.76 * units.Meter, nozzles: 4, rated: 0.76 * units.LiterPerMinute, pump: 6 * units.LiterPerMinute,
		speed: 4.5 * units.MeterPerSecond, swath: 4 * units.Meter, source: "own choice",
	},
	{
		id: "generic-20-four", title: "20 L tank, 4 rotors", tank: 20 * units.Liter,
		empty: 20 * units.Kilogram, battery: 7 * units.Kilogram, most: 47.5 * units.Kilogram, energy: 960 * units.WattHour,
		rotors: 4, diameter: 1.1 * units.Meter, nozzles: 4, rated: 1.14 * units.LiterPerMinute, pump: 8 * units.LiterPerMinute,
		speed: 5.5 * units.MeterPerSecond, swath: 6 * units.Meter, source: "own choice",
	},
	{
		id: "generic-20-six", title: "20 L tank, 6 rotors", tank: 20 * units.Liter,
		empty: 20.5 * units.Kilogram, battery: 7 * units.Kilogram, most: 48 * units.Kilogram, energy: 950 * units.WattHour,
		rotors: 6, diameter: 0.84 * units.Meter, nozzles: 6, rated: 0.76 * units.LiterPerMinute, pump: 8 * units.LiterPerMinute,
		speed: 5.5 * units.MeterPerSecond, swath: 6 * units.Meter, source: "own choice",
	},
	{
		id: "generic-40", title: "40 L tank, 8 rotors in pairs", tank: 40 * units.Liter,
		empty: 38 * units.Kilogram, battery: 12 * units.Kilogram, most: 91 * units.Kilogram, energy: 1.57 * units.KilowattHour,
		rotors: 8, coaxial: true, diameter: 1.37 * units.Meter, discs: 2, pump: 12 * units.LiterPerMinute,
		speed: 6.5 * units.MeterPerSecond, swath: 8 * units.Meter, source: "own choice",
	},
	{
		id: "generic-70", title: "70 L tank, 8 rotors in pairs", tank: 70 * units.Liter,
		empty: 60 * units.Kilogram, battery: 16 * units.Kilogram, most: 148 * units.Kilogram, energy: 2.2 * units.KilowattHour,
		rotors: 8, coaxial: true, diameter: 1.7 * units.Meter, discs: 4, pump: 24 * units.LiterPerMinute,
		speed: 7.5 * units.MeterPerSecond, swath: 9 * units.Meter, source: "own choice",
	},
}

// What every class starts with beside its own figures. Own choices, as above.
const (
	machineHeight      = 2.5 * units.Meter // above the crop
	machineRate        = 2 * units.GallonPerAcre
	machinePressure    = 40 * units.PoundPerSquareInch // of the rated flow: the pressure nozzles are sized at
	machineDisc        = 7 * units.Centimeter
	machineRotation    = 9000 * units.RevolutionPerMinute
	machinePumpLimit   = 70 * units.PoundPerSquareInch
	machineUsableShare = 80 * units.Percent
)

// machine is the values of a class: the machine and how it is mostly flown. The job itself is left
// for the person to fill in.
func (f *Form) machine(m machine, system string) Values {
	v := Values{"/units": {system}, "/operation/country": {"US"}}
	v.set("/aircraft/label", "Generic machine, "+m.title+" (invented figures)")
	v.set("/aircraft/rotors/count", whole(m.rotors))
	v.set("/aircraft/rotors/coaxial", strconv.FormatBool(m.coaxial))
	quantities := map[string]units.Quantity{
		"/aircraft/empty_weight": m.empty, "/aircraft/battery/weight": m.battery, "/aircraft/battery/energy": m.energy,
		"/aircraft/battery/usable": machineUsableShare, "/aircraft/tank_capacity": m.tank,
		"/aircraft/max_takeoff_weight": m.most, "/aircraft/rotors/diameter": m.diameter,
		"/spray_system/pump/max_flow": m.pump, "/spray_system/pump/max_pressure": machinePumpLimit,
		"/load/application_rate": machineRate,
		"/flight/speed":          m.speed, "/flight/swath": m.swath, "/flight/height": machineHeight,
	}
	if m.discs > 0 {
		v.set("/spray_system/atomizer", "rotary")
		v.set("/spray_system/count", whole(m.discs))
		quantities["/spray_system/rotary/disc_diameter"] = machineDisc
		quantities["/spray_system/rotary/rotation"] = machineRotation
	} else {
		v.set("/spray_system/atomizer", "hydraulic")
		v.set("/spray_system/count", whole(m.nozzles))
		v.set("/spray_system/nozzle/type", "pre_orifice")
		quantities["/spray_system/nozzle/rated_flow"] = m.rated
		quantities["/spray_system/nozzle/rated_pressure"] = machinePressure
	}
	for _, l := range f.lines {
		if q, ok := quantities[l.path]; ok {
			v.quantity(l, q, system)
		}
	}
	return v
}

// quantity types a figure with three digits, as a person would.
func (v Values) quantity(l line, q units.Quantity, system string) {
	const typed = 3
	v.set(l.path+valueName, decimal(wire.In(q, l.unit(system), typed)))
	v.set(l.path+unitName, l.unit(system))
}

func whole(n units.Count) string { return strconv.Itoa(int(n)) }

// decimal is a number as a person types it.
func decimal(value float64) string { return strconv.FormatFloat(value, 'f', -1, 64) }

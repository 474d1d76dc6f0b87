package spray

import (
	"slices"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// ReferenceNozzle is the flat fan nozzle and its pressure that set a class boundary.
type ReferenceNozzle struct {
	FanAngle units.Angle
	Size     string // ISO 10625 code
	Pressure units.Pressure
}

// ClassRow is one droplet size class and the boundary at its fine end.
type ClassRow struct {
	Class        Class
	Symbol       string           // of ASABE S572
	Color        string           // of ASABE S572
	Nozzle       *ReferenceNozzle // sets the fine end; nil where it is not a flat fan, or there is none
	ModelFrom    units.Length     // finest Dv0.5 by the default model; zero for the finest class
	MeasuredFrom units.Length     // finest Dv0.5 for sizes from an instrument; zero for the finest class
	Source       finding.Source
}

// fineFromStrict is the smaller published rendering of the very fine / fine boundary, 105 um
// (widely reproduced table of ASABE S572.1, from memory); other tables print 136 to 150 um.
const fineFromStrict = 105 * units.Micrometer

// DropletClasses returns the eight size classes, finest first, with the reference nozzles of
// ASABE S572.1 and ISO 25358 that bound them and two renderings of the boundaries as Dv0.5.
//
// No absolute boundary exists in the standards. ModelFrom is the default model at the reference
// point (60 and 665 um: the widely reproduced S572.1 table). MeasuredFrom is that table, with
// 143 um for very fine / fine in place of its 105, and 236 and 403 um confirmed by Virk et al.
// 2021. All else from memory. Every call returns a fresh copy.
func DropletClasses() []ClassRow { return slices.Clone(classRows[:]) }

func reference(degrees float64, size string, pressure units.Pressure) *ReferenceNozzle {
	return &ReferenceNozzle{FanAngle: units.Angle(degrees) * units.Degree, Size: size, Pressure: pressure}
}

const um = units.Micrometer

// classRows: names, symbols, colors, reference nozzles and pressures of ASABE S572.1 (2009) and
// ISO 25358:2018, all from memory; their flows agree with size and square law.
var classRows = [8]ClassRow{
	{ExtremelyFine, "XF", "purple", nil, 0, 0, sourceS572},
	{VeryFine, "VF", "red", nil, 60 * um, 60 * um, sourceS572},
	{Fine, "F", "orange", reference(110, "01", 450*units.Kilopascal), 143 * um, 143 * um, sourceS572},
	{Medium, "M", "yellow", reference(110, "03", 300*units.Kilopascal), 236 * um, 236 * um, sourceVirk},
	{Coarse, "C", "blue", reference(110, "06", 200*units.Kilopascal), 340 * um, 340 * um, sourceS572},
	{VeryCoarse, "VC", "green", reference(80, "08", 250*units.Kilopascal), 403 * um, 403 * um, sourceVirk},
	{ExtremelyCoarse, "XC", "white", reference(65, "10", 200*units.Kilopascal), 504 * um, 502 * um, sourceS572},
	{UltraCoarse, "UC", "black", reference(65, "15", 150*units.Kilopascal), 665 * um, 665 * um, sourceS572},
}

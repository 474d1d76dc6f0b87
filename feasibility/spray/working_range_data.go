package spray

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

const psi = units.PoundPerSquareInch

// familyRange is the working range taken for a nozzle family where the caller states none.
// SurelyBelow and SurelyAbove bound the widest range read in print for the family: outside them
// the nozzle cannot be meant to work whatever its kind. Zero means nothing was read, so the range
// alone cannot forbid anything.
type familyRange struct {
	Type        NozzleType
	Min, Max    units.Pressure
	SurelyBelow units.Pressure
	SurelyAbove units.Pressure
	Kind        string // the kind of the family that the range is taken from
	LowRemark   string // what else the lower end might be
	Source      finding.Source
}

// familyRanges: where a family has kinds with different ranges, the range that all kinds share.
// Flat fan: standard 30-60 psi, extended range 15-60 psi (Slocombe and Sharda, MF3178; Montana
// State University slides). Pre-orifice flat fan 30-60; air induction compact 15-90 and long
// 30-100; hollow cone, disc-core 40-150 psi: all from memory.
var familyRanges = [4]familyRange{
	{FlatFan, 30 * psi, 60 * psi, 15 * psi, 60 * psi, "for a standard flat fan", "; an extended-range one goes down to 15 psi", sourceKansas},
	{PreOrifice, 30 * psi, 60 * psi, 0, 0, "for a pre-orifice flat fan", "", sourceRangeMemory},
	{AirInduction, 30 * psi, 90 * psi, 0, 0, "where the ranges of compact and long air-induction nozzles overlap", "; a compact one goes down to 15 psi (from memory)", sourceRangeMemory},
	{HollowCone, 40 * psi, 150 * psi, 0, 0, "for a disc-core hollow cone", "", sourceRangeMemory},
}

// rangeOf finds the row of a family; an unknown family is taken as a flat fan.
func rangeOf(t NozzleType) familyRange {
	for _, row := range familyRanges {
		if row.Type == t {
			return row
		}
	}
	return familyRanges[0]
}

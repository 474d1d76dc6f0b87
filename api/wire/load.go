package wire

import (
	"tractcheck/feasibility"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// Load is what the tank holds and what for.
type Load struct {
	Fill            *Quantity     `json:"fill,omitzero"`
	Density         *Quantity     `json:"density,omitzero"`
	SpecificGravity *float64      `json:"specific_gravity,omitzero" validate:"omitempty,min=0.5,max=3"`
	ApplicationRate *Quantity     `json:"application_rate,omitzero"`
	SurfaceTension  *Quantity     `json:"surface_tension,omitzero"`
	Pesticide       *bool         `json:"pesticide,omitzero"`
	ProductLabel    *ProductLabel `json:"product_label,omitzero"`
}

// ProductLabel is what the product label says.
type ProductLabel struct {
	AerialAllowed    *bool     `json:"aerial_allowed,omitzero"`
	UnmannedAllowed  *bool     `json:"unmanned_allowed,omitzero"`
	MinRate          *Quantity `json:"min_rate,omitzero"`
	MaxWind          *Quantity `json:"max_wind,omitzero"`
	MinWind          *Quantity `json:"min_wind,omitzero"`
	DropletClassMin  *string   `json:"droplet_class_min,omitzero" validate:"omitempty,oneof=extremely_fine very_fine fine medium coarse very_coarse extremely_coarse ultra_coarse"`
	DropletClassMax  *string   `json:"droplet_class_max,omitzero" validate:"omitempty,oneof=extremely_fine very_fine fine medium coarse very_coarse extremely_coarse ultra_coarse"`
	DownwindBuffer   *Quantity `json:"downwind_buffer,omitzero"`
	RestrictedUse    *bool     `json:"restricted_use,omitzero"`
	RestrictedEntry  *Quantity `json:"restricted_entry,omitzero"`
	MaxReleaseHeight *Quantity `json:"max_release_height,omitzero"`
	BulletinRequired *bool     `json:"bulletin_required,omitzero"`
	WPSLabel         *bool     `json:"wps_label,omitzero"`
	BoomShare        *Quantity `json:"boom_share,omitzero"`
	Brand            *string   `json:"brand,omitzero" validate:"omitempty,min=1,max=100"`
	EPANumber        *string   `json:"epa_registration_number,omitzero" validate:"omitempty,min=1,max=40"`
	ProductRate      *Quantity `json:"product_rate,omitzero"`
}

// waterDensity is what a specific gravity of 1 stands for: 1 kg/L, the round figure of spray
// practice (8.34 lb/gal). Water at 4 degrees Celsius is 0.03 per mil lighter. Common practice.
const waterDensity = units.KilogramPerLiter

func (m *mapper) load(l *Load) feasibility.Load {
	if l == nil {
		return feasibility.Load{}
	}
	return feasibility.Load{
		Fill:            optional[units.Volume](m, at("/load/fill"), l.Fill),
		Density:         m.density(l),
		ApplicationRate: stated[units.ApplicationRate](m, at("/load/application_rate"), l.ApplicationRate),
		SurfaceTension:  optional[units.SurfaceTension](m, at("/load/surface_tension"), l.SurfaceTension),
		Pesticide:       flagOf(l.Pesticide),
		Label:           m.label(l.ProductLabel),
	}
}

// density reads the density from whichever of its two members was sent.
func (m *mapper) density(l *Load) *units.Density {
	density := optional[units.Density](m, at("/load/density"), l.Density)
	if l.SpecificGravity == nil {
		return density
	}
	if l.Density != nil {
		m.conflict(at("/load/specific_gravity"), *l.SpecificGravity, "one of density and specific_gravity",
			"Density and specific_gravity say the same thing. Send one of them.")
		return density
	}
	d := units.Density(*l.SpecificGravity) * waterDensity
	return &d
}

func (m *mapper) label(l *ProductLabel) permits.Label {
	if l == nil {
		return permits.Label{}
	}
	out := permits.Label{
		AerialAllowed:    l.AerialAllowed,
		UnmannedAllowed:  l.UnmannedAllowed,
		MinRate:          optional[units.ApplicationRate](m, at("/load/product_label/min_rate"), l.MinRate),
		MaxWind:          optional[units.Speed](m, at("/load/product_label/max_wind"), l.MaxWind),
		MinWind:          optional[units.Speed](m, at("/load/product_label/min_wind"), l.MinWind),
		DropletClassMin:  codeOf[spray.Class](l.DropletClassMin),
		DropletClassMax:  codeOf[spray.Class](l.DropletClassMax),
		DownwindBuffer:   optional[units.Length](m, at("/load/product_label/downwind_buffer"), l.DownwindBuffer),
		RestrictedUse:    l.RestrictedUse,
		RestrictedEntry:  optional[units.Duration](m, at("/load/product_label/restricted_entry"), l.RestrictedEntry),
		MaxReleaseHeight: optional[units.Length](m, at("/load/product_label/max_release_height"), l.MaxReleaseHeight),
		BulletinRequired: l.BulletinRequired,
		WPSLabel:         l.WPSLabel,
		BoomShare:        optional[units.Proportion](m, at("/load/product_label/boom_share"), l.BoomShare),

		Brand: l.Brand, EPARegistrationNumber: l.EPANumber,
		ProductRate: optional[units.ApplicationRate](m, at("/load/product_label/product_rate"), l.ProductRate),
	}
	atMost(m, at("/load/product_label/min_wind"), out.MinWind, l.MinWind, out.MaxWind, l.MaxWind, "max_wind")
	m.classOrder(l)
	return out
}

// dropletClasses are the size classes of ASABE S572 and ISO 25358, finest to coarsest.
var dropletClasses = []spray.Class{
	spray.ExtremelyFine, spray.VeryFine, spray.Fine, spray.Medium,
	spray.Coarse, spray.VeryCoarse, spray.ExtremelyCoarse, spray.UltraCoarse,
}

// classOrder refuses a finest class that is coarser than the coarsest.
func (m *mapper) classOrder(l *ProductLabel) {
	if l.DropletClassMin == nil || l.DropletClassMax == nil {
		return
	}
	least, most := classRank(*l.DropletClassMin), classRank(*l.DropletClassMax)
	if least < 0 || most < 0 || least <= most {
		return
	}
	m.conflict(at("/load/product_label/droplet_class_min"), clip(*l.DropletClassMin), "not coarser than droplet_class_max",
		"The finest class the label allows is coarser than the coarsest. Check whether droplet_class_min and droplet_class_max are swapped.")
}

// classRank reports where a class stands from finest to coarsest, or -1.
func classRank(class string) int {
	for i, c := range dropletClasses {
		if string(c) == class {
			return i
		}
	}
	return -1
}

package air

import (
	"fmt"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// DefaultCropHeight is the crop height taken where none is stated: a short crop whose roughness,
// 0.031 m, is that of open flat grass in the classes of Davenport (0.03 m). Own design.
const DefaultCropHeight = 25 * units.Centimeter

// The aerodynamic shape of a crop as shares of its height.
const (
	// displacementShare is the height by which a crop lifts the wind profile.
	// Source: Brutsaert 1982, Evaporation into the Atmosphere, ch. 5 (from memory).
	displacementShare = 0.67
	// roughnessShare lies in the 0.1 to 0.13 of Brutsaert 1982.
	// Source: Allen et al. 1998, FAO Irrigation and Drainage Paper 56, eq. 4 (from memory).
	roughnessShare = 0.123
	// barestRoughness is the roughness of smooth bare ground, the least taken.
	// Source: Davenport classes, "mud flat, no vegetation".
	barestRoughness = 5 * units.Meter / 1000
)

// fillSurface works out how the crop slows and lifts the wind.
func (s *State) fillSurface(o Observation, n *notes) {
	s.CropHeight = DefaultCropHeight
	if o.CropHeight != nil {
		s.CropHeight = *o.CropHeight
	} else {
		n.assume(finding.Assumption{
			Subject: "/field/crop_height",
			Assumed: fmt.Sprintf("a short crop, %.0f in high", DefaultCropHeight.In(units.Inch)),
			Settle:  "send the height of the crop",
			Source:  ownBounds,
		})
	}
	s.Displacement = displacementShare * s.CropHeight
	s.Roughness = max(barestRoughness, roughnessShare*s.CropHeight)
	n.cite(cropShape, davenport)
}

package permits

import (
	"strings"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// assumptions says every default that the table took for a fact not stated, in a fixed order.
func (v *view) assumptions() []finding.Assumption {
	const own = "permits-own-design"
	var taken []finding.Assumption
	add := func(when bool, subject, assumed, settle, source string) {
		if when {
			taken = append(taken, finding.Assumption{Subject: subject, Assumed: assumed, Settle: settle, Source: v.source(source)})
		}
	}
	poison := v.poison.Truth == Yes
	add(strings.TrimSpace(v.Country) == "", "/operation/country", "the job is in the United States",
		"send operation.country", own)
	add(v.Dispenses == nil && v.Pesticide, "/operation/dispenses", "a pesticide load is an economic poison",
		"send operation.dispenses", "cfr-107-137-2026")
	add(v.Dispenses != nil && *v.Dispenses != EconomicPoison && v.Pesticide, "/operation/dispenses",
		"the load is a pesticide, because load.pesticide says so although operation.dispenses says otherwise",
		"make load.pesticide and operation.dispenses agree", own)
	add(v.regime == SmallRegime && poison && v.Hazmat == nil, "/operation/hazmat",
		"the pesticide mix is a hazardous material", "read section 14 of the safety data sheet and send operation.hazmat",
		"cfr-107-36-205")
	add(v.regime == LargeRegime, "/flight/speed", assumedGrantSpeed,
		"read the figure in your own grant and the maker's limit", "sample-grants")
	add(poison && v.Label.MaxWind != nil && v.Label.MinWind == nil, "/load/product_label/min_wind",
		"the label gives no lowest wind", "send load.product_label.min_wind", own)
	add(poison && v.Label.DropletClassMin != nil && v.Label.DropletClassMax == nil, "/load/product_label/droplet_class_max",
		"the label gives no coarsest droplet class", "send load.product_label.droplet_class_max", own)
	add(poison && v.Label.UnmannedAllowed == nil && v.StateConfirmsUnmanned != nil, "/load/product_label/unmanned_allowed",
		"the label says nothing on unmanned aircraft", "send load.product_label.unmanned_allowed",
		"epa-aerial-position")
	return taken
}

// assumedGrantSpeed is what is taken for the cap of a grant that was not sent.
var assumedGrantSpeed = figure(sampleGrantSpeed.In(units.MilePerHour)) +
	" mph is the groundspeed cap of the grant, and the maker's limit is not lower"

package permits

import "tractcheck/feasibility/units"

// weatherRules is the speed, height and weather limits of 14 CFR 107.51, as several published
// courses give them; all agree.
func weatherRules() []Rule {
	return []Rule{groundspeedLimit(), heightLimit(), visibilityLimit(), cloudClearance()}
}

// operatingLimit completes a row of 107.51.
func operatingLimit(r Rule) Rule {
	r.Kind, r.Group, r.Regimes, r.Grade = Limit, GroupJob, SmallOnly, GradeSecondHand
	r.Sources = []string{"cfr-107-51"}
	return waivable(r)
}

// Speed and height limits of 14 CFR 107.51(a) and (b). The rule prints 87 knots and 100 mph, which
// differ by 0.12 mph; the lower is used.
const (
	highestGroundspeed = 100 * units.MilePerHour
	greatestHeight     = 400 * units.Foot
)

// groundspeedLimit is 14 CFR 107.51(a).
func groundspeedLimit() Rule {
	return operatingLimit(Rule{
		ID:          "groundspeed-limit",
		Title:       "Groundspeed of 100 mph",
		AppliesWhen: "under 55 lb; broken above 100 mph (87 knots)",
		Demands:     "groundspeed at most 100 mph",
		Citation:    "14 CFR 107.51(a)",
		Evidence:    "flight plan",
		applies: func(v *view) Judgment {
			if !known(v.Groundspeed) {
				return missing("the groundspeed", "/flight/speed")
			}
			return over(v, v.Groundspeed, highestGroundspeed, "/flight/speed",
				v.say("groundspeed ", v.mph(v.Groundspeed), ", limit 100 mph"))
		},
	})
}

// heightLimit is 14 CFR 107.51(b). The exception near a structure is named, not assumed.
func heightLimit() Rule {
	return operatingLimit(Rule{
		ID:          "height-limit",
		Title:       "Height of 400 ft",
		AppliesWhen: "under 55 lb; broken above 400 ft over ground, unless within 400 ft of a structure and not more than 400 ft above its top",
		Demands:     "at most 400 ft above ground",
		Citation:    "14 CFR 107.51(b)",
		Evidence:    "flight plan",
		applies: func(v *view) Judgment {
			if !known(v.HeightAGL) {
				return missing("the flight height above ground", "/flight/height")
			}
			return v.aboveGround(greatestHeight, v.say("flight at ", v.feet(v.HeightAGL), " above ground, limit 400 ft"))
		},
	})
}

// aboveGround judges the flight height against a limit. A crop whose height was not stated may lift
// the flight over it.
func (v *view) aboveGround(limit units.Length, because string) Judgment {
	j := over(v, v.HeightAGL, limit, "/flight/height", because)
	if j.Truth == No && known(v.HighestAGL) && !units.AtMost(v.HighestAGL, limit) {
		return missing("the height of the crop, over which the aircraft flies", "/field/crop_height")
	}
	return j
}

// visibilityLimit is 14 CFR 107.51(c).
func visibilityLimit() Rule {
	return operatingLimit(Rule{
		ID:          "visibility",
		Title:       "Visibility of 3 statute miles",
		AppliesWhen: "under 55 lb; broken below 3 statute miles seen from the control station",
		Demands:     "at least 3 statute miles of flight visibility from the control station",
		Citation:    "14 CFR 107.51(c)",
		Evidence:    "weather source with its time",
		applies:     (*view).shortSight,
	})
}

func (v *view) shortSight() Judgment { return v.once(shortSight, (*view).judgeShortSight) }

func (v *view) judgeShortSight() Judgment {
	if v.Visibility == nil || !units.Finite(*v.Visibility) {
		return missing("the visibility", "/weather/visibility")
	}
	return under(v, *v.Visibility, leastVisibility, "/weather/visibility",
		v.say("visibility ", v.miles(*v.Visibility), ", at least 3 statute miles needed"))
}

// cloudClearance is 14 CFR 107.51(d).
func cloudClearance() Rule {
	return operatingLimit(Rule{
		ID:          "cloud-clearance",
		Title:       "Distance from cloud",
		AppliesWhen: "under 55 lb; broken nearer than 500 ft below or 2,000 ft beside cloud",
		Demands:     "at least 500 ft below and 2,000 ft beside cloud",
		Citation:    "14 CFR 107.51(d)",
		Evidence:    "weather source with its time",
		applies:     (*view).nearCloud,
	})
}

// nearCloud judges the clearances from cloud, once.
func (v *view) nearCloud() Judgment { return v.once(nearCloud, (*view).judgeNearCloud) }

// judgeNearCloud judges both clearances; a clear sky answers one that was not stated.
func (v *view) judgeNearCloud() Judgment {
	return v.or(
		v.cloud(v.CloudBelow, belowCloud, "/weather/cloud_below", "below"),
		v.cloud(v.CloudSide, besideCloud, "/weather/cloud_side", "beside"),
	)
}

func (v *view) cloud(clearance *units.Length, least units.Length, pointer, where string) Judgment {
	if clearance != nil && units.Finite(*clearance) {
		return under(v, *clearance, least, pointer,
			v.say(v.feet(*clearance), " ", where, " cloud, at least ", v.feet(least), " needed"))
	}
	if v.CloudFree != nil && *v.CloudFree {
		return fact(false, "/weather/cloud_cover", "", "the sky holds no cloud")
	}
	return missing(v.say("the clearance ", where, " cloud"), pointer)
}

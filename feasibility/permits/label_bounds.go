package permits

import (
	"slices"

	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// The judgments of this file hold where a bound of the label is broken. Each waits for the tank to
// hold a pesticide, and for the label to be stated.

// labeled judges a bound of the label. While nobody knows whether the tank holds a pesticide the
// bound is unknown, even where the job is inside it: some bounds count as absent when not stated,
// and their absence must not settle what is not known.
func (v *view) labeled(broken Judgment) Judgment {
	if v.poison.Truth == CannotTell {
		return v.poison
	}
	return v.and(v.poison, broken)
}

func (v *view) offAerial() Judgment { return v.once(offAerial, (*view).judgeOffAerial) }

func (v *view) judgeOffAerial() Judgment {
	return v.labeled(Not(stated(v.Label.AerialAllowed, "/load/product_label/aerial_allowed",
		"the label allows aerial application", "the label forbids aerial application",
		"whether the label allows aerial application")))
}

func (v *view) offUnmanned() Judgment { return v.once(offUnmanned, (*view).judgeOffUnmanned) }

func (v *view) judgeOffUnmanned() Judgment {
	if v.Label.UnmannedAllowed == nil && v.StateConfirmsUnmanned != nil {
		return v.labeled(Not(fact(*v.StateConfirmsUnmanned, "/operation/state_confirms_unmanned",
			"the state has confirmed that the aerial directions cover unmanned aircraft",
			"the state reads the aerial directions as not covering unmanned aircraft")))
	}
	return v.labeled(Not(stated(v.Label.UnmannedAllowed, "/load/product_label/unmanned_allowed",
		"the label allows unmanned aircraft", "the label forbids unmanned aircraft",
		"whether the label allows unmanned aircraft; where it is silent, ask the state")))
}

func (v *view) offRate() Judgment { return v.once(offRate, (*view).judgeOffRate) }

func (v *view) judgeOffRate() Judgment {
	least := v.Label.MinRate
	if least == nil {
		return v.labeled(missing("the lowest spray volume that the label allows by air", "/load/product_label/min_rate"))
	}
	if !known(v.Rate) {
		return v.labeled(missing("the application rate", "/load/application_rate"))
	}
	return v.labeled(under(v, v.Rate, *least, "/load/application_rate",
		v.say("application rate ", v.gallonsPerAcre(v.Rate), ", the label asks at least ", v.gallonsPerAcre(*least))))
}

// offWind judges the wind against the label, once.
func (v *view) offWind() Judgment { return v.once(offWind, (*view).judgeOffWind) }

// judgeOffWind needs the highest wind to be stated; a lowest wind that is not stated is taken as none,
// and said as an assumption.
func (v *view) judgeOffWind() Judgment {
	if !known(v.WindSpeed) && !v.CalmMeasured {
		return v.labeled(missing("the wind speed", "/weather/wind_speed"))
	}
	return v.labeled(v.or(v.windOver(), v.windUnder()))
}

func (v *view) windOver() Judgment {
	most := v.Label.MaxWind
	if most == nil {
		return missing("the highest wind that the label allows", "/load/product_label/max_wind")
	}
	return over(v, v.WindSpeed, *most, "/weather/wind_speed",
		v.say("wind ", v.mph(v.WindSpeed), ", the label allows at most ", v.mph(*most)))
}

func (v *view) windUnder() Judgment {
	least := v.Label.MinWind
	if least == nil {
		return fact(false, "/load/product_label/min_wind", "", "")
	}
	return under(v, v.WindSpeed, *least, "/weather/wind_speed",
		v.say("wind ", v.mph(v.WindSpeed), ", the label asks at least ", v.mph(*least)))
}

// dropletClasses is the order of ASABE S572, finest first.
func dropletClasses() []spray.Class {
	return []spray.Class{
		spray.ExtremelyFine, spray.VeryFine, spray.Fine, spray.Medium,
		spray.Coarse, spray.VeryCoarse, spray.ExtremelyCoarse, spray.UltraCoarse,
	}
}

// offDroplet judges the droplets against the label, once.
func (v *view) offDroplet() Judgment { return v.once(offDroplet, (*view).judgeOffDroplet) }

// judgeOffDroplet needs the finest class to be stated, because the fine side drifts; a coarsest class
// that is not stated is taken as none, and said as an assumption.
func (v *view) judgeOffDroplet() Judgment {
	class := slices.Index(dropletClasses(), v.DropletClass)
	if class < 0 {
		return v.labeled(missing("the droplet size class", "/spray_system"))
	}
	finest, coarsest := v.Label.DropletClassMin, v.Label.DropletClassMax
	finer := missing("the finest droplet class that the label allows", "/load/product_label/droplet_class_min")
	if finest != nil {
		finer = fact(class < slices.Index(dropletClasses(), *finest), "/load/product_label/droplet_class_min",
			v.say("droplets are ", words(string(v.DropletClass)), ", finer than the label's ", words(string(*finest))),
			v.say("droplets are ", words(string(v.DropletClass)), ", not finer than the label's ", words(string(*finest))))
	}
	coarser := fact(false, "/load/product_label/droplet_class_max", "", "")
	if coarsest != nil {
		limit := slices.Index(dropletClasses(), *coarsest)
		coarser = fact(limit >= 0 && class > limit, "/load/product_label/droplet_class_max",
			v.say("droplets are ", words(string(v.DropletClass)), ", coarser than the label's ", words(string(*coarsest))),
			v.say("droplets are ", words(string(v.DropletClass)), ", not coarser than the label's ", words(string(*coarsest))))
	}
	return v.labeled(v.or(finer, coarser))
}

func (v *view) offHeight() Judgment { return v.once(offHeight, (*view).judgeOffHeight) }

func (v *view) judgeOffHeight() Judgment {
	most := v.Label.MaxReleaseHeight
	if most == nil {
		return v.labeled(missing("the highest release height that the label allows", "/load/product_label/max_release_height"))
	}
	if !known(v.ReleaseHeight) {
		return v.labeled(missing("the release height", "/flight/height"))
	}
	return v.labeled(over(v, v.ReleaseHeight, *most, "/flight/height",
		v.say("release at ", v.feet(v.ReleaseHeight), ", the label allows at most ", v.feet(*most))))
}

// offBuffer judges the buffer of the label, once.
func (v *view) offBuffer() Judgment { return v.once(offBuffer, (*view).judgeOffBuffer) }

// judgeOffBuffer measures the buffer to water, dwellings and whatever may be habitat downwind.
func (v *view) judgeOffBuffer() Judgment {
	buffer := v.Label.DownwindBuffer
	if buffer == nil {
		return v.labeled(missing("the downwind buffer that the label asks for", "/load/product_label/downwind_buffer"))
	}
	if *buffer <= 0 {
		return v.labeled(fact(false, "/load/product_label/downwind_buffer", "", "the label asks for no downwind buffer"))
	}
	if v.Neighbors == nil {
		return v.labeled(missing("what lies next to the field", "/field/neighbors"))
	}
	sensitive := []Judgment{fact(false, "/field/neighbors", "",
		v.say("nothing the label protects lies downwind within its buffer of ", v.feet(*buffer)))}
	for i, n := range v.Neighbors {
		if n.Downwind {
			sensitive = append(sensitive, v.inBuffer(n, i, *buffer))
		}
	}
	return v.labeled(v.or(sensitive...))
}

// inBuffer judges one downwind neighbor. A place called other may be habitat, so when it is near
// nobody can tell.
func (v *view) inBuffer(n Neighbor, i int, buffer units.Length) Judgment {
	switch n.Kind {
	case "water", "dwelling":
		return under(v, n.Distance, buffer, v.neighborPointer(i, "/distance"),
			v.say(n.Kind, " ", v.feet(n.Distance), " downwind, the label's buffer is ", v.feet(buffer)))
	case "other":
		if !units.AtLeast(n.Distance, buffer) {
			return missing(v.say("what the place ", v.feet(n.Distance), " downwind is; the label's buffer protects habitat for ",
				v.feet(buffer)), v.neighborPointer(i, "/kind"))
		}
	}
	return Judgment{Truth: No}
}

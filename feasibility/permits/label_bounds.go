package permits

import (
	"fmt"
	"slices"

	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// The judgments of this file hold where a bound of the label is broken. Each waits for the tank to
// hold a pesticide, and for the label to be stated.

// labeled judges a bound of the label. While nobody knows whether the tank holds a pesticide the
// bound is unknown, even where the job is inside it: some bounds count as absent when not stated,
// and their absence must not settle what is not known.
func (v view) labeled(broken Judgment) Judgment {
	if v.poison.Truth == CannotTell {
		return v.poison
	}
	return And(v.poison, broken)
}

func (v view) offAerial() Judgment {
	return v.labeled(Not(stated(v.Label.AerialAllowed, "/load/product_label/aerial_allowed",
		"the label allows aerial application", "the label forbids aerial application",
		"the label allows aerial application")))
}

func (v view) offUnmanned() Judgment {
	if v.Label.UnmannedAllowed == nil && v.StateConfirmsUnmanned != nil {
		return v.labeled(Not(fact(*v.StateConfirmsUnmanned, "/operation/state_confirms_unmanned",
			"the state has confirmed that the aerial directions cover unmanned aircraft",
			"the state reads the aerial directions as not covering unmanned aircraft")))
	}
	return v.labeled(Not(stated(v.Label.UnmannedAllowed, "/load/product_label/unmanned_allowed",
		"the label allows unmanned aircraft", "the label forbids unmanned aircraft",
		"the label allows unmanned aircraft; where it is silent, ask the state")))
}

func (v view) offRate() Judgment {
	least := v.Label.MinRate
	if least == nil {
		return v.labeled(missing("the lowest spray volume that the label allows by air", "/load/product_label/min_rate"))
	}
	if !known(v.Rate) {
		return v.labeled(missing("the application rate", "/load/application_rate"))
	}
	return v.labeled(under(v.Rate, *least, "/load/application_rate",
		fmt.Sprintf("application rate %s, the label asks at least %s", gallonsPerAcre(v.Rate), gallonsPerAcre(*least))))
}

// offWind needs the highest wind to be stated; a lowest wind that is not stated is taken as none,
// and said as an assumption.
func (v view) offWind() Judgment {
	if !known(v.WindSpeed) && !v.CalmMeasured {
		return v.labeled(missing("the wind speed", "/weather/wind_speed"))
	}
	return v.labeled(Or(v.windOver(), v.windUnder()))
}

func (v view) windOver() Judgment {
	most := v.Label.MaxWind
	if most == nil {
		return missing("the highest wind that the label allows", "/load/product_label/max_wind")
	}
	return over(v.WindSpeed, *most, "/weather/wind_speed",
		fmt.Sprintf("wind %s, the label allows at most %s", mph(v.WindSpeed), mph(*most)))
}

func (v view) windUnder() Judgment {
	least := v.Label.MinWind
	if least == nil {
		return fact(false, "/load/product_label/min_wind", "", "")
	}
	return under(v.WindSpeed, *least, "/weather/wind_speed",
		fmt.Sprintf("wind %s, the label asks at least %s", mph(v.WindSpeed), mph(*least)))
}

// dropletClasses is the order of ASABE S572, finest first.
func dropletClasses() []spray.Class {
	return []spray.Class{
		spray.ExtremelyFine, spray.VeryFine, spray.Fine, spray.Medium,
		spray.Coarse, spray.VeryCoarse, spray.ExtremelyCoarse, spray.UltraCoarse,
	}
}

// offDroplet needs the finest class to be stated, because the fine side drifts; a coarsest class
// that is not stated is taken as none, and said as an assumption.
func (v view) offDroplet() Judgment {
	class := slices.Index(dropletClasses(), v.DropletClass)
	if class < 0 {
		return v.labeled(missing("the droplet size class", "/spray_system"))
	}
	finest, coarsest := v.Label.DropletClassMin, v.Label.DropletClassMax
	finer := missing("the finest droplet class that the label allows", "/load/product_label/droplet_class_min")
	if finest != nil {
		finer = fact(class < slices.Index(dropletClasses(), *finest), "/load/product_label/droplet_class_min",
			"droplets are "+words(string(v.DropletClass))+", finer than the label's "+words(string(*finest)),
			"droplets are "+words(string(v.DropletClass))+", not finer than the label's "+words(string(*finest)))
	}
	coarser := fact(false, "/load/product_label/droplet_class_max", "", "")
	if coarsest != nil {
		limit := slices.Index(dropletClasses(), *coarsest)
		coarser = fact(limit >= 0 && class > limit, "/load/product_label/droplet_class_max",
			"droplets are "+words(string(v.DropletClass))+", coarser than the label's "+words(string(*coarsest)),
			"droplets are "+words(string(v.DropletClass))+", not coarser than the label's "+words(string(*coarsest)))
	}
	return v.labeled(Or(finer, coarser))
}

func (v view) offHeight() Judgment {
	most := v.Label.MaxReleaseHeight
	if most == nil {
		return v.labeled(missing("the highest release height that the label allows", "/load/product_label/max_release_height"))
	}
	if !known(v.ReleaseHeight) {
		return v.labeled(missing("the release height", "/flight/height"))
	}
	return v.labeled(over(v.ReleaseHeight, *most, "/flight/height",
		fmt.Sprintf("release at %s, the label allows at most %s", feet(v.ReleaseHeight), feet(*most))))
}

// offBuffer measures the buffer to water, dwellings and whatever may be habitat downwind.
func (v view) offBuffer() Judgment {
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
		fmt.Sprintf("nothing the label protects lies downwind within its buffer of %s", feet(*buffer)))}
	for i, n := range v.Neighbors {
		if n.Downwind {
			sensitive = append(sensitive, n.inBuffer(*buffer, fmt.Sprintf("/field/neighbors/%d", i)))
		}
	}
	return v.labeled(Or(sensitive...))
}

// inBuffer judges one downwind neighbor. A place called other may be habitat, so when it is near
// nobody can tell.
func (n Neighbor) inBuffer(buffer units.Length, pointer string) Judgment {
	switch n.Kind {
	case "water", "dwelling":
		return under(n.Distance, buffer, pointer+"/distance",
			fmt.Sprintf("%s %s downwind, the label's buffer is %s", n.Kind, feet(n.Distance), feet(buffer)))
	case "other":
		if !units.AtLeast(n.Distance, buffer) {
			return missing(fmt.Sprintf("what the place %s downwind is; the label's buffer protects habitat for %s",
				feet(n.Distance), feet(buffer)), pointer+"/kind")
		}
	}
	return Judgment{Truth: No}
}

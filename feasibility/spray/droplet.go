package spray

import (
	"cmp"
	"slices"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// finesLimit is the size under which US practice counts spray as prone to drift: 150 um.
// Ohio State University Extension Bulletin 816-00.
const finesLimit = 150 * um

// newDroplet classifies a spectrum and counts its fines.
func newDroplet(s Spectrum, by scale, uncertainty units.Proportion, basis string) Droplet {
	d := Droplet{
		Spectrum: s.filled(), Fines: s.VolumeBelow(finesLimit), Basis: basis,
		Measured: by == measuredScale, Uncertainty: uncertainty,
	}
	d.Class, d.ClassOther = by.classify(s.Dv05)
	return d
}

// sizing is what is known of the droplet size of hydraulic nozzles against pressure, best first:
// measured spectra, declared classes, the default model. It is settled once a call and then asked
// at every pressure of the curve. Only the first kind that is there is used; they are never mixed,
// so one curve stands on one basis. A measured spectrum is not corrected for surface tension: the
// caller measured some liquid, and which one is asked for in the assumptions.
type sizing struct {
	nozzle   Hydraulic
	size     units.Flow
	angle    units.Angle
	model    *familyModel
	base     float64 // of the model
	measured measurement
	declared []PressureClass
	basis    string // of the model, in plain words
}

// newSizing settles which knowledge is used, and reports what it rests on.
func newSizing(h Hydraulic, job Job, log *ledger) sizing {
	model := modelOf(h.Type)
	z := sizing{nozzle: h, size: h.Size(), angle: defaultAngle, model: model}
	rows := make([]measuredRow, 0, len(h.Spectra))
	for _, row := range h.Spectra {
		rows = append(rows, measuredRow{row.Pressure.SI(), spectrumOf(row.Dv01, row.Dv05, row.Dv09)})
	}
	z.measured = newMeasurement(rows, model.PressureExponent)
	if z.measured.faulty {
		log.find(disordered(atSpectra))
	}
	if z.measured.known() {
		assumeMeasured(z.measured, atSpectra, log)
		return z
	}
	if z.declare(log); len(z.declared) > 0 {
		return z
	}
	log.cite(model.Source, sourceKooij, sourceS572, sourceVirk)
	z.base = model.base(z.size, settleTension(job, log))
	z.basis = "default model for " + model.Words + " nozzle at this size and pressure, not measured; the class is approximate"
	if h.FanAngle != nil {
		z.angle = *h.FanAngle
	} else if model.AngleMatters {
		log.assume(atFanAngle, "a fan angle of 110 degrees", "send fan_angle", sourceModel)
	}
	log.assume(atSpectra, "droplet size by a model for "+model.Words+" nozzle, good to 25 %, and relative span 1.3",
		"send spectra (Dv0.1, Dv0.5, Dv0.9 by pressure) from the nozzle's maker or a laboratory, or at least classes", sourceModel)
	return z
}

// declare takes over the caller's classes, rising in pressure, unknown names left out.
func (z *sizing) declare(log *ledger) {
	for _, row := range z.nozzle.Classes {
		if row.Class.Known() && row.FromPressure >= 0 {
			z.declared = append(z.declared, row)
		}
	}
	slices.SortStableFunc(z.declared, func(a, b PressureClass) int { return cmp.Compare(a.FromPressure, b.FromPressure) })
	faulty := len(z.declared) < len(z.nozzle.Classes)
	for i := 1; i < len(z.declared); i++ {
		faulty = faulty || z.declared[i].Class.CoarserThan(z.declared[i-1].Class)
	}
	if faulty {
		log.find(disordered(atClasses))
	}
	if len(z.declared) > 0 {
		log.cite(sourceS572, sourceVirk)
		log.assume(atSpectra, "a droplet size in the middle of the declared class, and relative span 1.3",
			"send spectra (Dv0.1, Dv0.5, Dv0.9 by pressure) from the nozzle's maker or a laboratory", sourceS572)
	}
}

// at reports the droplets at a positive pressure. More pressure never makes them coarser, unless
// the caller's own figures say so.
func (z sizing) at(p units.Pressure) Droplet {
	switch {
	case z.measured.known():
		s, beyond := z.measured.at(p.SI())
		return measuredDroplet(s, beyond, "pressure")
	case len(z.declared) > 0:
		return z.declaredDroplet(p)
	}
	uncertainty, _ := modelSpread(z.size, p)
	s := rosinRammler(z.model.at(z.base, p, z.angle))
	return newDroplet(s, modelScale, uncertainty, z.basis)
}

// stretched reports whether the droplets at p lie beyond the data or the model's span.
func (z sizing) stretched(p units.Pressure) bool {
	switch {
	case z.measured.known():
		_, beyond := z.measured.at(p.SI())
		return beyond > units.Tolerance
	case len(z.declared) > 0:
		return !units.AtLeast(p, z.declared[0].FromPressure)
	}
	_, beyond := modelSpread(z.size, p)
	return beyond
}

// measuredDroplet makes the droplets of a measured spectrum, less certain beyond the data.
func measuredDroplet(s Spectrum, beyond float64, variable string) Droplet {
	basis := "measured by the caller, at the " + variable + " used; the class by Dv0.5 is approximate"
	if beyond > units.Tolerance {
		basis = "measured by the caller, carried beyond the measured " + variable + " by the model's law; the class by Dv0.5 is approximate"
	}
	uncertainty := min(1, measuredUncertainty+units.Proportion(exponentSpread*beyond))
	return newDroplet(s, measuredScale, uncertainty, basis)
}

// declaredDroplet makes the step-wise size of declared classes: a class says no more than its two
// boundaries, so neither a trend inside the class nor a neighboring class is read into it.
//
// The class is that of the highest declared pressure not above p; under the first declared
// pressure that of the first row, which is the finer.
func (z sizing) declaredDroplet(p units.Pressure) Droplet {
	row := z.declared[0]
	for _, next := range z.declared[1:] {
		if units.AtLeast(p, next.FromPressure) {
			row = next
		}
	}
	dv05, halfWidth := row.Class.middle()
	d := newDroplet(rosinRammler(dv05), modelScale, max(modelUncertainty, halfWidth),
		"class declared by the caller; the size is the middle of the class and approximate")
	d.Class, d.ClassOther = row.Class, ""
	return d
}

// assumeMeasured reports what is taken for granted with measured spectra.
func assumeMeasured(m measurement, at string, log *ledger) {
	log.cite(sourceFritz, sourceS572, sourceVirk)
	log.assume(at, "the spectra were measured with this mix or one like it, on an instrument that puts the reference nozzles near their usual sizes",
		"ask the laboratory which liquid and reference nozzles were used", sourceFritz)
	if m.spanned {
		log.assume(at, "relative span 1.3 (Rosin-Rammler) for the Dv0.1 or Dv0.9 that is missing",
			"send dv01 and dv09 with every row of spectra", sourceRosinRammler)
	}
}

// disordered warns of measured sizes or classes that cannot be right.
func disordered(at string) finding.Finding {
	return finding.Finding{
		Code: CodeSizesDisordered, Severity: finding.Caution, Subject: at,
		Message: "Some of the droplet sizes you sent do not fit together: points out of order, a pressure or speed named twice, " +
			"an unknown class, or drops that get coarser as pressure or disc speed rises. Where two readings were possible the finer was used. Check the table and send it again.",
		Source: sourceMission,
	}
}

// settleTension picks the surface tension: the caller's, else by the mix. Where nobody said
// whether there is an adjuvant the finer spray, that of an adjuvanted mix, is taken.
func settleTension(job Job, log *ledger) units.SurfaceTension {
	if job.SurfaceTension != nil && *job.SurfaceTension > 0 {
		return *job.SurfaceTension
	}
	// The law takes the tension of a surface 20 ms old: Sijs and Bonn 2020.
	log.cite(sourceSijsBonn)
	const settle = "send surface_tension, the dynamic value near 20 ms"
	switch {
	case job.Adjuvanted == nil:
		log.assume(atTension, inTension(adjuvantedTension)+", as a mix with adjuvant, because it is not stated; the spray is then finer than plain water's",
			settle, sourceCreech)
		return adjuvantedTension
	case *job.Adjuvanted:
		log.assume(atTension, inTension(adjuvantedTension)+", usual for a mix with adjuvant while the drops form", settle, sourceCreech)
		return adjuvantedTension
	default:
		log.assume(atTension, inTension(waterTension)+", that of water, as the mix has no adjuvant", settle, sourceSijsBonn)
		return waterTension
	}
}

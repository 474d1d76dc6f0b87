package feasibility

import (
	"slices"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// verdicts writes the hours judged.
func (d *day) verdicts() []HourVerdict {
	job := d.main()
	always := d.always()
	standing := stopsIn(d.ofJob(job))
	out := make([]HourVerdict, len(d.hours))
	for i := range d.hours {
		h := &d.hours[i]
		v := HourVerdict{
			At: h.moment(), BoundBy: h.boundBy(standing), Phase: h.light.Phase, Inversion: h.sky.Inversion,
			DeltaT: h.sky.Depression, Grade: h.risk.Grade, Flown: h.risk.Flown, Deposit: h.risk.Worst, Humidity: d.taken[i],
			strips: h.strips, until: d.reach(i), takes: d.plan(h.strips).team.Elapsed,
		}
		v.Go = len(v.BoundBy) == 0
		v.Findings = h.ownFindings(d.hours[job.hour].papers.Findings, always)
		out[i] = v
	}
	return out
}

// boundBy are the codes of what forbids the hour, after those of what forbids every hour.
func (h *hour) boundBy(standing []finding.Code) []finding.Code {
	if len(standing) == 0 {
		return h.binding
	}
	codes := slices.Clone(standing)
	for _, code := range h.binding {
		if !slices.Contains(codes, code) {
			codes = append(codes, code)
		}
	}
	return codes
}

// main is the plan that the answer tells: that of the most good hours.
func (d *day) main() *planned {
	most := d.plans[0]
	for _, p := range d.plans {
		if len(p.good) > len(most.good) {
			most = p
		}
	}
	return most
}

// jobReports are what the rooms but the rules say that no hour moves, in the order of the rooms.
func (d *day) jobReports(p *planned) []report {
	h := &d.hours[p.hour]
	plan := report{p.plan.Findings, p.plan.Assumptions, p.plan.Sources}
	if len(p.good) == 0 {
		// Planned for a single hour: what that hour's wind alone forbids is not the job's.
		stops := geometryStops(&p.plan)
		plan.findings = slices.DeleteFunc(slices.Clone(plan.findings), func(f finding.Finding) bool {
			return f.Severity == finding.Stop && !slices.Contains(stops, f)
		})
	}
	return []report{
		lightReport(h.light),
		{d.rate.Findings, d.rate.Assumptions, d.rate.Sources},
		{p.power.Findings, p.power.Assumptions, p.power.Sources},
		plan,
		{p.team.Findings, p.team.Assumptions, p.team.Sources},
		d.in(h).fitness(p.plan, p.team),
	}
}

// ofJob are the findings of the job.
func (d *day) ofJob(p *planned) []finding.Finding {
	var all []finding.Finding
	for _, r := range d.jobReports(p) {
		all = append(all, r.findings...)
	}
	return all
}

// stopsIn lists the codes of the stops among findings, once each.
func stopsIn(found []finding.Finding) []finding.Code {
	var codes []finding.Code
	for _, f := range found {
		if f.Severity == finding.Stop && !slices.Contains(codes, f.Code) {
			codes = append(codes, f.Code)
		}
	}
	return codes
}

// always are the findings that every hour shares, once each: an hour in which the same thing is graver
// counts as well. One hour alone shares none.
func (d *day) always() []finding.Finding {
	if len(d.hours) < 2 {
		return nil
	}
	candidates := d.hours[0].findings
	for i := range d.hours {
		if d.hours[i].good() { // the first hour may hold the graver ones
			candidates = slices.Concat(candidates, d.hours[i].findings)
			break
		}
	}
	var shared []finding.Finding
	for i := range candidates {
		if f := &candidates[i]; !says(shared, f) && d.allTell(f) {
			shared = append(shared, *f)
		}
	}
	return shared
}

// allTell reports whether every hour tells a finding.
func (d *day) allTell(f *finding.Finding) bool {
	for i := range d.hours {
		if !d.hours[i].tells(f) {
			return false
		}
	}
	return true
}

// tells reports whether an hour has a finding, or a graver one of its code.
func (h *hour) tells(f *finding.Finding) bool {
	for i := range h.findings {
		g := &h.findings[i]
		if f.Code == g.Code && (g.Severity.Rank() < f.Severity.Rank() || sameFinding(f, g)) {
			return true
		}
	}
	return false
}

// sameFinding reports whether two findings say the same.
func sameFinding(f, g *finding.Finding) bool {
	return f.Code == g.Code && f.Severity == g.Severity && f.Subject == g.Subject && f.Message == g.Message
}

// says reports whether findings say what one does.
func says(found []finding.Finding, f *finding.Finding) bool {
	for i := range found {
		if sameFinding(&found[i], f) {
			return true
		}
	}
	return false
}

// ownFindings are what an hour has to say beside the job and the other hours, gravest first: notes are
// left to an assessment of the hour.
func (h *hour) ownFindings(papers, always []finding.Finding) []finding.Finding {
	theirs := h.papers.Findings
	if len(theirs) > 0 && len(papers) > 0 && &theirs[0] == &papers[0] {
		theirs = nil
	}
	own := make([]finding.Finding, 0, len(h.findings))
	for rank := finding.Stop.Rank(); rank < finding.Note.Rank(); rank++ {
		own = appendOwn(own, h.findings, always, rank)
		own = appendOwn(own, theirs, papers, rank)
	}
	for i := range own {
		roundFinding(&own[i])
	}
	return own
}

// appendOwn appends the findings of a rank that the known ones do not say.
func appendOwn(own, found, known []finding.Finding, rank int) []finding.Finding {
	for i := range found {
		if found[i].Severity.Rank() == rank && !says(known, &found[i]) {
			own = append(own, found[i])
		}
	}
	return own
}

// gather puts what is said of the job, and of every hour alike, into the answer.
func (d *day) gather(a *SprayHours) {
	p := d.main()
	whole := Answer{}
	whole.gather(d.jobReports(p)...)
	papers := d.hours[p.hour].papers
	whole.gather(report{papers.Findings, papers.Assumptions, papers.Sources}, report{findings: d.always(), assumptions: d.assumptions})
	d.citeHours(&whole, a.Hours)
	whole = rounded(whole)
	a.Findings, a.Assumptions, a.Sources = whole.Findings, whole.Assumptions, whole.Sources
	a.Cautions = append(cautions(d.hours[p.hour].papers), forecastCaution)
	a.Job = JobTime{
		Elapsed: p.team.Elapsed, Sorties: p.plan.Sorties, Sprayed: p.plan.Accounting.Sprayed,
		Aircraft: orElse(d.mission.Aircraft.Count, units.Count(1)),
	}
}

// citeHours gathers what the rooms assumed and cite in the hours, each once, in the order it comes up.
func (d *day) citeHours(whole *Answer, verdicts []HourVerdict) {
	assumed, cited := map[[2]string]bool{}, map[string]bool{} // only looked up
	cite := func(s *finding.Source) {
		if !cited[s.ID] {
			cited[s.ID] = true
			whole.cite(*s)
		}
	}
	for i := range d.hours {
		h := &d.hours[i]
		for _, taken := range [...][]finding.Assumption{h.sky.Assumptions, h.weight.Assumptions, h.risk.Assumptions} {
			for i := range taken {
				if s := &taken[i]; !assumed[[2]string{s.Subject, s.Assumed}] {
					assumed[[2]string{s.Subject, s.Assumed}] = true
					whole.gather(report{assumptions: []finding.Assumption{*s}})
				}
			}
		}
		for _, sources := range [...][]finding.Source{h.sky.Sources, h.weight.Sources, h.risk.Sources} {
			for i := range sources {
				cite(&sources[i])
			}
		}
		own := verdicts[i].Findings
		for i := range own {
			cite(&own[i].Source)
		}
	}
}

// forecastCaution goes with every answer on hours.
const forecastCaution = "These hours were judged from the weather you sent. A forecast is not a measurement: measure wind, temperature and humidity at the field before each takeoff, and look for an inversion with smoke."

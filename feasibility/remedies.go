package feasibility

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

// remedies tries the changes worth trying and keeps those that lift a stop, the need for the
// large-aircraft regime or another needed point that no paper settles, without raising a new stop.
// Each kept remedy was verified by letting the changed mission flow through the rooms again. Where
// no single change lifts every stop, the changes that lift one each are tried together. The best
// answer comes first, then the fewest open points, then the least hours.
func remedies(m Mission, a Answer) []Remedy {
	open := liftable(a)
	if len(open) == 0 {
		return nil
	}
	var kept []Remedy
	var useful []proven
	for _, t := range trials(m, a) {
		if r, lifted := verify(t, a, open); lifted {
			kept = append(kept, r)
			useful = append(useful, proven{t, r.Lifts})
		}
	}
	if len(stops(a)) > 0 && !slices.ContainsFunc(kept, func(r Remedy) bool { return r.AnswerThen != No }) {
		if r, lifted := together(m, a, useful, open); lifted {
			kept = append(kept, r)
		}
	}
	slices.SortStableFunc(kept, func(x, y Remedy) int {
		return cmp.Or(rank(x.AnswerThen)-rank(y.AnswerThen), len(x.then.points)-len(y.then.points),
			cmp.Compare(x.then.hours(), y.then.hours()))
	})
	return kept
}

// proven is a trial and the findings it was seen to lift.
type proven struct {
	trial
	lifts []finding.Code
}

// liftable lists the codes of the findings that a change of the mission could lift.
func liftable(a Answer) []finding.Code {
	return codesOf(a, func(f finding.Finding) bool {
		return f.Severity == finding.Stop || f.Severity == finding.Needed && (f.Code == takeoff.CodeOverSmallLimit || !isAuthorization(f.Code))
	})
}

// barring lists the codes of the findings that no remedy may raise.
func barring(a Answer) []finding.Code {
	return codesOf(a, func(f finding.Finding) bool {
		return f.Severity == finding.Stop || f.Code == takeoff.CodeOverSmallLimit && f.Severity == finding.Needed
	})
}

// codesOf lists the codes of some findings, sorted, once each.
func codesOf(a Answer, wanted func(finding.Finding) bool) []finding.Code {
	var codes []finding.Code
	for _, f := range a.Findings {
		if wanted(f) {
			codes = append(codes, f.Code)
		}
	}
	slices.Sort(codes)
	return slices.Compact(codes)
}

// verify assesses a changed mission again and reports the remedy where it lifts something, raises no
// new stop and leaves flights that can be planned.
func verify(t trial, before Answer, open []finding.Code) (Remedy, bool) {
	after := survey(t.mission)
	still := liftable(after)
	lifted := slices.DeleteFunc(slices.Clone(open), func(c finding.Code) bool { return slices.Contains(still, c) })
	bars := barring(before)
	raised := slices.ContainsFunc(barring(after), func(c finding.Code) bool { return !slices.Contains(bars, c) })
	if len(lifted) == 0 || raised || before.outlook().planned && !after.outlook().planned {
		return Remedy{}, false
	}
	return Remedy{
		Changes: t.changes, Lifts: lifted, Costs: costs(before, after),
		AnswerThen: verdict(after), then: after.outlook(),
	}, true
}

// together joins the useful single changes in one mission, each only where it lifts something
// that the ones before it did not; the first change of a fact stands.
func together(m Mission, a Answer, useful []proven, open []finding.Code) (Remedy, bool) {
	combined, left := trial{mission: m}, slices.Clone(open)
	for _, p := range useful {
		lifts := slices.ContainsFunc(p.lifts, func(c finding.Code) bool { return slices.Contains(left, c) })
		again := slices.ContainsFunc(p.changes, func(c Change) bool { return touches(combined.changes, c.Pointer) })
		if !lifts || again {
			continue
		}
		combined.changes = append(combined.changes, p.changes...)
		combined.mission = merged(combined.mission, p.trial)
		left = slices.DeleteFunc(left, func(c finding.Code) bool { return slices.Contains(p.lifts, c) })
	}
	if len(combined.changes) < 2 {
		return Remedy{}, false
	}
	return verify(combined, a, open)
}

func touches(changes []Change, pointer string) bool {
	return slices.ContainsFunc(changes, func(c Change) bool { return c.Pointer == pointer })
}

// merged takes the changed facts of a trial over into a mission.
func merged(m Mission, t trial) Mission {
	flight, system := *m.Flight, *m.SpraySystem
	for _, c := range t.changes {
		switch c.Pointer {
		case "/load/fill":
			m.Load.Fill = t.mission.Load.Fill
		case "/load/application_rate":
			m.Load.ApplicationRate = t.mission.Load.ApplicationRate
		case "/flight/speed":
			flight.Speed = t.mission.Flight.Speed
		case "/flight/height":
			flight.Height = t.mission.Flight.Height
		case "/spray_system/nozzle/rated_flow", discRotation:
			system = *t.mission.SpraySystem
		}
	}
	m.Flight, m.SpraySystem = &flight, &system
	return m
}

func rank(v Verdict) int {
	return slices.Index([]Verdict{Yes, YesIf, No}, v)
}

// costs says in plain words what gets worse, and what gets better, with a change.
func costs(before, after Answer) string {
	var said []string
	if b, n := before.SortiePlan.Sorties, after.SortiePlan.Sorties; b != n && b > 0 && n > 0 {
		said = append(said, fmt.Sprintf("sorties go from %d to %d", b, n))
	}
	b, n := before.Elapsed.In(units.Hour), after.Elapsed.In(units.Hour)
	if b > 0 && n > 0 && max(b, n)/max(1e-9, min(b, n)) > 1.02 {
		said = append(said, fmt.Sprintf("the job goes from %.1f to %.1f hours", b, n))
	}
	if before.DriftRisk.Grade != after.DriftRisk.Grade {
		said = append(said, fmt.Sprintf("drift risk goes from %s to %s", before.DriftRisk.Grade, after.DriftRisk.Grade))
	}
	said = append(said, crossingCosts(before, after)...)
	if len(said) == 0 {
		return "no change in sorties, hours or drift grade"
	}
	return strings.Join(said, "; ")
}

// regimeWords says a regime in plain words.
func regimeWords(r permits.Regime) string {
	if r == permits.SmallRegime {
		return "under 55 lb"
	}
	return "55 lb and over"
}

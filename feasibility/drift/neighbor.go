package drift

import (
	"strconv"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Neighbor is something next to the field that should not be sprayed.
type Neighbor struct {
	Kind      string // crop, dwelling, water, apiary, organic, road, other
	Distance  units.Length
	Bearing   units.Bearing     // from the field
	Tolerance *units.Proportion // of the applied rate; nil: not stated
}

// AtNeighbor is the deposit at a neighbor. A neighbor that is not downwind has no deposit: the
// mean wind does not go there.
type AtNeighbor struct {
	Kind          string
	Distance      units.Length
	PercentOfRate Estimate
	Downwind      bool
}

const (
	// downwindSector is how far off the wind's line of travel a neighbor still counts as downwind.
	// Own design, from the span in which a field trial's wind may vary: a valid trial has at most
	// 30 % of readings beyond 45 degrees (ISO 22866:2005, from memory).
	downwindSector = 45 * units.Degree
	// shiftSector is how far off a shift of the wind could still bring spray.
	shiftSector = 90 * units.Degree
	// nearest is the least distance at which a neighbor's deposit is read, m; the most is
	// farthestBuffer, whose deposit stands for all beyond.
	nearest = 0.5
)

// place is a neighbor as the room judges it.
type place struct {
	Neighbor
	pointer   string
	downwind  bool
	near      bool // within a wind shift of downwind
	stated    bool // the tolerance was stated
	tolerance units.Proportion
	estimate  Estimate // as if downwind, for near ones too
}

// sensitive reports whether a kind of neighbor is taken to tolerate next to nothing.
func sensitive(kind string) bool {
	switch kind {
	case "organic", "apiary", "dwelling", "water":
		return true
	}
	return false
}

// The shares of the rate taken as tolerated where none is stated: 1 %, as in US screening of the
// 1990s for ground spraying (from memory), and half of it for neighbors where any drift does harm.
// Own design.
const (
	usualTolerance     = 1 * units.Percent
	sensitiveTolerance = 0.5 * units.Percent
)

// defaultTolerance is the share of the rate that a kind of neighbor is taken to tolerate.
func defaultTolerance(kind string) units.Proportion {
	if sensitive(kind) {
		return sensitiveTolerance
	}
	return usualTolerance
}

// places judges where each neighbor lies against the wind and what lands there. In calm air every
// neighbor counts as downwind. The distance used is the neighbor's own, the shortest way: a way
// along a slanting wind is longer, so this errs on the safe side.
func places(in Input, l *landing, length float64) []place {
	out := make([]place, len(in.Neighbors))
	travel := in.WindFrom.Opposite()
	for i, n := range in.Neighbors {
		off := n.Bearing.Between(travel)
		p := place{Neighbor: n, pointer: atNeighbors + "/" + strconv.Itoa(i), tolerance: defaultTolerance(n.Kind)}
		p.downwind = isCalm(in) || n.LiesDownwind(in.WindFrom)
		p.near = !p.downwind && units.AtMost(off, shiftSector)
		if n.Tolerance != nil {
			p.stated = true
			p.tolerance = *n.Tolerance
		}
		p.tolerance = max(leastTolerance, p.tolerance)
		p.estimate = l.estimated(hold(n.Distance.SI(), nearest, farthestBuffer, nearest), length)
		out[i] = p
	}
	return out
}

// shown is what the answer shows of them.
func shown(places []place) []AtNeighbor {
	out := make([]AtNeighbor, len(places))
	for i, p := range places {
		out[i] = AtNeighbor{Kind: p.Kind, Distance: p.Distance, Downwind: p.downwind}
		if p.downwind {
			out[i].PercentOfRate = p.estimate
		}
	}
	return out
}

// judgeListing asks for the neighbors where none were listed. An empty list says that nothing lies
// around the field; no list says nothing, and a pesticide waits until somebody has looked.
func judgeListing(in Input, book *ledger) {
	if in.Neighbors != nil {
		return
	}
	book.assume(finding.Assumption{Subject: atNeighbors, Source: sourceDesign,
		Assumed: "for the buffer, a sensitive neighbor downwind that tolerates 0.5 % of the rate",
		Settle:  "send the neighbors with their distance, bearing and tolerance"})
	f := finding.Finding{Code: CodeNeighborsNotStated, Severity: finding.Needed, Subject: atNeighbors, Source: sourceDesign,
		Message: "What lies around the field was not stated, so drift was judged 33 ft (10 m) downwind. Walk or map the field's edges and send what lies there: crops, houses, water, bees, organic land, roads. If nothing does, say so: send an empty list."}
	if !in.Pesticide {
		f.Severity = finding.Caution
	}
	book.report(f)
}

// judgeNeighbors holds what lands at each neighbor against what it tolerates.
func judgeNeighbors(in Input, places []place, book *ledger) {
	assumed := false
	for _, p := range places {
		if !p.stated && !assumed {
			assumed = true
			book.assume(finding.Assumption{Subject: p.pointer + "/tolerance", Source: sourceDesign,
				Assumed: "where not stated, neighbors tolerate 1 % of the rate, and organic land, bees, dwellings and water 0.5 %",
				Settle:  "send the share of the rate each neighbor tolerates, from the label, the crop's adviser or the neighbor; 0.01 % or less means nothing at all"})
		}
		judgeLabelBuffer(in, p, book)
		switch {
		case p.downwind:
			judgeDownwind(in, p, book)
		case p.near && p.estimate.High > p.tolerance:
			book.report(finding.Finding{Code: CodeNeighborNearDownwind, Severity: finding.Caution, Subject: p.pointer + "/bearing", Source: sourceDesign,
				Message: "A shift of the wind would carry spray to the " + p.Words() + " " + inFeet(p.Distance) + " away: up to " + inPercent(p.estimate.High) + " of the rate could land there. Watch the wind, and stop if it turns."})
		}
	}
}

// judgeDownwind judges a neighbor that lies downwind. A stated tolerance is held strictly: over it
// by the best estimate is a stop, by the high estimate alone a caution, and for a neighbor that
// tolerates nothing (no more than leastTolerance) the high estimate stops. Where the tolerance was
// assumed, the caller must say; a pesticide that may drift onto a sensitive neighbor waits until then.
func judgeDownwind(in Input, p place, book *ledger) {
	f := finding.Finding{Subject: p.pointer, Source: sourceDesign, Measured: p.estimate.Best, Limit: p.tolerance, Margin: p.tolerance - p.estimate.Best}
	what := "the " + p.Words() + " " + inFeet(p.Distance) + " downwind"
	best, high := p.estimate.Best, p.estimate.High
	if units.AtMost(high, p.tolerance) {
		return
	}
	nothing := p.stated && units.AtMost(*p.Tolerance, leastTolerance)
	switch {
	case nothing:
		f.Code, f.Severity = CodeWindTowardSensitiveNeighbor, finding.Stop
		f.Measured, f.Margin = high, p.tolerance-high
		f.Message = "The wind blows toward " + what + ", which tolerates nothing, and up to " + inPercent(high) + " of the rate could land there. Wait for the wind to turn, use coarser drops, or leave a wider strip unsprayed."
	case !p.stated && sensitive(p.Kind):
		f.Code, f.Severity = CodeWindTowardSensitiveNeighbor, unstatedSensitive(in, p)
		f.Measured, f.Margin = high, p.tolerance-high
		most, taken := percentApart(high, p.tolerance)
		f.Message = "The wind blows toward " + what + ", and up to " + most + " % of the rate could land there. How much it tolerates was not stated, so " + taken + " % was taken. Wait for the wind to turn, use coarser drops, leave a wider strip unsprayed, or send what it tolerates."
	case !units.AtMost(best, p.tolerance) && p.stated:
		f.Code, f.Severity = CodeDepositOverTolerance, finding.Stop
		about, bears := percentApart(best, p.tolerance)
		f.Message = "About " + about + " % of the rate would land on " + what + ", which tolerates " + bears + " %. Use coarser drops, fly lower, leave a wider strip, or wait for a better wind."
	case !units.AtMost(best, p.tolerance):
		f.Code, f.Severity = CodeDepositOverAssumedTolerance, finding.Needed
		about, bears := percentApart(best, p.tolerance)
		f.Message = "About " + about + " % of the rate would land on " + what + ". Ask what it tolerates and send it; " + bears + " % was assumed. Coarser drops, flying lower or a wider strip bring it down."
	default:
		f.Code, f.Severity = CodeDepositMayExceedTolerance, finding.Caution
		f.Measured, f.Margin = high, p.tolerance-high
		most, bears := percentApart(high, p.tolerance)
		limit := "the " + bears + " % it tolerates"
		if !p.stated {
			limit = "the " + bears + " % taken as what it tolerates, because that was not stated"
		}
		f.Message = "Up to " + most + " % of the rate could land on " + what + ", more than " + limit + ". Use coarser drops, fly lower or leave a wider strip to be safe."
	}
	book.report(f)
}

// unstatedSensitive is how grave it is that spray may reach a sensitive neighbor whose tolerance was
// not stated. An assumed tolerance stops no job by itself: the caller must first say what is
// tolerated. It is a stop where the best estimate alone is more than an orchard airblast sprayer
// lays down at 10 m (the last row of the grade table), which no such neighbor can be taken to bear.
func unstatedSensitive(in Input, p place) finding.Severity {
	steps := GradeSteps()
	switch best := p.estimate.Best; {
	case in.Pesticide && !units.AtMost(best, steps[len(steps)-1].UpTo):
		return finding.Stop
	case in.Pesticide || !units.AtMost(best, p.tolerance):
		return finding.Needed
	default:
		return finding.Caution
	}
}

// judgeLabelBuffer holds a downwind neighbor's distance against the label's buffer.
func judgeLabelBuffer(in Input, p place, book *ledger) {
	label := in.Label.DownwindBuffer
	if label == nil || !p.downwind || units.AtLeast(p.Distance, *label) {
		return
	}
	away, buffer := feetApart(p.Distance, *label)
	f := finding.Finding{Code: CodeInsideLabelBuffer, Severity: finding.Stop, Subject: p.pointer + "/distance", Source: sourceLabel,
		Message: "The " + p.Words() + " lies " + away + " ft downwind, inside the label's buffer of " + buffer + " ft. Leave the missing strip of the field unsprayed, or wait for the wind to turn."}
	f.Measured, f.Limit, f.Margin = downTo(p.Distance, *label)
	book.report(f)
}

// LiesDownwind reports whether the neighbor stands within the downwind sector of a wind from a
// direction. In calm air the drift counts every neighbor as downwind; that is not this answer's.
func (n Neighbor) LiesDownwind(windFrom units.Bearing) bool {
	return units.AtMost(n.Bearing.Between(windFrom.Opposite()), downwindSector)
}

// Words names the neighbor in plain words.
func (n Neighbor) Words() string {
	switch n.Kind {
	case "crop":
		return "neighbor's crop"
	case "organic":
		return "organic land"
	case "apiary":
		return "bee yard"
	case "dwelling":
		return "house"
	case "water", "road":
		return n.Kind
	default:
		return "neighbor"
	}
}

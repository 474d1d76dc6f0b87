package feasibility

import (
	"cmp"
	"slices"
	"time"

	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/units"
)

// windows joins good hours that follow each other without a gap.
func (d *day) windows(hours []HourVerdict) []Window {
	var all []Window
	for i := 0; i < len(hours); i++ {
		if !hours[i].Go {
			continue
		}
		last := i
		for last+1 < len(hours) && hours[last+1].Go && !hours[last+1].At.After(hours[last].until) {
			last++
		}
		hours[last].until = d.closing(last)
		all = append(all, newWindow(hours, i, last))
		i = last
	}
	return all
}

// newWindow is the window of the hours from first to last.
func newWindow(hours []HourVerdict, first, last int) Window {
	w := Window{From: hours[first].At, To: hours[last].until, first: first, last: last}
	w.Length = spanOf(w.From, w.To)
	w.Grade, w.Deposit = worstIn(hours[first : last+1])
	known := true
	for _, h := range hours[first : last+1] {
		w.takes = max(w.takes, h.takes)
		known = known && h.takes > 0
	}
	w.EnoughForJob = known && units.AtMost(w.takes, w.Length)
	return w
}

// spanOf is the time from one moment to another.
func spanOf(from, to time.Time) units.Duration {
	return units.Duration(to.Sub(from).Seconds()) * units.Second
}

// worstIn is the worst grade of some hours, and the largest deposit.
func worstIn(hours []HourVerdict) (drift.Grade, units.Proportion) {
	grade, deposit := drift.Low, units.Proportion(0)
	for _, h := range hours {
		if gradeRank(h.Grade) > gradeRank(grade) {
			grade = h.Grade
		}
		deposit = max(deposit, h.Deposit)
	}
	return grade, deposit
}

// gradeRank orders grades, least first; what is no grade is the worst.
func gradeRank(g drift.Grade) int {
	grades := []drift.Grade{drift.Low, drift.Moderate, drift.High, drift.Severe}
	if i := slices.Index(grades, g); i >= 0 {
		return i
	}
	return len(grades)
}

// reach is how far an hour speaks: to the next, one hour at most.
func (d *day) reach(i int) time.Time {
	until := d.hours[i].moment().Add(hourSpan)
	if i+1 < len(d.hours) {
		if next := d.hours[i+1].moment(); next.Before(until) {
			return next
		}
	}
	return until
}

// closing is when the last hour of a window ends: where it speaks to, or sooner, at the first turn of
// the light at which the same weather is no longer good.
func (d *day) closing(i int) time.Time {
	h, until := &d.hours[i], d.reach(i)
	for _, turn := range turnsAtDusk(h.light) {
		if !turn.After(h.moment()) || !turn.Before(until) {
			continue
		}
		w := *h.weather
		w.At = new(turn.Add(time.Second))
		then := hour{taken: h.taken}
		d.begin(&then, &w)
		then.strips = h.strips
		if d.finish(&then); !then.good() {
			return turn
		}
	}
	return until
}

// stretch is a part of a window as long as the job.
type stretch struct {
	window   int
	from, to time.Time
	grade    drift.Grade
	deposit  units.Proportion
}

// best finds the stretch with the least drift among the windows that are long enough, the earliest of
// equals; where none is, the fewest windows that are long enough together.
func best(a SprayHours) *Best {
	var found []stretch
	for i, w := range a.Windows {
		if w.EnoughForJob {
			found = append(found, stretches(a.Hours, i, w)...)
		}
	}
	if len(found) == 0 {
		return split(a)
	}
	least := slices.MinFunc(found, func(x, y stretch) int {
		return cmp.Or(gradeRank(x.grade)-gradeRank(y.grade), cmp.Compare(x.deposit, y.deposit), x.from.Compare(y.from))
	})
	return &Best{From: least.from, To: least.to, Windows: []int{least.window}, Because: becauseBest(a, least)}
}

// stretches lists the parts of a window in which the job can be done, one for each hour to begin at.
func stretches(hours []HourVerdict, at int, w Window) []stretch {
	var all []stretch
	lasts := time.Duration(w.takes.In(units.Second) * float64(time.Second)).Round(time.Second)
	for i := w.first; i <= w.last; i++ {
		from := hours[i].At
		to := from.Add(lasts)
		if to.After(w.To) && i > w.first {
			break
		}
		last := i
		for last < w.last && hours[last+1].At.Before(to) {
			last++
		}
		s := stretch{window: at, from: from, to: to}
		s.grade, s.deposit = worstIn(hours[i : last+1])
		all = append(all, s)
	}
	return all
}

// split takes the longest windows until they are long enough together.
func split(a SprayHours) *Best {
	order := make([]int, len(a.Windows))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(a.Windows[y].Length, a.Windows[x].Length) })
	var sum, takes units.Duration
	for n, i := range order {
		if a.Windows[i].takes <= 0 {
			return nil
		}
		sum += a.Windows[i].Length
		takes = max(takes, a.Windows[i].takes)
		if !units.AtMost(takes, sum) {
			continue
		}
		chosen := slices.Sorted(slices.Values(order[:n+1]))
		b := &Best{From: a.Windows[chosen[0]].From, To: a.Windows[chosen[n]].To, Windows: chosen}
		b.Because = becauseSplit(a, *b, sum, takes)
		return b
	}
	return nil
}

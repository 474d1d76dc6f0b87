package feasibility

import (
	"fmt"
	"math"
	"strings"

	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

// Crossing is what the checklist becomes on the other side of the 55 lb line, and the change that
// takes the takeoff there. To is empty where the table has no such line or the weight is not known.
// The side is the weight's alone: whether the machine may be flown so is for its own limits.
type Crossing struct {
	To           permits.Regime
	WeightChange units.Mass    // what the takeoff must lose (negative) or gain to get there
	FillChange   *units.Volume // the same as a change of the fill; nil where no fill of this tank does it
	FillThen     *units.Volume // the fill just under the line, or the least one on it
	Items        []permits.Difference
	Text         string // plain words
}

// acrossTheLine holds the mission against the table on the other side of the line. Everything but
// the takeoff weight stays as it is: the weight is the only fact that the two sides differ in.
func acrossTheLine(m Mission, asked *permits.Case, weight takeoff.Result, here permits.Checklist) Crossing {
	if here.Elsewhere != "" || weight.Total <= 0 || weight.Density <= 0 {
		return Crossing{}
	}
	c := Crossing{To: permits.LargeRegime}
	if here.Regime == permits.LargeRegime {
		c.To = permits.SmallRegime
	}
	c.place(m, weight)
	if !asked.Settled() { // both sides as if the fill were settled
		asked = asked.Settle()
		here = asked.Check()
	}
	c.Items = asked.Across(here, weight.Total+c.WeightChange)
	c.Text = c.words()
	return c
}

// place finds the change that takes the takeoff across the line.
func (c *Crossing) place(m Mission, weight takeoff.Result) {
	dry := max(0, weight.Total-weight.Density.Mass(weight.Fill))
	if c.To == permits.LargeRegime {
		c.WeightChange = justOver - weight.Total
		fill := weight.Density.Volume(justOver - dry)
		if units.AtMost(fill, m.Aircraft.TankCapacity) {
			c.fill(fill, weight)
		}
		return
	}
	under := largestUnder(weight)
	if under > 0 {
		c.WeightChange = dry + weight.Density.Mass(under) - weight.Total
		c.fill(under, weight)
		return
	}
	c.WeightChange = justUnder - weight.Total // no fill is left: the airframe itself is too heavy
}

func (c *Crossing) fill(then units.Volume, weight takeoff.Result) {
	change := then - weight.Fill
	c.FillChange, c.FillThen = &change, &then
}

// justUnder is a weight a hair under the line, one part in a million; justOver is one part in a
// hundred thousand over it, so that the fill stays at the line when it is rounded to six digits.
// Own choices.
const (
	justUnder = takeoff.SmallLine * (1 - 1e-6)
	justOver  = takeoff.SmallLine * (1 + 1e-5)
)

// otherSide is a takeoff weight on the other side of the line that the job may have, and the pointers
// of what was not stated: the fill, where one that this tank holds leads there, whatever the maker says of it;
// the density, unless the load is a pesticide, which is mixed into water (common practice). It is nil
// where the side is settled. Equipment that was not stated is for the takeoff room to warn of.
func (m Mission) otherSide(weight takeoff.Result) (*units.Mass, []string) {
	var open []string
	least, most := weight.Fill, weight.Fill
	if m.Load.Fill == nil {
		open = append(open, "/load/fill")
		least, most = 0, max(weight.Fill, m.Aircraft.TankCapacity)
	}
	lightest, heaviest := weight.Density, weight.Density
	if m.Load.Density == nil && !m.Load.Pesticide {
		open = append(open, "/load/density")
		lightest, heaviest = takeoff.LiquidRange()
	}
	if len(open) == 0 {
		return nil, nil
	}
	dry := max(0, weight.Total-weight.Density.Mass(weight.Fill))
	low := dry + lightest.Mass(least)
	high := dry + heaviest.Mass(most)
	other := high // the heaviest there is on that side: no bound on weight is then missed
	if !weight.Small {
		other = justUnder
	}
	settled := units.StrictlyBelow(high, takeoff.SmallLine)
	if !weight.Small {
		settled = !units.StrictlyBelow(low, takeoff.SmallLine)
	}
	if settled {
		return nil, nil
	}
	return &other, open
}

// largestUnder is the largest fill strictly under the 55 lb line, zero where there is none.
func largestUnder(weight takeoff.Result) units.Volume {
	for _, limit := range weight.Limits {
		if limit.Code == takeoff.SmallUnmannedAircraft {
			return limit.FillLimit
		}
	}
	return 0
}

// words says the crossing: the change, and what it asks for that was not asked before.
func (c Crossing) words() string {
	regime := " puts the takeoff in the large regime (55 lb and over)"
	if c.To == permits.SmallRegime {
		regime = " keeps you in the small regime (under 55 lb on takeoff)"
	}
	said := c.changeWords() + regime + "; " + counted(len(c.Items), "item changes", "items change") + " then"
	anew := c.asked()
	if len(anew) == 0 {
		return said + "."
	}
	return said + ", and " + counted(len(anew), "is new", "are new") + " to get or confirm: " + strings.Join(anew, ", ") + "."
}

// changeWords says the change of the fill or, where no fill does it, of the weight.
func (c Crossing) changeWords() string {
	direction := "more"
	if c.WeightChange < 0 {
		direction = "less"
	}
	if c.FillChange != nil {
		return volumeUp(*c.FillChange) + " " + direction + " in the tank"
	}
	amount := three(max(c.WeightChange, -c.WeightChange).In(units.Pound)) + " lb"
	if direction == "less" {
		return amount + " less on the aircraft (no fill is small enough)"
	}
	return amount + " more on board (more than the tank holds)"
}

// volumeUp prints a change of the fill, rounded up to two digits, so that a change of so much is
// enough.
func volumeUp(v units.Volume) string {
	gallons := max(v, -v).In(units.Gallon)
	up := units.Significant(gallons, 2)
	if up < gallons {
		up += math.Pow10(int(math.Floor(math.Log10(gallons))) - 1)
	}
	return three(up) + " gal"
}

// asked lists the titles of the papers that the other side asks for and this side does not.
func (c Crossing) asked() []string {
	titles := make([]string, 0, len(c.Items))
	for _, d := range c.Items {
		open := d.To == permits.NeededNow || d.To == permits.Unknown || d.To == permits.Prohibited
		if open && (d.From == permits.NotNeeded || d.From == permits.Held) && (d.Kind == permits.Permit || d.Kind == permits.Limit) && d.ID != weightRow {
			titles = append(titles, d.Title)
		}
	}
	return titles
}

// weightRow is the row of the line itself, which is no paper.
const weightRow = "weight-small-limit"

// smallExemption is the grant under 55 lb. One for 55 lb and over does not cover a lighter takeoff.
const smallExemption = "exemption-small-agricultural"

// crossingCosts says what papers a change across the line asks for: the exemption of the side it
// leads to, even where that of the other side is held.
func crossingCosts(before, after Answer) []string {
	to := after.Authorizations.Regime
	if before.Authorizations.Regime == to || after.Authorizations.Elsewhere != "" {
		return nil
	}
	said := []string{fmt.Sprintf("other papers count, those for %s: %d to get or confirm", regimeWords(to), len(papers(after)))}
	id, other := "exemption-large-agricultural", smallExemption
	if to == permits.SmallRegime {
		id, other = other, id
	}
	for _, item := range after.Authorizations.Items {
		if item.ID != id || item.Status == permits.NotNeeded {
			continue
		}
		said = append(said, exemptionWords(item, to, statusOf(before, other) == permits.Held))
	}
	return said
}

// exemptionWords says how the exemption of a regime stands.
func exemptionWords(item permits.Item, to permits.Regime, otherHeld bool) string {
	said := fmt.Sprintf("the job then needs the exemption for %s (%s)", regimeWords(to), item.ID)
	switch {
	case item.Status == permits.Held:
		return said + ", which you hold"
	case otherHeld:
		return said + "; the one you hold does not cover it unless its text says so"
	default:
		return said
	}
}

// statusOf is the status of a row in an answer; not needed where it has no such row.
func statusOf(a Answer, id string) permits.Status {
	for _, item := range a.Authorizations.Items {
		if item.ID == id {
			return item.Status
		}
	}
	return permits.NotNeeded
}

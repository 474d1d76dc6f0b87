package permits

import (
	"fmt"
	"slices"
	"strings"

	"tractcheck/feasibility/finding"
)

// CodeSideNotSettled says that the fill or the density was not stated, so that the takeoff may be on
// either side of 55 lb.
const CodeSideNotSettled finding.Code = "permit_side_of_line_not_settled"

// openSide makes unknown what is not needed on this side of the 55 lb line and asked for on the
// other, where the takeoff may be on either for want of a fill or a density: a row is not needed only if
// no side asks for it. What is held for the other side is shown as held.
func (v view) openSide(items []Item, rules []Rule) []Item {
	if v.OtherSide == nil || !known(*v.OtherSide) || len(v.Unweighed) == 0 {
		return items
	}
	there := v.otherView()
	for i := range items {
		at := slices.IndexFunc(rules, func(r Rule) bool { return r.ID == items[i].ID })
		other, shown := there.item(rules[at])
		if items[i].Kind == Notice || items[i].Status != NotNeeded || !shown || other.Status == NotNeeded {
			continue
		}
		if other.Status != Held {
			other.Status, other.open, other.Missing = Unknown, true, v.Unweighed
		}
		other.Because = fmt.Sprintf("%s%s, which may put the takeoff at %s as well; then: %s",
			notStated, v.unweighed(), poundsBeside(*v.OtherSide, weightLine), other.Because)
		items[i] = other
	}
	arrange(items)
	return items
}

// unweighed names what was not stated of the liquid's weight.
func (v view) unweighed() string {
	var said []string
	for _, pointer := range v.Unweighed {
		said = append(said, "the "+pointer[strings.LastIndexByte(pointer, '/')+1:])
	}
	return strings.Join(said, " and ")
}

// otherView is the same mission on the other side of the line.
func (v view) otherView() view {
	f := v.Facts
	f.TakeoffWeight, f.Small, f.OtherSide = *v.OtherSide, v.regime == LargeRegime, nil
	return look(f)
}

// sideFinding sums up what is unknown only because the side is, in one finding.
func (v view) sideFinding(items []Item) []finding.Finding {
	open := 0
	for _, item := range items {
		if item.open && item.Kind != Duty {
			open++
		}
	}
	if open == 0 {
		return nil
	}
	return []finding.Finding{{
		Code: CodeSideNotSettled, Severity: finding.Needed, Subject: v.Unweighed[0],
		Message: fmt.Sprintf("Side of the 55 lb line: not known yet, so do not count on it. Why: not stated: %s; this list is for a takeoff of %s (%s regime), "+
			"and it can be on the other side as well, where %d more permits and checks count. To do: decide what you load, and send what is missing. (14 CFR 107.3)",
			v.unweighed(), poundsBeside(v.TakeoffWeight, weightLine), v.regime, open),
		Measured: v.TakeoffWeight, Limit: weightLine, Margin: margin(weightLine, v.TakeoffWeight),
		Source: v.source("14-cfr-107-3"),
	}}
}

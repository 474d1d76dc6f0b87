package permits

import (
	"strconv"
	"strings"

	"tractcheck/feasibility/finding"
)

// CodeSideNotSettled says that the fill or the density was not stated, so that the takeoff may be on
// either side of 55 lb.
const CodeSideNotSettled finding.Code = "permit_side_of_line_not_settled"

// eitherSide is the subject of an item that is unknown only because the side of the 55 lb line is.
const eitherSide = "either side of the line"

// open reports whether an item is unknown only because the side of the 55 lb line is.
func (i *Item) open() bool { return i.subject == eitherSide }

// openSide makes unknown what is not needed on this side of the 55 lb line and asked for on the
// other, where the takeoff may be on either for want of a fill or a density: a row is not needed only if
// no side asks for it. What is held for the other side is shown as held.
func (v *view) openSide(items []Item) {
	if v.OtherSide == nil || !known(*v.OtherSide) || len(v.Unweighed) == 0 {
		return
	}
	there := v.otherView()
	for i := range items {
		if items[i].Kind == Notice || items[i].Status != NotNeeded {
			continue
		}
		var other Item
		if !there.item(items[i].row, &other) || other.Status == NotNeeded {
			continue
		}
		if other.Status != Held {
			other.Status, other.subject, other.Missing = Unknown, eitherSide, v.Unweighed
		}
		other.Because = v.say(notStated, v.unweighed(), ", which may put the takeoff at ",
			v.poundsBeside(*v.OtherSide, weightLine), " as well; then: ", other.Because)
		items[i] = other
	}
	arrange(items)
}

// unweighed names what was not stated of the liquid's weight.
func (v *view) unweighed() string {
	said := ""
	for i, pointer := range v.Unweighed {
		and := " and the "
		if i == 0 {
			and = "the "
		}
		said = v.say(said, and, pointer[strings.LastIndexByte(pointer, '/')+1:])
	}
	return said
}

// otherView is the same mission on the other side of the line.
func (v *view) otherView() *view {
	there := &view{Facts: v.Facts, scribe: v.scribe, shared: &judged{}}
	there.TakeoffWeight, there.Small, there.OtherSide = *v.OtherSide, v.regime == LargeRegime, nil
	there.look()
	return there
}

// sideFinding sums up what is unknown only because the side is, in one finding.
func (v *view) sideFinding(found []finding.Finding, items []Item) []finding.Finding {
	open := 0
	for i := range items {
		if items[i].open() && items[i].Kind != Duty {
			open++
		}
	}
	if open == 0 {
		return found
	}
	line := compare(v, v.TakeoffWeight, weightLine, margin(weightLine, v.TakeoffWeight))
	return append(found, finding.Finding{
		Code: CodeSideNotSettled, Severity: finding.Needed, Subject: v.Unweighed[0],
		Message: v.say("Side of the 55 lb line: not known yet, so do not count on it. Why: not stated: ", v.unweighed(),
			"; this list is for a takeoff of ", v.poundsBeside(v.TakeoffWeight, weightLine), " (", string(v.regime),
			" regime), and it can be on the other side as well, where ", strconv.Itoa(open),
			" more permits and checks count. To do: decide what you load, and send what is missing. (14 CFR 107.3)"),
		Measured: line.Measured, Limit: line.Limit, Margin: line.Margin,
		Source: weightRow.source,
	})
}

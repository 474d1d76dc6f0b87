package permits

import (
	"cmp"
	"slices"
)

// items evaluates every row and sorts: by group, within a group prohibited, needed, unknown, held,
// not needed, and within those in the order of the table.
func (v view) items(rules []Rule) []Item {
	items := make([]Item, 0, len(rules))
	for _, rule := range rules {
		if item, shown := v.item(rule); shown {
			items = append(items, item)
		}
	}
	arrange(items)
	return items
}

// arrange sorts items and drops the dependencies that this mission does not ask for.
func arrange(items []Item) {
	slices.SortStableFunc(items, func(a, b Item) int {
		return cmp.Or(cmp.Compare(a.Group, b.Group), cmp.Compare(a.Status.rank(), b.Status.rank()))
	})
	dropSettledDependencies(items)
}

// dropSettledDependencies keeps of each item's dependencies those that this mission asks for.
func dropSettledDependencies(items []Item) {
	asked := make(map[string]bool, len(items))
	for _, item := range items {
		asked[item.ID] = item.Status != NotNeeded
	}
	for i := range items {
		var kept []string
		for _, id := range items[i].DependsOn {
			if asked[id] {
				kept = append(kept, id)
			}
		}
		items[i].DependsOn = kept
	}
}

// item evaluates one row. A notice is shown only where it fits.
func (v view) item(r Rule) (Item, bool) {
	item := v.blank(r)
	if !r.binds(v.regime) {
		item.Status, item.Because = NotNeeded, r.regimeReason()
		return item, r.Kind != Notice
	}
	j := r.applies(v)
	item.Because = j.Because
	item.Measured, item.Limit, item.Margin = j.Measured, j.Limit, j.Margin
	if last := len(j.Pointers) - 1; last >= 0 {
		item.subject = j.Pointers[last] // conditions go from the general to the particular
	}
	if r.Kind == Notice {
		item.Status = NotNeeded
		return item, j.Truth == Yes
	}
	switch j.Truth {
	case No:
		item.Status = NotNeeded
	case Yes:
		v.bind(r, j, &item)
	default:
		v.wait(r, j, &item)
	}
	return item, true
}

// blank is the item of a row before its status is known.
func (v view) blank(r Rule) Item {
	leadTime, lead := r.lead(v.regime)
	return Item{
		ID: r.ID, Title: r.Title, Citation: r.cited(v.regime), HowToGet: r.howToGet(v.regime),
		Evidence: r.Evidence, LeadTime: leadTime, Kind: r.Kind, Group: r.Group, Grade: r.Grade,
		Demands: r.Demands, Validity: r.Validity, Lead: lead, QuickPath: r.QuickPath, Waiver: r.Waiver(), DependsOn: r.DependsOn,
		sources: r.Sources, pointed: r.pointed,
	}
}

// bind gives the status of a row that binds: a label breach is prohibited whatever is held; a
// valid holding that reaches the breach is held, an open one unknown; a limit that nothing lifts is
// prohibited; anything else is needed.
func (v view) bind(r Rule, j Judgment, item *Item) {
	if r.Kind == OnLabel {
		item.Status = Prohibited
		return
	}
	valid, expired := v.held(r)
	if valid != nil && !j.beyond {
		item.hold(*valid, r)
		return
	}
	item.Status = NeededNow
	switch {
	case r.Kind == Limit && r.Relief == ReliefNone:
		item.Status = Prohibited
	case expired != nil:
		item.Because += "; " + expired.lapsed()
		item.subject = expiriesPointer
	case r.has != nil:
		item.weigh(r.has(v))
	}
}

// hold marks an item as held, or as unknown where nobody can tell whether the holding is valid.
func (i *Item) hold(h holding, r Rule) {
	i.Status, i.Expires = Held, h.expiry
	i.Because += "; " + h.note(r.Validity != "")
	if h.open() {
		i.Status, i.Missing = Unknown, []string{datePointer}
	}
}

// weigh settles an item by what other facts say on whether it is held.
func (i *Item) weigh(has Judgment) {
	reason := has.Because
	if has.Truth == CannotTell {
		reason = notStated + reason
	}
	i.Because += "; " + reason
	switch has.Truth {
	case Yes:
		i.Status = Held
	case No:
		i.Status = NeededNow
	default:
		i.Status, i.Missing = Unknown, has.Pointers
	}
}

// expiriesPointer is the fact that a lapsed holding turns on.
const expiriesPointer = "/operation/expiries"

// datePointer is the fact that an open holding waits for.
const datePointer = "/weather/at"

// notStated stands before the facts that are missing.
const notStated = "not stated: "

// wait gives the status of a row whose condition cannot be told: unknown, unless the row is one
// that a holding settles.
func (v view) wait(r Rule, j Judgment, item *Item) {
	item.Status, item.Missing = Unknown, j.Pointers
	item.Because = notStated + j.Because
	valid, expired := v.held(r)
	switch {
	case valid != nil && r.heldSettles:
		item.Because, item.Missing = "conditions of the grant", nil
		item.hold(*valid, r)
	case valid != nil:
		item.Because += "; " + valid.note(false) + ", which counts once the rest is known"
	case expired != nil:
		item.Because += "; " + expired.lapsed()
	}
}

package permits

// items evaluates every row and sorts: by group, within a group prohibited, needed, unknown, held,
// not needed, and within those in the order of the table. Items are large, so each is moved once, to its place.
func (v *view) items() []Item {
	var room [usualRows]Item
	rows, shown := sized(room[:], len(table)), 0
	for i := range table {
		if v.item(&table[i], &rows[shown]) {
			shown++
		}
	}
	rows = rows[:shown]
	var order [usualRows]int
	items := make([]Item, shown)
	for to, from := range orderOf(rows, sized(order[:], shown)) {
		items[to] = rows[from]
	}
	askedDependencies(items)
	return items
}

// arrange sorts items and lists the dependencies that this mission asks for.
func arrange(items []Item) {
	var order [usualRows]int
	permute(items, orderOf(items, sized(order[:], len(items))))
	askedDependencies(items)
}

// orderOf fills in which item comes at each place of the checklist.
func orderOf(items []Item, order []int) []int {
	var room [usualRows]stage
	stages := sized(room[:], len(items))
	for i := range items {
		stages[i] = stageOf(items[i].Group, items[i].Status)
	}
	return orderByStage(stages, order)
}

// askedDependencies lists of each item's dependencies those that this mission asks for.
func askedDependencies(items []Item) {
	var room [usualRows]bool
	asked := sized(room[:], len(table))
	count := 0
	for i := range items {
		if r := items[i].row; r != nil {
			asked[r.at] = items[i].Status != NotNeeded
			count += len(r.after)
		}
	}
	ids := make([]string, 0, count) // one piece of memory for all lists
	for i := range items {
		r, start := items[i].row, len(ids)
		if r == nil {
			continue
		}
		for _, at := range r.after {
			if asked[at] {
				ids = append(ids, table[at].ID)
			}
		}
		items[i].DependsOn = nil
		if len(ids) > start {
			items[i].DependsOn = ids[start:len(ids):len(ids)]
		}
	}
}

// item evaluates one row into an empty item and reports whether it is shown. A notice is shown only where it
// fits.
func (v *view) item(r *row, item *Item) bool {
	item.Entry = &r.small
	if v.regime == LargeRegime {
		item.Entry = &r.large
	}
	if !r.binds(v.regime) {
		item.Status, item.Because = NotNeeded, r.regimeReason()
		return r.Kind != Notice
	}
	j := r.applies(v)
	item.Because, item.Compared = j.Because, j.Compared
	item.subject = j.Pointers.last() // conditions go from the general to the particular
	if r.Kind == Notice {
		item.Status = NotNeeded
		return j.Truth == Yes
	}
	switch j.Truth {
	case No:
		item.Status = NotNeeded
	case Yes:
		v.bind(r, &j, item)
	default:
		v.wait(r, &j, item)
	}
	return true
}

// bind gives the status of a row that binds: a label breach is prohibited whatever is held; a
// valid holding that reaches the breach is held, an open one unknown; a limit that nothing lifts is
// prohibited; anything else is needed.
func (v *view) bind(r *row, j *Judgment, item *Item) {
	if r.Kind == OnLabel {
		item.Status = Prohibited
		return
	}
	valid, expired := v.held(r)
	if valid.some() && !j.beyond {
		v.hold(item, valid)
		return
	}
	item.Status = NeededNow
	switch {
	case r.Kind == Limit && r.Relief == ReliefNone:
		item.Status = Prohibited
	case expired.some():
		item.Because = v.say(item.Because, "; ", v.lapsed(expired))
		item.subject = expiriesPointer
	case r.has != nil:
		v.weigh(item, r.has(v))
	}
}

// hold marks an item as held, or as unknown where nobody can tell whether the holding is valid.
func (v *view) hold(i *Item, h holding) {
	i.Status, i.Expires = Held, h.expiry
	note := v.note(h, i.Validity != "")
	i.Because = v.say(i.Because, "; ", note.held, note.id, note.through, note.day, note.open)
	if h.open() {
		i.Status, i.Missing = Unknown, []string{datePointer}
	}
}

// weigh settles an item by what other facts say on whether it is held.
func (v *view) weigh(i *Item, has Judgment) {
	unsaid := ""
	if has.Truth == CannotTell {
		unsaid = notStated
	}
	i.Because = v.say(i.Because, "; ", unsaid, has.Because)
	switch has.Truth {
	case Yes:
		i.Status = Held
	case No:
		i.Status = NeededNow
	default:
		i.Status, i.Missing = Unknown, v.listed(&has.Pointers)
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
func (v *view) wait(r *row, j *Judgment, item *Item) {
	item.Status = Unknown
	valid, expired := v.held(r)
	if valid.some() && r.heldSettles {
		item.Because = "conditions of the grant"
		v.hold(item, valid)
		return
	}
	item.Missing = v.listed(&j.Pointers)
	switch {
	case valid.some():
		note := v.note(valid, false)
		item.Because = v.say(notStated, j.Because, "; ", note.held, note.id, note.through, note.day, note.open,
			", which counts once the rest is known")
	case expired.some():
		item.Because = v.say(notStated, j.Because, "; ", v.lapsed(expired))
	default:
		item.Because = v.say(notStated, j.Because)
	}
}

package permits

import "tractcheck/feasibility/units"

// Difference is a row that stands differently in two checklists.
type Difference struct {
	*Entry // of the second checklist

	From, To Status
	Because  string // of the second checklist
}

// Differences lists the rows whose status differs, in the order of the second checklist. It shows
// what crossing the weight line, or any other change of the mission, costs or saves on paper.
// Notices never differ.
func Differences(from, to Checklist) []Difference {
	before := make(map[string]Status, len(from.Items))
	for i := range from.Items {
		before[from.Items[i].ID] = from.Items[i].Status
	}
	var changed []Difference
	for i := range to.Items {
		item := &to.Items[i]
		if was, known := before[item.ID]; known && was != item.Status {
			changed = append(changed, Difference{Entry: item.Entry, From: was, To: item.Status, Because: item.Because})
		}
	}
	return changed
}

// Across lists the rows that would stand differently if the same mission took off at another weight,
// on the other side of the 55 lb line, in the order of that side's checklist. It gives what
// Differences gives for here, the checklist of the case, and the one at that weight; it evaluates only
// the rows that the weight can change. The side must be settled.
func (c *Case) Across(here Checklist, weight units.Mass) []Difference {
	stays, there := c.view, &c.view
	there.TakeoffWeight, there.Small, there.shared = weight, !stays.Small, nil
	there.look()
	var room [usualRows]Status
	statuses := statusesByRow(here.Items, sized(room[:], len(table)))
	changed, shown := make([]Difference, 0, mostAcross), make([]stage, 0, mostAcross)
	for i := range table {
		r := &table[i]
		if r.Regimes == BothRegimes && !r.weighs || r.Kind == Notice {
			continue
		}
		var item Item
		if there.item(r, &item); item.Status == statuses[i] {
			continue
		}
		shown = append(shown, stageOf(item.Group, item.Status))
		changed = append(changed, Difference{Entry: item.Entry, From: statuses[i], To: item.Status, Because: item.Because})
	}
	c.view = stays
	sortByStage(changed, shown)
	return changed
}

// mostAcross is about how many rows differ across the line; more only take more memory.
const mostAcross = 18

// statusesByRow fills in the statuses of a checklist in the order of the table.
func statusesByRow(items []Item, statuses []Status) []Status {
	for i := range items {
		if r := items[i].row; r != nil {
			statuses[r.at] = items[i].Status
		}
	}
	return statuses
}

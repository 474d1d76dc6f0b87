package permits

// Difference is a row that stands differently in two checklists.
type Difference struct {
	ID       string
	Title    string
	Kind     Kind
	From, To Status
	Because  string // of the second checklist
}

// Differences lists the rows whose status differs, in the order of the second checklist. It shows
// what crossing the weight line, or any other change of the mission, costs or saves on paper.
// Notices never differ.
func Differences(from, to Checklist) []Difference {
	before := make(map[string]Status, len(from.Items))
	for _, item := range from.Items {
		before[item.ID] = item.Status
	}
	var changed []Difference
	for _, item := range to.Items {
		if was, known := before[item.ID]; known && was != item.Status {
			changed = append(changed, Difference{ID: item.ID, Title: item.Title, Kind: item.Kind, From: was, To: item.Status, Because: item.Because})
		}
	}
	return changed
}

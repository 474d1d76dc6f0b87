package wire

import (
	"math"
	"time"

	"tractcheck/feasibility"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/units"
)

// Authorizations is the table of rules held against the mission.
type Authorizations struct {
	Regime        string              `json:"regime"`
	AsOf          string              `json:"as_of"`
	Items         []AuthorizationItem `json:"items"`
	LeadTime      *LeadChain          `json:"lead_time,omitzero"`
	AcrossTheLine *Crossing           `json:"across_the_line,omitzero"`
	Record        *ApplicationRecord  `json:"application_record,omitzero"`
}

// AuthorizationItem is one rule held against the mission.
type AuthorizationItem struct {
	ID        string    `json:"id"`
	Title     string    `json:"title"`
	Kind      string    `json:"kind"`
	Group     string    `json:"group"`
	Status    string    `json:"status"`
	Because   string    `json:"because"`
	Missing   []string  `json:"missing"`
	Demands   string    `json:"demands,omitzero"`
	Citation  string    `json:"citation"`
	HowToGet  string    `json:"how_to_get,omitzero"`
	Evidence  string    `json:"evidence,omitzero"`
	Validity  string    `json:"validity,omitzero"`
	Expires   string    `json:"expires,omitzero"`
	LeadTime  string    `json:"lead_time,omitzero"`
	LeadDays  int       `json:"lead_days,omitzero"`
	Waiver    string    `json:"waiver,omitzero"`
	DependsOn []string  `json:"depends_on"`
	Measured  *Quantity `json:"measured,omitzero"`
	Limit     *Quantity `json:"limit,omitzero"`
	Margin    *Quantity `json:"margin,omitzero"`
}

// LeadChain is the longest chain of needed items, each waiting for the one before.
type LeadChain struct {
	IDs       []string `json:"ids"`
	Days      int      `json:"days"`
	LeastDays int      `json:"least_days"`
	Text      string   `json:"text"`
}

// Crossing is what the checklist becomes on the other side of the 55 lb line.
type Crossing struct {
	To           string         `json:"to"`
	WeightChange *Quantity      `json:"weight_change"`
	FillChange   *Quantity      `json:"fill_change,omitzero"`
	FillThen     *Quantity      `json:"fill_then,omitzero"`
	Items        []StatusChange `json:"items"`
	Text         string         `json:"text"`
}

// StatusChange is one item that stands differently on the other side of the line.
type StatusChange struct {
	ID      string `json:"id"`
	Title   string `json:"title"`
	From    string `json:"from"`
	To      string `json:"to"`
	Because string `json:"because"`
}

func (w *writer) authorizations(a feasibility.Answer) *Authorizations {
	c := a.Authorizations
	out := &Authorizations{
		Regime: string(c.Regime), AsOf: c.AsOf.Format(time.DateOnly),
		Items:         list(&w.shelf.items, len(c.Items)),
		LeadTime:      leadChain(c.LeadChain),
		AcrossTheLine: w.crossing(a.AcrossTheLine),
		Record:        w.record(a.Record),
	}
	for i := range c.Items {
		w.authorizationItem(&out.Items[i], &c.Items[i])
	}
	return out
}

// authorizationItem writes one item in its place: there are many, and they are large.
func (w *writer) authorizationItem(out *AuthorizationItem, i *permits.Item) {
	compared := i.Compared.Figures()
	code := w.unitFor(compared.Measured, compared.Limit, compared.Margin)
	*out = AuthorizationItem{
		ID: i.ID, Title: i.Title, Kind: string(i.Kind), Group: i.Group.String(),
		Status: string(i.Status), Because: i.Because, Missing: listed(i.Missing), Demands: i.Demands,
		Citation: i.Citation, HowToGet: i.HowToGet, Evidence: i.Evidence, Validity: i.Validity,
		LeadTime: i.LeadTime, LeadDays: wholeDays(i.Lead), Waiver: i.Waiver, DependsOn: listed(i.DependsOn),
		Measured: w.maybe(compared.Measured, code), Limit: w.maybe(compared.Limit, code), Margin: w.maybe(compared.Margin, code),
	}
	if i.Expires != nil {
		out.Expires = i.Expires.Format(time.DateOnly)
	}
}

// leadChain writes the longest chain; nil where nothing needed has an official lead time.
func leadChain(c permits.LeadChain) *LeadChain {
	if len(c.IDs) == 0 {
		return nil
	}
	return &LeadChain{IDs: c.IDs, Days: wholeDays(c.Lead), LeastDays: wholeDays(c.Least), Text: c.Text}
}

// crossing writes the other side of the line; nil where there is none. A fill is rounded down, so
// that it stays under the line when it is sent; a fill that reaches the line is rounded as any figure.
func (w *writer) crossing(c feasibility.Crossing) *Crossing {
	if c.To == "" {
		return nil
	}
	out := &Crossing{To: string(c.To), WeightChange: w.in(c.WeightChange), Items: make([]StatusChange, 0, len(c.Items)), Text: c.Text}
	if c.FillChange != nil && c.FillThen != nil {
		out.FillChange, out.FillThen = w.in(*c.FillChange), w.in(*c.FillThen)
		if c.To == permits.SmallRegime {
			out.FillThen = w.down(*c.FillThen)
		}
	}
	for _, d := range c.Items {
		out.Items = append(out.Items, StatusChange{ID: d.ID, Title: d.Title, From: string(d.From), To: string(d.To), Because: d.Because})
	}
	return out
}

// wholeDays is a lead time in days; the table holds whole days only.
func wholeDays(d units.Duration) int { return int(math.Round(d.In(24 * units.Hour))) }

// listed is a list that is never null.
func listed(texts []string) []string {
	if texts == nil {
		return []string{}
	}
	return texts
}

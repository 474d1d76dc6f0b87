package wire

import (
	"time"

	"tractcheck/feasibility/permits"
)

// Authorizations is the table of rules held against the mission.
type Authorizations struct {
	Regime string              `json:"regime"`
	AsOf   string              `json:"as_of"`
	Items  []AuthorizationItem `json:"items"`
}

// AuthorizationItem is one rule held against the mission.
type AuthorizationItem struct {
	ID       string `json:"id"`
	Title    string `json:"title"`
	Status   string `json:"status"`
	Because  string `json:"because"`
	Citation string `json:"citation"`
	HowToGet string `json:"how_to_get,omitzero"`
	Evidence string `json:"evidence,omitzero"`
	LeadTime string `json:"lead_time,omitzero"`
}

func (w *writer) authorizations(c permits.Checklist) *Authorizations {
	out := &Authorizations{
		Regime: string(c.Regime), AsOf: c.AsOf.Format(time.DateOnly),
		Items: make([]AuthorizationItem, 0, len(c.Items)),
	}
	for _, i := range c.Items {
		out.Items = append(out.Items, AuthorizationItem{
			ID: i.ID, Title: i.Title, Status: string(i.Status), Because: i.Because, Citation: i.Citation,
			HowToGet: i.HowToGet, Evidence: i.Evidence, LeadTime: i.LeadTime,
		})
	}
	return out
}

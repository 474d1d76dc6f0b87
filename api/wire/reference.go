package wire

import (
	"slices"
	"time"

	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// Reference is one of the tables the answers stand on, as it is served under /v1/reference/.
type Reference struct {
	Name  string // the last part of the address
	Table any    // ready to be written as JSON
}

// References is every table, in the order of the contract. The tables are fixed for a build.
func References() []Reference {
	return []Reference{
		{"authorizations", newAuthorizationTable()},
		{"drift-grades", newDriftGradeTable()},
		{"droplet-classes", newDropletClassTable()},
		{"nozzle-sizes", newNozzleSizeTable()},
		{"sources", newSourceTable()},
		{"units", newUnitTable()},
	}
}

// AuthorizationTable is the rules that missions are held against.
type AuthorizationTable struct {
	Country     string              `json:"country"`
	AsOf        string              `json:"as_of"`
	Cautions    []string            `json:"cautions"`
	Rows        []AuthorizationRule `json:"rows"`
	WeightLines []WeightLine        `json:"weight_lines"`
	Sources     []Source            `json:"sources"`
}

// AuthorizationRule is one row of the table. The large members hold at 55 lb and over where they
// differ from the plain ones.
type AuthorizationRule struct {
	ID            string   `json:"id"`
	Title         string   `json:"title"`
	Kind          string   `json:"kind"`
	Group         string   `json:"group"`
	Regimes       string   `json:"regimes"`
	AppliesWhen   string   `json:"applies_when"`
	Demands       string   `json:"demands"`
	Citation      string   `json:"citation"`
	LargeCitation string   `json:"large_citation,omitzero"`
	HowToGet      string   `json:"how_to_get,omitzero"`
	LargeHowToGet string   `json:"large_how_to_get,omitzero"`
	Evidence      string   `json:"evidence,omitzero"`
	Validity      string   `json:"validity,omitzero"`
	LeadTime      string   `json:"lead_time,omitzero"`
	LeadDays      int      `json:"lead_days,omitzero"`
	LargeLeadTime string   `json:"large_lead_time,omitzero"`
	LargeLeadDays int      `json:"large_lead_days,omitzero"`
	QuickPath     string   `json:"quick_path,omitzero"`
	Waiver        string   `json:"waiver,omitzero"`
	HeldBy        []HeldBy `json:"held_by"`
	DependsOn     []string `json:"depends_on"`
	Grade         string   `json:"grade"`
	Sources       []string `json:"sources"`
	AsOf          string   `json:"as_of"`
}

// HeldBy is another id in holds that satisfies a row.
type HeldBy struct {
	ID          string `json:"id"`
	OnlyPurpose string `json:"only_purpose,omitzero"`
}

// WeightLine is where a country draws the line for its light unmanned aircraft.
type WeightLine struct {
	Country   string    `json:"country"`
	Place     string    `json:"place"`
	Operator  string    `json:"operator,omitzero"`
	Threshold *Quantity `json:"threshold,omitzero"`
	Note      string    `json:"note"`
	Citation  string    `json:"citation"`
	Grade     string    `json:"grade"`
	Source    string    `json:"source"`
	AsOf      string    `json:"as_of"`
}

func newAuthorizationTable() AuthorizationTable {
	rules, lines := permits.Rules(), permits.WeightLines()
	table := AuthorizationTable{
		Country: "US", AsOf: permits.AsOf().Format(time.DateOnly), Cautions: permits.StandingCautions(),
		Rows: make([]AuthorizationRule, 0, len(rules)), WeightLines: make([]WeightLine, 0, len(lines)),
		Sources: sourcesOnWire(permits.Sources()),
	}
	for _, r := range rules {
		table.Rows = append(table.Rows, newAuthorizationRule(r))
	}
	for _, l := range lines {
		table.WeightLines = append(table.WeightLines, newWeightLine(l))
	}
	return table
}

func newAuthorizationRule(r permits.Rule) AuthorizationRule {
	out := AuthorizationRule{
		ID: r.ID, Title: r.Title, Kind: string(r.Kind), Group: r.Group.String(), Regimes: string(r.Regimes),
		AppliesWhen: r.AppliesWhen, Demands: r.Demands, Citation: r.Citation, LargeCitation: r.LargeCitation,
		HowToGet: r.HowToGet, LargeHowToGet: r.LargeHowToGet, Evidence: r.Evidence, Validity: r.Validity,
		LeadTime: r.LeadTime, LeadDays: wholeDays(r.Lead), LargeLeadTime: r.LargeLeadTime, LargeLeadDays: wholeDays(r.LargeLead),
		QuickPath: r.QuickPath, Waiver: r.Waiver(), HeldBy: make([]HeldBy, 0, len(r.HeldBy)), DependsOn: listed(r.DependsOn),
		Grade: gradeWords(r.Grade), Sources: listed(r.Sources), AsOf: r.AsOf.Format(time.DateOnly),
	}
	for _, e := range r.HeldBy {
		out.HeldBy = append(out.HeldBy, HeldBy{ID: e.ID, OnlyPurpose: string(e.Only)})
	}
	return out
}

func newWeightLine(l permits.WeightLine) WeightLine {
	out := WeightLine{
		Country: l.Country, Place: l.Place, Note: l.Note, Citation: l.Citation, Grade: gradeWords(l.Grade),
		Source: l.Source, AsOf: permits.AsOf().Format(time.DateOnly),
	}
	if l.Threshold == nil {
		return out
	}
	unit := "kg"
	if l.Country == "US" {
		unit = "lb"
	}
	threshold := express(*l.Threshold, unit)
	out.Threshold, out.Operator = &threshold, "<"
	if l.Inclusive {
		out.Operator = "<="
	}
	return out
}

// gradeWords says how the text behind a row was seen.
func gradeWords(g permits.Grade) string {
	switch g {
	case permits.GradeRead:
		return "read"
	case permits.GradeSecondHand:
		return "second hand"
	default:
		return "from memory"
	}
}

// NozzleSizeTable is the sizes of ISO 10625.
type NozzleSizeTable struct {
	Rows    []NozzleSize `json:"rows"`
	Sources []Source     `json:"sources"`
}

// NozzleSize is one size.
type NozzleSize struct {
	Code           string   `json:"code"`
	Color          string   `json:"color"`
	RatedFlow      Quantity `json:"rated_flow"`
	RatedPressure  Quantity `json:"rated_pressure"`
	MetricFlow     Quantity `json:"metric_flow"`
	MetricPressure Quantity `json:"metric_pressure"`
	Source         string   `json:"source"`
}

func newNozzleSizeTable() NozzleSizeTable {
	var table NozzleSizeTable
	var cited []finding.Source
	for _, s := range spray.NozzleSizes() {
		table.Rows = append(table.Rows, NozzleSize{
			Code: s.Code, Color: s.Color,
			RatedFlow: express(s.RatedFlow, "gal/min"), RatedPressure: express(s.RatedPressure, "psi"),
			MetricFlow: express(s.MetricFlow, "L/min"), MetricPressure: express(s.MetricPressure, "bar"),
			Source: s.Source.ID,
		})
		cited = append(cited, s.Source)
	}
	table.Sources = sourcesOnWire(cited)
	return table
}

// DropletClassTable is the droplet size classes of ASABE S572 and ISO 25358, finest first.
type DropletClassTable struct {
	Rows    []DropletClass `json:"rows"`
	Sources []Source       `json:"sources"`
}

// DropletClass is one class and the boundary at its fine end.
type DropletClass struct {
	Class        string           `json:"class"`
	Symbol       string           `json:"symbol"`
	Color        string           `json:"color"`
	Nozzle       *ReferenceNozzle `json:"reference_nozzle,omitzero"`
	ModelFrom    *Quantity        `json:"model_from,omitzero"`
	MeasuredFrom *Quantity        `json:"measured_from,omitzero"`
	Source       string           `json:"source"`
}

// ReferenceNozzle is the flat fan nozzle and its pressure that set a class boundary.
type ReferenceNozzle struct {
	FanAngle Quantity `json:"fan_angle"`
	Size     string   `json:"size"`
	Pressure Quantity `json:"pressure"`
}

func newDropletClassTable() DropletClassTable {
	var table DropletClassTable
	var cited []finding.Source
	for _, c := range spray.DropletClasses() {
		row := DropletClass{Class: string(c.Class), Symbol: c.Symbol, Color: c.Color, Source: c.Source.ID}
		if c.Nozzle != nil {
			row.Nozzle = &ReferenceNozzle{
				FanAngle: express(c.Nozzle.FanAngle, "deg"), Size: c.Nozzle.Size, Pressure: express(c.Nozzle.Pressure, "kPa"),
			}
		}
		if c.ModelFrom > 0 {
			model, measured := express(c.ModelFrom, "um"), express(c.MeasuredFrom, "um")
			row.ModelFrom, row.MeasuredFrom = &model, &measured
		}
		table.Rows = append(table.Rows, row)
		cited = append(cited, c.Source)
	}
	table.Sources = sourcesOnWire(cited)
	return table
}

// UnitTable is the unit codes of the wire.
type UnitTable struct {
	Rows    []UnitDimension `json:"rows"`
	Sources []Source        `json:"sources"`
}

// UnitDimension is one dimension: its codes, and those that answers use.
type UnitDimension struct {
	Dimension string     `json:"dimension"`
	US        string     `json:"us"`
	SI        string     `json:"si"`
	Base      string     `json:"base"`
	Units     []UnitCode `json:"units"`
}

// UnitCode is one unit: a value in it, times the factor plus the offset, is the value in the base.
type UnitCode struct {
	Code   string  `json:"code"`
	Factor float64 `json:"factor"`
	Offset float64 `json:"offset"`
}

// baseUnits names the SI unit of each dimension. Money has none: it is counted in US dollars.
var baseUnits = map[units.Dimension]string{
	units.DimensionMass: "kg", units.DimensionForce: "N", units.DimensionDensity: "kg/m3", units.DimensionLength: "m",
	units.DimensionArea: "m2", units.DimensionVolume: "m3", units.DimensionAngle: "rad", units.DimensionSpeed: "m/s",
	units.DimensionTime: "s", units.DimensionRotation: "rad/s", units.DimensionAreaRate: "m2/s", units.DimensionFlow: "m3/s",
	units.DimensionApplicationRate: "m3/m2", units.DimensionPressure: "Pa", units.DimensionSurfaceTension: "N/m",
	units.DimensionEnergy: "J", units.DimensionPower: "W", units.DimensionProportion: "1", units.DimensionTemperature: "K",
	units.DimensionTemperatureDifference: "K", units.DimensionMoney: "USD", units.DimensionAreaCost: "USD/m2",
	units.DimensionCount: "1",
}

// unitSource stands behind the factors.
var unitSource = Source{
	ID:       "nist-sp-811",
	Citation: "Thompson and Taylor 2008, Guide for the Use of the International System of Units (SI), NIST Special Publication 811, appendix B.8",
	Standing: string(finding.FromMemory),
}

func newUnitTable() UnitTable {
	table := UnitTable{Sources: []Source{unitSource}}
	for _, d := range dimensions {
		row := UnitDimension{Dimension: string(d.name), US: d.us, SI: d.si, Base: baseUnits[d.name]}
		for _, u := range d.units {
			offset := u.toSI(0)
			row.Units = append(row.Units, UnitCode{Code: u.code, Factor: figured(u.toSI(1) - offset), Offset: figured(offset)})
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

// figured rounds off the trace of floating point.
func figured(x float64) float64 { return float64(units.Significant(units.Length(x), settled)) }

// SourceTable is every published source that an answer can name.
type SourceTable struct {
	Rows []SourceUse `json:"rows"`
}

// SourceUse is one source and the rooms of the computation that stand on it.
type SourceUse struct {
	ID       string   `json:"id"`
	Citation string   `json:"citation"`
	Standing string   `json:"standing"`
	Rooms    []string `json:"rooms"`
}

func newSourceTable() SourceTable {
	var table SourceTable
	for _, s := range feasibility.Sources() {
		table.Rows = append(table.Rows, SourceUse{ID: s.ID, Citation: s.Citation, Standing: string(s.Standing), Rooms: s.Rooms})
	}
	return table
}

// sourcesOnWire writes sources, each id once.
func sourcesOnWire(cited []finding.Source) []Source {
	out := make([]Source, 0, len(cited))
	for _, s := range cited {
		if !slices.ContainsFunc(out, func(o Source) bool { return o.ID == s.ID }) {
			out = append(out, Source{ID: s.ID, Citation: s.Citation, Standing: string(s.Standing)})
		}
	}
	return out
}

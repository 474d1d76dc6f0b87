package wire

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

var (
	weightRule = finding.Source{ID: "cfr-14-107-3", Citation: "14 CFR 107.3", Standing: finding.Read}
	ownChoice  = finding.Source{ID: "own-choice", Citation: "this project", Standing: finding.OwnDesign}
	asked      = Identity{Digest: "sha256:00", Engine: "tractcheck test"}
)

// filledAnswer has something in every member; its figures are made up and mean nothing.
func filledAnswer() feasibility.Answer {
	pressure := 30.7 * units.PoundPerSquareInch
	quote := 14 * units.DollarPerAcre
	day := time.Date(2026, time.November, 25, 0, 0, 0, 0, time.UTC)
	estimate := drift.Estimate{Low: 0.001, Best: 0.002, High: 0.005}
	return feasibility.Answer{
		Verdict: feasibility.YesIf, Headline: "Yes, if you fill less.", RulesAsOf: day,
		Findings: []finding.Finding{
			{Code: "too_heavy", Severity: finding.Stop, Subject: "/load/fill", Message: "Too heavy. Fill less.",
				Measured: 56 * units.Pound, Limit: 55 * units.Pound, Margin: -1 * units.Pound, Source: weightRule},
			{Code: "drops_fine", Severity: finding.Caution, Subject: "/spray_system/nozzle", Message: "Fine drops.",
				Measured: 140 * units.Micrometer, Limit: 150 * units.Micrometer, Source: ownChoice},
			{Code: "plain", Severity: finding.Note, Subject: "/flight", Message: "Worth knowing.", Source: ownChoice},
		},
		Remedies: []feasibility.Remedy{{
			Changes: []feasibility.Change{
				{Pointer: "/load/fill", From: 2 * units.Gallon, To: 2.457196 * units.Gallon},
				{Pointer: "/aircraft/count", To: units.Count(2)},
				{Pointer: "/flight/speed", From: 10 * units.MilePerHour, To: 8 * units.MilePerHour},
			},
			Lifts: []finding.Code{"too_heavy"}, Costs: "More sorties.", AnswerThen: feasibility.Yes,
		}},
		TakeoffWeight: takeoff.Result{
			Total: 51.19 * units.Pound, Parts: []takeoff.Part{{Name: "airframe", Weight: 24 * units.Pound}},
			Limits: []takeoff.Limit{{Code: takeoff.SmallUnmannedAircraft, Limit: 55 * units.Pound, Margin: 3.81 * units.Pound,
				Strict: true, Within: true, FillLimit: 2.4566 * units.Gallon}},
			Fill: 2 * units.Gallon, Density: 8.345 * units.PoundPerGallon,
			LargestFill: takeoff.Largest{Volume: 2.45657, BoundBy: takeoff.SmallUnmannedAircraft}, Small: true,
		},
		RatePressure: spray.Result{
			FlowTotal: 0.5253 * units.GallonPerMinute, FlowEach: 0.1313 * units.GallonPerMinute,
			Pressure: &pressure, PressureUsed: &pressure, WithinRange: true, RateDelivered: 2 * units.GallonPerAcre,
			Droplet: spray.Droplet{Class: spray.Fine, ClassOther: spray.Medium, Fines: 0.12, Basis: "model", Uncertainty: 0.2,
				Spectrum: spray.Spectrum{Dv01: 100 * units.Micrometer, Dv05: 220 * units.Micrometer, Dv09: 400 * units.Micrometer}},
			SpeedRange: spray.SpeedRange{Lowest: 6 * units.MilePerHour, Highest: 14 * units.MilePerHour, LowestBound: "nozzle_pressure", HighestBound: "pump_flow"},
			Curve:      []spray.Point{{Speed: 10 * units.MilePerHour, FlowEach: 0.13 * units.GallonPerMinute, Pressure: &pressure, Class: spray.Fine, Fines: 0.12, WithinRange: true}, {}},
		},
		DriftRisk: drift.Result{
			Grade: drift.Moderate, Deposit: []drift.Deposit{{Distance: 10 * units.Foot, PercentOfRate: estimate}},
			AtNeighbors: []drift.AtNeighbor{{Kind: "crop", Distance: 120 * units.Foot, PercentOfRate: estimate, Downwind: true}},
			Airborne:    0.03, Buffer: drift.Buffer{Distance: 90 * units.Foot, PercentOfRate: 0.001, BoundBy: "deposit"},
			Drivers:         []drift.Driver{{Factor: "wind", Share: 0.5}},
			ReferenceCurves: []drift.ReferenceCurve{{Name: "ground_boom", Standing: finding.Read, Deposit: []drift.ReferencePoint{{Distance: 10, PercentOfRate: 0.01}}}, {Name: "none"}},
		},
		SortiePlan: tract.Plan{
			Area: 4.7 * units.Acre, Accounting: tract.Accounting{Tract: 4.7 * units.Acre, Sprayed: 4.6 * units.Acre, Unsprayed: 0.1 * units.Acre},
			Sorties: 5, BoundBy: tract.BoundTank, AreaEach: 1 * units.Acre, AreaPerBattery: 2 * units.Acre, SortiesPerBattery: 2,
			Passes: 6, Course: 90 * units.BearingDegree, SprayTime: 18 * units.Minute, FlightTime: 30 * units.Minute,
			EnergyEach: 300 * units.WattHour, Feasible: true,
			List: []tract.Sortie{
				{Number: 1, Aircraft: 1, Fill: 2 * units.Gallon, Area: 1 * units.Acre, Passes: 2, SprayTime: 200, FlightTime: 300, Energy: 1e6, EndedBy: tract.BoundTank, ResumeLine: 2, ResumeAlong: 30},
				{Number: 2, Aircraft: 1},
			},
		},
		Elapsed: 1.5 * units.Hour, BatteriesNeeded: 3, Aircraft: 1,
		Authorizations: permits.Checklist{Regime: permits.SmallRegime, AsOf: day, Items: []permits.Item{
			{Entry: &permits.Entry{ID: "remote-id", Title: "Remote identification", Citation: "14 CFR part 89",
				HowToGet: "fit a module", Evidence: "the module", LeadTime: "days", Lead: 15 * 24 * units.Hour, Kind: permits.Permit, Group: permits.GroupAircraft,
				Demands: "broadcast", Validity: "3 years", Waiver: "waiver:remote-id"},
				Status: permits.NeededNow, Because: "always", Expires: &day, DependsOn: []string{"registration-small"}},
			{Entry: &permits.Entry{ID: "b", Title: "B", Citation: "c", Kind: permits.Limit, Group: permits.GroupJob},
				Status: permits.Unknown, Because: "not stated",
				Missing: []string{"/flight/speed"}, Compared: &permits.Comparison{Measured: units.Count(2), Limit: units.Count(1), Margin: units.Count(-1)}},
		}, LeadChain: permits.LeadChain{IDs: []string{"b"}, Lead: 60 * 24 * units.Hour, Text: "60 days"}},
		Record: permits.ApplicationRecord{Duty: permits.RecordRequired, Because: "restricted use", WriteBy: &day, KeepFor: "2 years", Citation: "7 CFR 110.3",
			Fields: []permits.RecordField{
				{Name: "brand", Title: "Brand", Text: "Invented", Write: "check", Citation: "7 CFR 110.3"},
				{Name: "area", Title: "Area", Quantity: 40 * units.Acre, Write: "check", Citation: "7 CFR 110.3"},
				{Name: "crop_or_site", Title: "Crop", Write: "write it", Citation: "7 CFR 110.3"},
			}},
		AcrossTheLine: feasibility.Crossing{To: permits.LargeRegime, WeightChange: 3 * units.Pound, FillChange: new(0.3 * units.Gallon),
			FillThen: new(2.3 * units.Gallon), Text: "0.3 gal more", Items: []permits.Difference{{Entry: &permits.Entry{ID: "b", Title: "B"}, From: permits.NotNeeded, To: permits.NeededNow, Because: "c"}}},
		CrewPlan: crew.Result{Batteries: 3, Chargers: 1, GeneratorPower: 2.5 * units.Kilowatt, WorkRate: 12 * units.AcrePerHour,
			Elapsed: 1.5 * units.Hour, Waiting: 0.1 * units.Hour, Days: 1, Cost: &crew.Cost{PerArea: 9 * units.DollarPerAcre,
				Parts: []crew.CostPart{{Name: "labor", PerArea: 5 * units.DollarPerAcre}}, GroundQuote: &quote, MannedAircraftQuote: &quote}},
		Assumptions: []finding.Assumption{{Subject: "/weather/pressure", Assumed: "sea level", Settle: "send pressure", Source: weightRule}, {Subject: "/crew", Assumed: "two people", Settle: "send people"}},
		Cautions:    []string{"It is not legal advice."},
		Sources:     []finding.Source{ownChoice},
	}
}

func tree(t testing.TB, value any) any {
	t.Helper()
	text, err := json.Marshal(value)
	require.NoError(t, err)
	out, err := jsonschema.UnmarshalJSON(strings.NewReader(string(text)))
	require.NoError(t, err)
	return out
}

func TestAuthorizationsSayAllTheTableKnows(t *testing.T) {
	t.Parallel()
	papers := NewAnswer(AuthorizationChecklists, asked, nil, filledAnswer()).Authorizations
	first, second := papers.Items[0], papers.Items[1]
	assert.Equal(t, []string{"permit", "aircraft", "broadcast", "3 years", "waiver:remote-id"},
		[]string{first.Kind, first.Group, first.Demands, first.Validity, first.Waiver})
	assert.Equal(t, filledAnswer().Authorizations.Items[0].Expires.Format("2006-01-02"), first.Expires)
	assert.Equal(t, 15, first.LeadDays)
	assert.Equal(t, []string{"registration-small"}, first.DependsOn)
	assert.Equal(t, []string{}, first.Missing, "a list is never null")
	assert.Equal(t, []string{"/flight/speed"}, second.Missing)
	assert.InDelta(t, -1, *second.Margin.Value, 0)
	assert.Equal(t, 60, papers.LeadTime.Days)
	require.Len(t, papers.Record.Fields, 3)
	assert.Equal(t, "required", papers.Record.Duty)
	assert.InDelta(t, 40, *papers.Record.Fields[1].Quantity.Value, 1e-6)
	assert.Equal(t, []bool{true, true, false}, []bool{papers.Record.Fields[0].Filled, papers.Record.Fields[1].Filled, papers.Record.Fields[2].Filled})
	assert.Equal(t, "large", papers.AcrossTheLine.To)
	assert.InDelta(t, 3, *papers.AcrossTheLine.WeightChange.Value, 1e-6)
	assert.Equal(t, "not_needed", papers.AcrossTheLine.Items[0].From)
}

func TestAnswersKeepTheContract(t *testing.T) {
	t.Parallel()
	for endpoint, name := range answerSchemas {
		schema := compiled(t, name)
		for _, system := range []string{"us", "si"} {
			body := sampleBody(t)
			body["units"] = system
			answer := NewAnswer(endpoint, asked, decoded(t, body), filledAnswer())
			assert.NoError(t, schema.Validate(tree(t, answer)), "%s in %s", endpoint, system)
		}
		bare := filledAnswer()
		bare.Findings, bare.Remedies, bare.Assumptions, bare.Cautions, bare.Sources = nil, nil, nil, nil, nil
		bare.RatePressure = spray.Result{}
		bare.DriftRisk = drift.Result{Grade: drift.Low}
		bare.SortiePlan, bare.CrewPlan = tract.Plan{}, crew.Result{}
		bare.TakeoffWeight = takeoff.Result{}
		bare.Authorizations.Items = nil
		answer := NewAnswer(endpoint, asked, nil, bare)
		assert.NoError(t, schema.Validate(tree(t, answer)), "%s, bare", endpoint)
		text, err := json.Marshal(answer)
		require.NoError(t, err)
		assert.NotContains(t, string(text), "null")
	}
}

func TestAnswersToPartsHoldTheirPartsOnly(t *testing.T) {
	t.Parallel()
	common := []string{"assumptions", "cautions", "digest", "engine", "findings", "reference", "rules_as_of", "sources"}
	for endpoint, parts := range map[Endpoint][]string{
		TakeoffWeights:          {"takeoff_weight"},
		RatePressures:           {"rate_pressure"},
		DriftRisks:              {"drift_risk", "rate_pressure"},
		SortiePlans:             {"crew_plan", "sortie_plan", "takeoff_weight"},
		AuthorizationChecklists: {"authorizations", "takeoff_weight"},
	} {
		members, ok := tree(t, NewAnswer(endpoint, asked, decoded(t, sampleBody(t)), filledAnswer())).(map[string]any)
		require.True(t, ok)
		var names []string
		for name := range members {
			names = append(names, name)
		}
		assert.ElementsMatch(t, append(parts, common...), names, endpoint)
	}
}

func valueIn(t *testing.T, q *Quantity, code string) float64 {
	t.Helper()
	require.NotNil(t, q)
	require.Equal(t, code, q.Unit)
	return *q.Value
}

func TestAnswerInBothUnitSystems(t *testing.T) {
	t.Parallel()
	us := NewAnswer(Assessments, asked, &Request{}, filledAnswer())
	assert.InDelta(t, 51.19, valueIn(t, us.TakeoffWeight.Total, "lb"), 1e-9)
	assert.InDelta(t, 30.7, valueIn(t, us.RatePressure.Pressure, "psi"), 1e-9)
	assert.InDelta(t, 220, valueIn(t, us.RatePressure.Droplet.Dv05, "um"), 1e-9)
	assert.InDelta(t, 12, valueIn(t, us.RatePressure.Droplet.FinesPercent, "%"), 1e-9)
	assert.InDelta(t, 1.5, valueIn(t, us.SortiePlan.ElapsedTime, "h"), 1e-9)
	assert.InDelta(t, 18, valueIn(t, us.SortiePlan.SprayTime, "min"), 1e-9)
	assert.InDelta(t, 2.5, valueIn(t, us.CrewPlan.GeneratorPower, "kW"), 1e-9)
	assert.InDelta(t, 12, valueIn(t, us.CrewPlan.AcresPerHour, "ac/h"), 1e-9)
	assert.InDelta(t, 9, valueIn(t, us.CrewPlan.Cost.PerArea, "USD/ac"), 1e-9)
	assert.InDelta(t, 140, valueIn(t, us.Findings[1].Measured, "um"), 1e-9)
	assert.Nil(t, us.Findings[1].Margin)
	assert.Nil(t, us.SortiePlan.List[1].Resume)

	wanted := "si"
	si := NewAnswer(Assessments, asked, &Request{Units: &wanted}, filledAnswer())
	assert.InDelta(t, 23.2194, valueIn(t, si.TakeoffWeight.Total, "kg"), 1e-9)
	assert.InDelta(t, 2.11669, valueIn(t, si.RatePressure.Pressure, "bar"), 1e-9)
	assert.InDelta(t, 4.85623, valueIn(t, si.CrewPlan.AcresPerHour, "ha/h"), 1e-9)
	assert.InDelta(t, -0.453592, valueIn(t, si.Findings[0].Margin, "kg"), 1e-9)
}

func TestAnswerRepeatsWhatWasSent(t *testing.T) {
	t.Parallel()
	body := sampleBody(t)
	put(body, "/load/fill", of(7570.823568, "mL"))
	put(body, "/flight/speed", of(16.09344, "km/h"))
	answer := NewAnswer(Assessments, asked, decoded(t, body), filledAnswer())
	assert.Equal(t, body["reference"], *answer.Reference)
	assert.InDelta(t, 7570.823568, valueIn(t, answer.TakeoffWeight.Fill, "mL"), 0, "untouched")
	changes := answer.Remedies[0].Changes
	assert.InDelta(t, 7570.823568, valueIn(t, changes[0].From.(*Quantity), "mL"), 0, "untouched")
	assert.InDelta(t, 9301.49, valueIn(t, changes[0].To.(*Quantity), "mL"), 1e-9, "in the unit sent, rounded down from 9301.498")
	assert.Nil(t, changes[1].From)
	assert.Equal(t, 2, changes[1].To, "a count is sent as a bare whole number")
	assert.InDelta(t, 12.8748, valueIn(t, changes[2].To.(*Quantity), "km/h"), 1e-9)
	// Not sent, so written in the answer's own unit.
	bare := NewAnswer(Assessments, asked, &Request{}, filledAnswer())
	assert.InDelta(t, 2, valueIn(t, bare.Remedies[0].Changes[0].From.(*Quantity), "gal"), 0)
	assert.InDelta(t, 2.45719, valueIn(t, bare.Remedies[0].Changes[0].To.(*Quantity), "gal"), 1e-12)
	assert.InDelta(t, 2, valueIn(t, bare.TakeoffWeight.Fill, "gal"), 0)
}

func TestEverySourceNamedIsListedOnce(t *testing.T) {
	t.Parallel()
	answer := NewAnswer(Assessments, asked, &Request{}, filledAnswer())
	listed := map[string]int{}
	for _, s := range answer.Sources {
		listed[s.ID]++
	}
	assert.Equal(t, map[string]int{"own-choice": 1, "cfr-14-107-3": 1}, listed)
	assert.Equal(t, "cfr-14-107-3", answer.Findings[0].Source)
	assert.Empty(t, answer.Assumptions[1].Source)
}

// The largest fill, sent back as it was written, still lies under the limit it was found for.
func TestLargestFillMayBeSentBack(t *testing.T) {
	t.Parallel()
	for _, system := range []string{"us", "si"} {
		for _, dry := range []float64{30, 34.5, 41.23, 50, 54.9} {
			room := (55*units.Pound - units.Mass(dry)*units.Pound).SI() / (8.345 * units.PoundPerGallon).SI()
			a := filledAnswer()
			a.TakeoffWeight.LargestFill.Volume = units.Volume(room)
			answer := NewAnswer(TakeoffWeights, asked, &Request{Units: &system}, a)
			body := sampleBody(t)
			put(body, "/load/fill", of(*answer.TakeoffWeight.LargestFill.Volume.Value, answer.TakeoffWeight.LargestFill.Volume.Unit))
			m, faults := decoded(t, body).Mission(TakeoffWeights)
			require.Empty(t, faults)
			assert.LessOrEqual(t, m.Load.Fill.SI(), room*(1+1e-8))
			assert.InEpsilon(t, room, m.Load.Fill.SI(), 2e-5)
		}
	}
}

// Any quantity an answer can hold may be sent back and means the same to six digits.
func TestQuantitiesOfAnAnswerMayBeSentBack(t *testing.T) {
	t.Parallel()
	for _, l := range limits {
		d, _ := dimensionOf(l.low.Dimension())
		middle := anything{si: (l.low.SI() + l.high.SI()) / 2, dimension: d.name}
		for _, s := range []system{usUnits, siUnits} {
			sent := express(middle, d.answersIn(s))
			pointer := strings.Replace(l.path, "*", "0", 1)
			assert.Empty(t, sendQuantity(t, pointer, *sent.Value, sent.Unit), pointer)
			u, _ := d.find(sent.Unit)
			assert.InDelta(t, middle.si, u.toSI(*sent.Value), 1e-5*math.Max(math.Abs(middle.si), 1), pointer)
		}
	}
}

func TestPointersIntoTheRequest(t *testing.T) {
	t.Parallel()
	request := decoded(t, sampleBody(t))
	assert.InDelta(t, 24, *request.quantityAt("/aircraft/empty_weight").Value, 0)
	assert.InDelta(t, 300, *request.quantityAt("/field/neighbors/1/distance").Value, 0)
	for _, pointer := range []string{
		"", "/", "/load", "/load/pesticide", "/load/surface_tension", "/load/product_label/max_wind/value",
		"/field/neighbors/7/distance", "/field/neighbors/-1/distance", "/field/neighbors/x", "/nowhere", "/units/x",
		"/weather/lapse/upper_height",
	} {
		assert.Nil(t, request.quantityAt(pointer), pointer)
	}
}

func TestUnitsOfFindings(t *testing.T) {
	t.Parallel()
	w := &writer{}
	for _, tc := range []struct {
		group []units.Quantity
		want  string
	}{
		{nil, ""},
		{[]units.Quantity{nil, nil}, ""},
		{[]units.Quantity{20 * units.Second}, "s"},
		{[]units.Quantity{20 * units.Second, 30 * units.Minute}, "min"},
		{[]units.Quantity{20 * units.Second, 30 * units.Hour}, "h"},
		{[]units.Quantity{nil, 9 * units.Foot}, "ft"},
		{[]units.Quantity{9 * units.Micrometer}, "um"},
		{[]units.Quantity{-9 * units.Foot, 0 * units.Foot}, "ft"},
		{[]units.Quantity{5 * units.KelvinDifference}, "delta_degF"},
	} {
		assert.Equal(t, tc.want, w.unitFor(tc.group...))
	}
	mixed := w.maybe(3*units.Pound, "ft")
	assert.Equal(t, "lb", mixed.Unit, "a unit of another dimension is never written")
}

func BenchmarkNewAnswer(b *testing.B) {
	request, answer := decoded(b, sampleBody(b)), filledAnswer()
	b.ReportAllocs()
	for b.Loop() {
		NewAnswer(Assessments, asked, request, answer)
	}
}

func BenchmarkMission(b *testing.B) {
	request := decoded(b, sampleBody(b))
	b.ReportAllocs()
	for b.Loop() {
		request.Mission(Assessments)
	}
}

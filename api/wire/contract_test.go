package wire

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
	"tractcheck/openapi"
)

// schemaNode is what the tests read of a schema of the contract.
type schemaNode struct {
	Ref         string                `json:"$ref"`
	Type        any                   `json:"type"`
	Description string                `json:"description"`
	Enum        []string              `json:"enum"`
	Required    []string              `json:"required"`
	Properties  map[string]schemaNode `json:"properties"`
	Items       *schemaNode           `json:"items"`
	Minimum     *float64              `json:"minimum"`
	Maximum     *float64              `json:"maximum"`
	MinLength   *int                  `json:"minLength"`
	MaxLength   *int                  `json:"maxLength"`
	MaxItems    *int                  `json:"maxItems"`
}

const schemaPrefix = "#/components/schemas/"

func contractSchemas(t testing.TB) map[string]schemaNode {
	t.Helper()
	var document struct {
		Components struct {
			Schemas map[string]schemaNode `json:"schemas"`
		} `json:"components"`
	}
	require.NoError(t, json.Unmarshal([]byte(openapi.JSON), &document))
	return document.Components.Schemas
}

func follow(t testing.TB, schemas map[string]schemaNode, n schemaNode) schemaNode {
	t.Helper()
	if n.Ref == "" {
		return n
	}
	target, ok := schemas[strings.TrimPrefix(n.Ref, schemaPrefix)]
	require.True(t, ok, "%s leads nowhere", n.Ref)
	return target
}

// compiled compiles one schema of the contract.
func compiled(t testing.TB, name string) *jsonschema.Schema {
	t.Helper()
	const address = "https://contract.test/openapi.json"
	document, err := jsonschema.UnmarshalJSON(strings.NewReader(openapi.JSON))
	require.NoError(t, err)
	compiler := jsonschema.NewCompiler()
	compiler.DefaultDraft(jsonschema.Draft2020)
	compiler.AssertFormat()
	require.NoError(t, compiler.AddResource(address, document))
	schema, err := compiler.Compile(address + schemaPrefix + name)
	require.NoError(t, err)
	return schema
}

var allEndpoints = []Endpoint{
	Assessments, TakeoffWeights, RatePressures, DriftRisks, SortiePlans, AuthorizationChecklists,
}

// dimensionSchemas are the contract's schemas of quantities.
var dimensionSchemas = map[units.Dimension]string{
	units.DimensionMass: "Mass", units.DimensionVolume: "Volume", units.DimensionLength: "Length",
	units.DimensionArea: "Area", units.DimensionSpeed: "Speed", units.DimensionPressure: "Pressure",
	units.DimensionFlow: "Flow", units.DimensionApplicationRate: "ApplicationRate",
	units.DimensionDensity: "Density", units.DimensionSurfaceTension: "SurfaceTension",
	units.DimensionTemperature: "Temperature", units.DimensionEnergy: "Energy",
	units.DimensionPower: "Power", units.DimensionTime: "Time", units.DimensionAngle: "Angle",
	units.DimensionRotation: "Rotation", units.DimensionProportion: "Proportion",
	units.DimensionMoney: "Money", units.DimensionAreaRate: "AreaRate", units.DimensionAreaCost: "AreaCost",
}

func TestUnitCodesAreThoseOfTheContract(t *testing.T) {
	t.Parallel()
	schemas := contractSchemas(t)
	var all []string
	for _, d := range dimensions {
		all = append(all, d.codes()...)
		if name, ok := dimensionSchemas[d.name]; ok {
			assert.Equal(t, d.codes(), schemas[name].Properties["unit"].Enum, name)
		}
	}
	slices.Sort(all)
	all = slices.Compact(all)
	listed := slices.Clone(schemas["AnyQuantity"].Properties["unit"].Enum)
	slices.Sort(listed)
	assert.Equal(t, all, listed)
}

func TestEveryDimensionHasUnits(t *testing.T) {
	t.Parallel()
	for _, name := range []units.Dimension{
		units.DimensionMass, units.DimensionForce, units.DimensionDensity, units.DimensionLength,
		units.DimensionArea, units.DimensionVolume, units.DimensionAngle, units.DimensionSpeed,
		units.DimensionTime, units.DimensionRotation, units.DimensionAreaRate, units.DimensionFlow,
		units.DimensionApplicationRate, units.DimensionPressure, units.DimensionSurfaceTension,
		units.DimensionEnergy, units.DimensionPower, units.DimensionProportion, units.DimensionTemperature,
		units.DimensionTemperatureDifference, units.DimensionMoney, units.DimensionAreaCost, units.DimensionCount,
	} {
		d, ok := dimensionOf(name)
		require.True(t, ok, name)
		for _, s := range []system{usUnits, siUnits} {
			_, ok := d.find(d.answersIn(s))
			assert.True(t, ok, "%s: answers in %q", name, d.answersIn(s))
		}
	}
}

func codesOf[C ~string](codes ...C) []string {
	var out []string
	for _, c := range codes {
		out = append(out, string(c))
	}
	return out
}

func TestCodeListsAreThoseOfTheProgram(t *testing.T) {
	t.Parallel()
	schemas := contractSchemas(t)
	member := func(schema, name string) []string { return schemas[schema].Properties[name].Enum }
	classes := codesOf(dropletClasses...)
	assert.Equal(t, codesOf(
		FaultSyntax, FaultTrailing, FaultDuplicate, FaultUnknown, FaultNumber, FaultEmpty, FaultMissing,
		FaultType, FaultUnit, FaultEnum, FaultRange, FaultLength, FaultFormat, FaultConflict, FaultGeometry,
	), member("Fault", "code"))
	assert.Equal(t, codesOf(finding.Stop, finding.Needed, finding.Caution, finding.Note), member("Finding", "severity"))
	standings := codesOf(finding.Read, finding.FromMemory, finding.CommonPractice, finding.OwnDesign)
	assert.Equal(t, standings, member("Source", "standing"))
	assert.Equal(t, codesOf(feasibility.Yes, feasibility.YesIf, feasibility.No), schemas["Verdict"].Enum)
	limits := codesOf(takeoff.SmallUnmannedAircraft, takeoff.MakerMaximum, takeoff.DensityAltitude, takeoff.TankCapacity)
	assert.Equal(t, limits, member("WeightLimit", "code"))
	assert.Equal(t, limits, member("LargestFill", "bound_by"))
	assert.Equal(t, classes, member("Droplet", "class"))
	assert.Equal(t, classes, member("Droplet", "class_other"))
	assert.Equal(t, classes, member("CurvePoint", "class"))
	assert.Equal(t, codesOf(drift.Low, drift.Moderate, drift.High, drift.Severe), member("DriftRisk", "grade"))
	bounds := codesOf(tract.BoundTank, tract.BoundBattery, tract.BoundWeight)
	assert.Equal(t, bounds, member("SortiePlan", "bound_by"))
	assert.Equal(t, bounds, member("Sortie", "ended_by"))
	assert.Equal(t, codesOf(tract.CourseByCaller, tract.CourseByWind, tract.CourseByFewestTurns), member("CourseOption", "by"))
	assert.Equal(t, bounds, member("MapProperties", "ended_by"))
	assert.Equal(t, []string{kindBoundary, kindKeepOut, kindUnsprayed, kindLater, kindDriftZone, kindLine, kindStart, kindStop, kindLaunch},
		member("MapProperties", "kind"))
	assert.Equal(t, schemas["Verdict"].Enum, member("AnswerMap", "answer"))
	assert.Equal(t, codesOf(permits.SmallRegime, permits.LargeRegime), member("Authorizations", "regime"))
	assert.Equal(t, codesOf(permits.Held, permits.NeededNow, permits.NotNeeded, permits.Prohibited, permits.Unknown),
		member("AuthorizationItem", "status"))
	assert.Equal(t, codesOf(permits.Permit, permits.Limit, permits.OnLabel, permits.Duty, permits.Notice), member("AuthorizationItem", "kind"))
	var groups []string
	for _, g := range permits.Groups() {
		groups = append(groups, g.String())
	}
	assert.Equal(t, groups, member("AuthorizationItem", "group"))
	assert.Equal(t, codesOf(spray.HydraulicAtomizer, spray.RotaryAtomizer), member("SpraySystem", "atomizer"))
	assert.Equal(t, codesOf(spray.FlatFan, spray.PreOrifice, spray.AirInduction, spray.HollowCone), member("Nozzle", "type"))
	assert.Equal(t, codesOf(feasibility.RadarHeight, feasibility.LaserHeight, feasibility.NoHeight), member("Sensing", "height"))
	assert.Equal(t, codesOf(permits.Commercial, permits.Private, permits.Public), member("Operation", "purpose"))
	assert.Equal(t, codesOf(permits.AirspaceG, permits.AirspaceESurface, permits.AirspaceD, permits.AirspaceC,
		permits.AirspaceB, permits.AirspaceUnknown), member("Operation", "airspace"))
	assert.Equal(t, codesOf(permits.EconomicPoison, permits.Nourishment, permits.SoilTreatment, permits.Seed,
		permits.PestControlOther, permits.LiveInsects, permits.WaterTest, permits.OtherDispensed), member("Operation", "dispenses"))
	assert.Equal(t, codesOf(permits.FieldUse, permits.MosquitoUse, permits.AquaticWeed, permits.AquaticAnimal, permits.ForestCanopy),
		member("Operation", "use_pattern"))
	assert.Equal(t, codesOf(permits.RecordRequired, permits.RecordUnknown, permits.RecordNotRequired), member("ApplicationRecord", "duty"))
}

// What an endpoint needs is what its schema requires, down to the last object.
func TestNeedsAreThoseOfTheContract(t *testing.T) {
	t.Parallel()
	schemas := contractSchemas(t)
	for _, endpoint := range allEndpoints {
		inContract := map[string]bool{}
		var walk func(place string, n schemaNode)
		walk = func(place string, n schemaNode) {
			n = follow(t, schemas, n)
			for _, name := range n.Required {
				inContract[place+"/"+name] = true
			}
			for name, property := range n.Properties {
				walk(place+"/"+name, property)
			}
		}
		walk("", schemaNode{Ref: schemaPrefix + endpoint.SchemaName()})
		for _, n := range needs {
			assert.Equal(t, slices.Contains(n.by, endpoint), inContract[n.path], "%s: %s", endpoint, n.path)
		}
	}
}

// Every range the program enforces is printed in the contract.
func TestRangesAreInTheContract(t *testing.T) {
	t.Parallel()
	schemas := contractSchemas(t)
	for _, l := range limits {
		node := schemaNode{Ref: schemaPrefix + "AssessmentRequest"}
		for token := range strings.SplitSeq(strings.TrimPrefix(l.path, "/"), "/") {
			node = follow(t, schemas, node)
			if token == "*" {
				require.NotNil(t, node.Items, l.path)
				node = *node.Items
				continue
			}
			node = node.Properties[token]
		}
		d, ok := dimensionOf(l.low.Dimension())
		require.True(t, ok)
		assert.Equal(t, schemaPrefix+dimensionSchemas[d.name], node.Ref, l.path)
		printed := slices.ContainsFunc(d.units, func(u unit) bool {
			return strings.Contains(node.Description, "Range "+l.allowed(u)+".")
		})
		assert.True(t, printed, "%s: the range is not printed in %q", l.path, node.Description)
	}
}

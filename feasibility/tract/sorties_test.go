package tract

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/units"
)

func TestBatteryBindsWhereItIsSmall(t *testing.T) {
	t.Parallel()
	area, ferry := 40*units.Acre, 150*units.Meter
	field := Field{Area: &area, FerryDistance: &ferry}
	tank := Fly(field, tankJob(1))
	job := tankJob(0.25)
	plan := Fly(field, job)
	require.True(t, plan.Feasible)
	assert.Equal(t, BoundBattery, plan.BoundBy)
	assert.Equal(t, units.Count(1), plan.SortiesPerBattery)
	assert.Greater(t, plan.Sorties, tank.Sorties)
	for _, s := range plan.List[:len(plan.List)-1] {
		assert.Equal(t, BoundBattery, s.EndedBy)
		// The battery is used up to its reserve, unless the next meter would need a turn first.
		assert.Greater(t, s.Energy.SI(), 0.98*job.Power.Usable.SI())
		assert.Less(t, s.Fill.SI(), job.Fill.SI(), "no more is loaded than the battery sprays")
	}
	f := found(plan, CodeSortieBoundByBattery)
	assert.Equal(t, finding.Caution, f.Severity)
	assert.Less(t, f.Margin.SI(), 0.0)

	job = tankJob(0.5)
	assert.Equal(t, finding.Note, found(Fly(field, job), CodeSortieBoundByBattery).Severity)
}

func TestOneBatteryLastsSeveralTanks(t *testing.T) {
	t.Parallel()
	area := 40 * units.Acre
	job := tankJob(1)
	job.Fill = 5 * units.Liter
	plan := Fly(Field{Area: &area}, job)
	require.True(t, plan.Feasible)
	require.Greater(t, plan.SortiesPerBattery, units.Count(1))
	b := plan.SortiesPerBattery.SI()
	assert.LessOrEqual(t, plan.EnergyEach.SI()*b, job.Power.Usable.SI()*(1+1e-9))
	assert.Greater(t, plan.EnergyEach.SI()*(b+1), job.Power.Usable.SI())
	assert.InEpsilon(t, plan.AreaEach.SI()*b, plan.AreaPerBattery.SI(), 1e-12)
}

func TestWeightBound(t *testing.T) {
	t.Parallel()
	area := 40 * units.Acre
	job := tankJob(1)
	job.FillBoundByWeight = new(true)
	plan := Fly(Field{Area: &area}, job)
	assert.Equal(t, BoundWeight, plan.BoundBy)
	assert.Equal(t, BoundWeight, plan.List[0].EndedBy)
}

func TestASmallFieldIsBoundByWhatItComesNearestTo(t *testing.T) {
	t.Parallel()
	area := 1 * units.Acre
	plan := Fly(Field{Area: &area}, tankJob(10))
	assert.Equal(t, units.Count(1), plan.Sorties)
	assert.Equal(t, BoundTank, plan.BoundBy)
	assert.Equal(t, BoundBattery, Fly(Field{Area: &area}, tankJob(0.3)).BoundBy)
}

func TestInfeasible(t *testing.T) {
	t.Parallel()
	area, far := 40*units.Acre, 6*units.Mile
	plan := Fly(Field{Area: &area, FerryDistance: &far}, tankJob(1))
	assert.False(t, plan.Feasible)
	assert.Zero(t, plan.Sorties)
	assert.Empty(t, plan.List)
	f := found(plan, CodeBatteryTooSmall)
	assert.Equal(t, finding.Stop, f.Severity)
	assert.Less(t, f.Margin.SI(), 0.0)
	assert.Contains(t, f.Message, "the first line")

	// A launch point from which the near lines can be served but not the far ones.
	launch := placed(box(0, 0, 1, 1))[0][0]
	long := Field{Boundary: []Polygon{placed(box(0, 0, 3000, 70))}, LaunchPoint: &launch}
	plan = Fly(long, tankJob(0.25))
	assert.False(t, plan.Feasible)
	assert.Contains(t, found(plan, CodeBatteryTooSmall).Message, "line 1")
}

// An estimate from figures that are from memory decides no stop alone: without a measured hover the
// job stops only where rotors and motors without loss could not fly it either.
func TestAnEstimatedBatteryAsksBeforeItStops(t *testing.T) {
	t.Parallel()
	area := 40 * units.Acre
	for name, tc := range map[string]struct {
		ferry units.Length
		want  finding.Severity
	}{
		"out of reach by the estimate": {9 * units.Kilometer, finding.Needed},
		"out of reach without loss":    {30 * units.Kilometer, finding.Stop},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			job := tankJob(1)
			job.Power = flight.New(flight.Machine{
				BatteryEnergy: 1500 * units.WattHour, EmptyMass: 36.5 * units.Kilogram, FullMass: 66.5 * units.Kilogram,
				Rotors: &flight.Rotors{Count: 6, Diameter: 0.965 * units.Meter},
			}, 1.225*units.KilogramPerCubicMeter)
			require.False(t, job.Power.Calibrated)
			plan := Fly(Field{Area: &area, FerryDistance: &tc.ferry}, job)
			assert.False(t, plan.Feasible)
			f := found(plan, CodeBatteryTooSmall)
			assert.Equal(t, tc.want, f.Severity)
			if tc.want == finding.Needed {
				assert.Contains(t, f.Message, "By our estimate of the power, one battery cannot")
			}
		})
	}
}

func TestHugeJobsAreBounded(t *testing.T) {
	t.Parallel()
	area, ferry := 40_000*units.Acre, 100*units.Meter
	plan := Fly(Field{Area: &area, FerryDistance: &ferry}, tankJob(1))
	require.True(t, plan.Feasible)
	assert.Len(t, plan.List, mostListed)
	assert.Contains(t, codes(plan), CodeListShortened)
	// The rest by arithmetic: the tank binds throughout.
	assert.InEpsilon(t, plan.Treated.SI()/plan.AreaEach.SI(), plan.Sorties.SI(), 0.001)
	assert.InEpsilon(t, plan.Treated.SI()/49, plan.SprayTime.SI(), 1e-9)

	wide, short := 30_000*7*units.Meter, 100*units.Meter
	plan = Fly(Field{Length: &short, Width: &wide, FerryDistance: &ferry}, tankJob(1))
	assert.True(t, plan.Feasible, "the lines run along the longer side, so there are few")

	job := tankJob(1)
	job.Swath = units.Meter / 1000
	plan = Fly(Field{Area: new(1 * units.Acre), FerryDistance: &ferry}, job)
	assert.Contains(t, codes(plan), CodePlanCoarse)
	assert.True(t, plan.Feasible || found(plan, CodeTooManySorties).Severity == finding.Stop || found(plan, CodeBatteryTooSmall).Severity == finding.Stop)

	job = tankJob(1)
	job.Fill = 1 * units.Milliliter
	plan = Fly(Field{Area: &area, FerryDistance: &ferry}, job)
	assert.False(t, plan.Feasible)
	assert.Contains(t, codes(plan), CodeTooManySorties)
}

func TestMinimumFillIsCarried(t *testing.T) {
	t.Parallel()
	area := 1 * units.Acre
	job := tankJob(1)
	plain := Fly(Field{Area: &area}, job)
	job.MinimumFill = new(20 * units.Liter)
	held := Fly(Field{Area: &area}, job)
	require.Len(t, held.List, 1)
	assert.InDelta(t, 20, held.List[0].Fill.In(units.Liter), 1e-9)
	assert.Greater(t, held.EnergyEach, plain.EnergyEach, "what is not sprayed is flown home")
}

func TestMissingNumbers(t *testing.T) {
	t.Parallel()
	area := 40 * units.Acre
	for pointer, spoil := range map[string]func(*Job){
		"/flight/swath":          func(j *Job) { j.Swath = 0 },
		"/flight/speed":          func(j *Job) { j.Speed = units.Speed(math.Inf(1)) },
		"/load/application_rate": func(j *Job) { j.Rate = -1 },
		"/load/fill":             func(j *Job) { j.Fill = 0 },
		"/load/density":          func(j *Job) { j.Density = units.Density(math.NaN()) },
		"/aircraft/empty_weight": func(j *Job) { j.DryMass = 0 },
	} {
		t.Run(pointer, func(t *testing.T) {
			t.Parallel()
			job := tankJob(1)
			spoil(&job)
			plan := Fly(Field{Area: &area}, job)
			assert.False(t, plan.Feasible)
			assert.Equal(t, pointer, found(plan, CodeJobIncomplete).Subject)
		})
	}
	plan := Fly(Field{}, tankJob(1))
	assert.Equal(t, finding.Needed, found(plan, CodeFieldMissing).Severity)
}

func TestUnknownPowerIsSaid(t *testing.T) {
	t.Parallel()
	area := 40 * units.Acre
	job := tankJob(1)
	job.Power = flight.Model{}
	plan := Fly(Field{Area: &area}, job)
	assert.True(t, plan.Feasible)
	assert.Equal(t, finding.Needed, found(plan, CodeBatteryNotChecked).Severity)
	assert.Equal(t, units.Count(1), plan.SortiesPerBattery)
	assert.Zero(t, plan.EnergyEach)
}

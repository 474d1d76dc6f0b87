package spray

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// drawUsual draws a sensible hydraulic system and job.
func drawUsual(t *rapid.T) (System, Job) {
	number := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	s := System{
		Atomizer: HydraulicAtomizer, Count: units.Count(rapid.IntRange(1, 16).Draw(t, "count")),
		Hydraulic: &Hydraulic{
			Type:      rapid.SampledFrom([]NozzleType{FlatFan, PreOrifice, AirInduction, HollowCone}).Draw(t, "family"),
			RatedFlow: units.Flow(number(0.05, 1, "gpm")) * gpm, RatedPressure: units.Pressure(number(20, 60, "psi")) * psi,
		},
	}
	if rapid.Bool().Draw(t, "pump") {
		s.Pump = &Pump{MaxFlow: units.Flow(number(0.3, 5, "pump gpm")) * gpm, MaxPressure: units.Pressure(number(20, 150, "pump psi")) * psi}
	}
	if rapid.Bool().Draw(t, "stated range") {
		s.Hydraulic.MinPressure = new(units.Pressure(number(10, 40, "min psi")) * psi)
		s.Hydraulic.MaxPressure = new(units.Pressure(number(40, 120, "max psi")) * psi)
	}
	return s, Job{
		Rate:  units.ApplicationRate(number(0.5, 10, "gpa")) * units.GallonPerAcre,
		Speed: units.Speed(number(2, 30, "mph")) * units.MilePerHour, Swath: units.Length(number(6, 40, "ft")) * units.Foot,
		Density: units.Density(number(6, 13, "lb/gal")) * units.PoundPerGallon,
	}
}

func TestFasterNeverNeedsLessPressureNorMakesCoarserDrops(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s, job := drawUsual(t)
		slow := Hold(s, job)
		job.Speed *= units.Speed(rapid.Float64Range(1, 4).Draw(t, "faster"))
		fast := Hold(s, job)
		if *fast.Pressure < *slow.Pressure || *fast.PressureUsed < *slow.PressureUsed {
			// A pump that cannot reach the range holds both at its own limit.
			t.Fatalf("pressure falls from %v to %v", *slow.PressureUsed, *fast.PressureUsed)
		}
		if fast.Droplet.Spectrum.Dv05 > slow.Droplet.Spectrum.Dv05 {
			t.Fatal("faster is coarser")
		}
		if slow.Droplet.Fines > fast.Droplet.Fines {
			t.Fatal("faster has fewer fines")
		}
		if fast.Droplet.Class.CoarserThan(slow.Droplet.Class) {
			t.Fatal("faster is a coarser class")
		}
	})
}

func TestBiggerNozzleIsNeverFiner(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s, job := drawUsual(t)
		small := Hold(s, job)
		bigger := *s.Hydraulic
		bigger.RatedFlow *= units.Flow(rapid.Float64Range(1, 4).Draw(t, "bigger"))
		s.Hydraulic = &bigger
		big := Hold(s, job)
		if big.Droplet.Spectrum.Dv05 < small.Droplet.Spectrum.Dv05*(1-1e-12) {
			t.Fatalf("Dv0.5 falls from %v to %v", small.Droplet.Spectrum.Dv05, big.Droplet.Spectrum.Dv05)
		}
	})
}

func TestWithinRangeAndDeliveredAgree(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s, job := drawUsual(t)
		r := Hold(s, job)
		inRange := units.AtLeast(job.Speed, r.SpeedRange.Lowest) && units.AtMost(job.Speed, r.SpeedRange.Highest)
		if r.WithinRange != (inRange && !r.SpeedRange.Empty()) {
			t.Fatalf("within range %v, but speed %v of %+v", r.WithinRange, job.Speed, r.SpeedRange)
		}
		if r.WithinRange && r.RateDelivered != job.Rate {
			t.Fatal("inside the range the rate is not held")
		}
		// What is delivered is what the nozzles give at the pressure used.
		total := s.Hydraulic.FlowAt(*r.PressureUsed, job.Density) * units.Flow(s.Count)
		got := total.SI() / (job.Speed.SI() * job.Swath.SI())
		if math.Abs(got/r.RateDelivered.SI()-1) > 1e-9 {
			t.Fatalf("delivered %v, but the nozzles give %g", r.RateDelivered, got)
		}
		for _, f := range r.Findings {
			if f.Severity == finding.Stop && f.Source.Standing == finding.FromMemory {
				t.Fatalf("%s stops from memory", f.Code)
			}
		}
	})
}

// However little a job is outside the range that holds the rate, something is left to settle: a range that
// nobody stated is not known to reach farther.
func TestOutsideTheRangeIsNeverSettled(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s, job := drawUsual(t)
		if span := Hold(s, job).SpeedRange; !span.Empty() {
			end := rapid.SampledFrom([]units.Speed{span.Lowest, span.Highest}).Draw(t, "end")
			job.Speed = end * units.Speed(rapid.Float64Range(0.9, 1.1).Draw(t, "of it"))
		}
		r := Hold(s, job)
		open := slices.ContainsFunc(r.Findings, func(f finding.Finding) bool {
			return f.Severity == finding.Stop || f.Severity == finding.Needed
		})
		if !r.WithinRange && !open {
			t.Fatalf("speed %v is outside %+v and nothing is left to settle", job.Speed, r.SpeedRange)
		}
	})
}

func TestFlowAndPressureAreInverses(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s, job := drawUsual(t)
		p := units.Pressure(rapid.Float64Range(1, 200).Draw(t, "psi")) * psi
		back := s.Hydraulic.PressureFor(s.Hydraulic.FlowAt(p, job.Density), job.Density)
		if math.Abs(float64(back/p)-1) > 1e-12 {
			t.Fatalf("%v comes back as %v", p, back)
		}
	})
}

// absurd draws any positive number the wire may let through, and beyond.
func absurd(t *rapid.T, name string) float64 {
	return math.Pow(10, rapid.Float64Range(-15, 15).Draw(t, name))
}

// drawAbsurd draws a system and job of absurd but positive figures.
func drawAbsurd(t *rapid.T) (System, Job) {
	s := System{Count: units.Count(rapid.IntRange(1, 1_000_000).Draw(t, "count"))}
	if rapid.Bool().Draw(t, "rotary") {
		s.Atomizer = RotaryAtomizer
		s.Rotary = &Rotary{DiscDiameter: units.Length(absurd(t, "disc")), Rotation: units.RotationRate(absurd(t, "rotation"))}
		if rapid.Bool().Draw(t, "rotation range") {
			s.Rotary.MinRotation = new(units.RotationRate(absurd(t, "min")))
			s.Rotary.MaxRotation = new(units.RotationRate(absurd(t, "max")))
		}
	} else {
		s.Atomizer = HydraulicAtomizer
		s.Hydraulic = &Hydraulic{
			Type:      rapid.SampledFrom([]NozzleType{FlatFan, AirInduction, HollowCone, "unheard_of"}).Draw(t, "family"),
			RatedFlow: units.Flow(absurd(t, "flow")), RatedPressure: units.Pressure(absurd(t, "pressure")),
		}
		if rapid.Bool().Draw(t, "range") {
			s.Hydraulic.MinPressure = new(units.Pressure(absurd(t, "min")))
		}
		for range rapid.IntRange(0, 3).Draw(t, "spectra") {
			s.Hydraulic.Spectra = append(s.Hydraulic.Spectra, PressureSpectrum{
				Pressure: units.Pressure(absurd(t, "at")), Dv05: units.Length(absurd(t, "Dv0.5")), Dv01: new(units.Length(absurd(t, "Dv0.1"))),
			})
		}
	}
	if rapid.Bool().Draw(t, "pump") {
		s.Pump = &Pump{units.Flow(absurd(t, "pump flow")), units.Pressure(absurd(t, "pump pressure"))}
	}
	return s, Job{
		Rate: units.ApplicationRate(absurd(t, "rate")), Speed: units.Speed(absurd(t, "speed")), Swath: units.Length(absurd(t, "swath")),
		Density: units.Density(absurd(t, "density")), SurfaceTension: new(units.SurfaceTension(absurd(t, "tension"))),
	}
}

// Judging says what holding says, but for the curve.
func TestJudgeSaysWhatHoldSays(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		draw := drawUsual
		if rapid.Bool().Draw(t, "absurd") {
			draw = drawAbsurd
		}
		s, job := draw(t)
		want := Hold(s, job)
		want.Curve = nil
		assert.Equal(t, want, Judge(s, job))
	})
}

func TestAbsurdFiguresStayFinite(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s, job := drawAbsurd(t)
		r := Hold(s, job)
		values := []units.Quantity{
			r.FlowTotal, r.FlowEach, r.RateDelivered, r.SpeedRange.Lowest, r.SpeedRange.Highest, r.Droplet.Fines,
			r.Droplet.Uncertainty, r.Droplet.Spectrum.Dv01, r.Droplet.Spectrum.Dv05, r.Droplet.Spectrum.Dv09,
			r.Droplet.Spectrum.Quantile(0.01), r.Droplet.Spectrum.Quantile(0.99),
		}
		if r.Pressure != nil {
			values = append(values, *r.Pressure, *r.PressureUsed)
		}
		for _, p := range r.Curve {
			values = append(values, p.Speed, p.FlowEach, p.Fines)
			if p.Pressure != nil {
				values = append(values, *p.Pressure)
			}
			if !p.Class.Known() {
				t.Fatalf("no class at %v", p.Speed)
			}
		}
		for _, f := range r.Findings {
			for _, q := range []units.Quantity{f.Measured, f.Limit, f.Margin} {
				if q != nil {
					values = append(values, q)
				}
			}
		}
		for i, q := range values {
			if math.IsNaN(q.SI()) || math.IsInf(q.SI(), 0) {
				t.Fatalf("value %d is %v: %+v", i, q, r)
			}
		}
		if !r.Droplet.Class.Known() {
			t.Fatalf("no class: %+v", r.Droplet)
		}
	})
}

func FuzzHold(f *testing.F) {
	f.Add(2.0, 10.0, 13.0, 0.15, 40.0, 8.345, 4)
	f.Add(0.0, -1.0, math.Inf(1), math.NaN(), 1e308, 1e-308, 0)
	f.Fuzz(func(t *testing.T, gpa, mph, ft, rated, ratedPSI, lbgal float64, count int) {
		s := System{Atomizer: HydraulicAtomizer, Count: units.Count(count), Hydraulic: &Hydraulic{
			Type: FlatFan, RatedFlow: units.Flow(rated) * gpm, RatedPressure: units.Pressure(ratedPSI) * psi,
		}}
		// No figure at all may panic; the wire keeps out those that are not finite.
		Hold(s, Job{
			Rate: units.ApplicationRate(gpa) * units.GallonPerAcre, Speed: units.Speed(mph) * units.MilePerHour,
			Swath: units.Length(ft) * units.Foot, Density: units.Density(lbgal) * units.PoundPerGallon,
		})
	})
}

package spray_test

import (
	"fmt"
	"testing"

	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// An invented machine: four flat fans of size 015, 2 gal/ac of water at 10 mph over 13 ft.
func ExampleHold() {
	system := spray.System{
		Atomizer: spray.HydraulicAtomizer, Count: 4,
		Hydraulic: &spray.Hydraulic{
			Type: spray.FlatFan, RatedFlow: 0.15 * units.GallonPerMinute, RatedPressure: 40 * units.PoundPerSquareInch,
		},
		Pump: &spray.Pump{MaxFlow: 2 * units.GallonPerMinute, MaxPressure: 100 * units.PoundPerSquareInch},
	}
	held := spray.Hold(system, spray.Job{
		Rate: 2 * units.GallonPerAcre, Speed: 10 * units.MilePerHour, Swath: 13 * units.Foot,
		Density: 8.345 * units.PoundPerGallon,
	})
	fmt.Printf("%.4f gal/min in all, %.1f psi\n",
		held.FlowTotal.In(units.GallonPerMinute), held.Pressure.In(units.PoundPerSquareInch))
	fmt.Printf("%s, %.0f %% under 150 um\n", held.Droplet.Class, held.Droplet.Fines.In(units.Percent))
	fmt.Printf("holds the rate from %.1f to %.1f mph\n",
		held.SpeedRange.Lowest.In(units.MilePerHour), held.SpeedRange.Highest.In(units.MilePerHour))
	// Output:
	// 0.5253 gal/min in all, 30.7 psi
	// fine, 35 % under 150 um
	// holds the rate from 9.9 to 14.0 mph
}

func BenchmarkHold(b *testing.B) {
	system := spray.System{
		Atomizer: spray.HydraulicAtomizer, Count: 4,
		Hydraulic: &spray.Hydraulic{
			Type: spray.FlatFan, RatedFlow: 0.15 * units.GallonPerMinute, RatedPressure: 40 * units.PoundPerSquareInch,
		},
	}
	job := spray.Job{
		Rate: 2 * units.GallonPerAcre, Speed: 10 * units.MilePerHour, Swath: 13 * units.Foot,
		Density: 8.345 * units.PoundPerGallon,
	}
	b.ReportAllocs()
	for b.Loop() {
		spray.Hold(system, job)
	}
}

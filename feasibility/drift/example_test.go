package drift_test

import (
	"fmt"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// An invented tract with a neighbor's crop 300 ft downwind of it.
func ExampleAssess() {
	wind, cloud := 6*units.MilePerHour, 20*units.Percent
	state := air.Observe(air.Observation{
		Temperature: units.FromFahrenheit(77), RelativeHumidity: 60 * units.Percent,
		WindSpeed: wind, WindHeight: new(10 * units.Foot), CropHeight: new(3 * units.Foot),
		CloudCover: &cloud, Sun: &air.Sun{Elevation: 50 * units.Degree},
	})
	result := drift.Assess(drift.Input{
		Air: state, WindSpeed: wind, WindFrom: 270 * units.BearingDegree,
		Spray: drift.Spray{
			Density: 8.4 * units.PoundPerGallon,
			Droplet: spray.Droplet{
				Class: spray.Medium, Fines: 12 * units.Percent,
				Spectrum: spray.Spectrum{Dv01: 140 * units.Micrometer, Dv05: 300 * units.Micrometer, Dv09: 510 * units.Micrometer},
			},
		},
		Release: drift.Release{
			Height: 8 * units.Foot, Speed: 10 * units.MilePerHour, Swath: 15 * units.Foot, Crosswind: new(true),
			UnderRotors: new(true), Mass: new(90 * units.Pound), DiscArea: new(2.7 * units.SquareMeter),
		},
		Ground: drift.Ground{Area: new(40 * units.Acre), CropHeight: 3 * units.Foot},
		Neighbors: []drift.Neighbor{
			{Kind: "crop", Distance: 300 * units.Foot, Bearing: 90 * units.BearingDegree, Tolerance: new(2 * units.Percent)},
		},
		Pesticide: true,
	})
	at := result.AtNeighbors[0]
	fmt.Printf("grade %s\n", result.Grade)
	fmt.Printf("at the neighbor %.1f %% of the rate, at most %.1f %%\n", at.PercentOfRate.Best.In(units.Percent), at.PercentOfRate.High.In(units.Percent))
	fmt.Printf("buffer %.0f ft\n", result.Buffer.Distance.In(units.Foot))
	// Output:
	// grade low
	// at the neighbor 0.1 % of the rate, at most 0.4 %
	// buffer 61 ft
}

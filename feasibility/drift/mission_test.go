package drift

import (
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// weather is a day of the tests: 77 F, 60 % humidity, a sun well up, wind from the west.
type weather struct {
	wind      units.Speed
	humidity  units.Proportion
	gust      *units.Speed
	inversion *bool
	sun       *air.Sun
	crop      units.Length
}

func fairDay() weather {
	cloud := air.Sun{Elevation: 50 * units.Degree}
	return weather{wind: 6 * units.MilePerHour, humidity: 60 * units.Percent, sun: &cloud, crop: 3 * units.Foot}
}

func (w weather) state() air.State {
	cloud := 20 * units.Percent
	return air.Observe(air.Observation{
		Temperature: units.FromFahrenheit(77), RelativeHumidity: w.humidity, WindSpeed: w.wind, Gust: w.gust,
		WindHeight: new(10 * units.Foot), CropHeight: &w.crop, Elevation: new(200 * units.Foot),
		CloudCover: &cloud, InversionObserved: w.inversion, Sun: w.sun,
	})
}

// job is a mid-size machine spraying a tract of 40 acres at 2 gal/ac with medium drops, wind from
// the west, nothing missing.
func job(w weather) Input {
	return Input{
		Air: w.state(), WindSpeed: w.wind, WindFrom: 270 * units.BearingDegree, Gust: w.gust,
		Spray: Spray{
			Atomizer: spray.HydraulicAtomizer, Rate: 2 * units.GallonPerAcre, Density: 8.4 * units.PoundPerGallon,
			Nonvolatile: new(5 * units.Percent),
			Droplet: spray.Droplet{Class: spray.Medium, Fines: 12 * units.Percent,
				Spectrum: spray.Spectrum{Dv01: 140 * units.Micrometer, Dv05: 300 * units.Micrometer, Dv09: 510 * units.Micrometer}},
		},
		Release: Release{
			Height: 8 * units.Foot, Speed: 10 * units.MilePerHour, Swath: 15 * units.Foot, Crosswind: new(true),
			UnderRotors: new(true), Mass: new(90 * units.Pound), DiscArea: new(2.7 * units.SquareMeter),
		},
		Ground:    Ground{Along: new(300 * units.Meter), CropHeight: w.crop},
		Neighbors: []Neighbor{{Kind: "crop", Distance: 300 * units.Foot, Bearing: 90 * units.BearingDegree, Tolerance: new(2 * units.Percent)}},
		Pesticide: true,
	}
}

// sized puts a spray of a middle size into a job, um.
func sized(in Input, dv05 float64) Input {
	in.Spray.Droplet.Spectrum = sprayOf(dv05)
	in.Spray.Droplet.Fines = in.Spray.Droplet.Spectrum.VolumeBelow(150 * units.Micrometer)
	return in
}

// found finds a finding by its code; the zero Finding is none.
func found(r Result, code finding.Code) finding.Finding {
	for _, f := range r.Findings {
		if f.Code == code {
			return f
		}
	}
	return finding.Finding{}
}

// depositAtTen is the best estimate 10 m downwind of the field.
func depositAtTen(r Result) units.Proportion {
	for _, d := range r.Deposit {
		if d.Distance == 10*units.Meter {
			return d.PercentOfRate.Best
		}
	}
	return -1
}

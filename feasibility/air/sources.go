package air

import "tractcheck/feasibility/finding"

// Sources lists everything the air stands on, in a fixed order.
func Sources() []finding.Source {
	return []finding.Source{
		standardAtmosphere, idealMixture, buck, psychrometer,
		pasquill, turner, stabilityRatio, golder, surfaceLayer, cropShape, davenport,
		inversionHours, labelInversion, labelWind, adiabat, freezingPractice, ownBounds,
	}
}

var (
	standardAtmosphere = finding.Source{
		ID:       "ussa-1976",
		Citation: "NOAA, NASA and USAF 1976, U.S. Standard Atmosphere (below 32 km the same as ICAO Doc 7488)",
		Standing: finding.Read,
	}
	idealMixture = finding.Source{
		ID:       "humid-air-mixture",
		Citation: "Ideal-gas mixture of dry air and water vapor, held against Picard et al. 2008, CIPM-2007, Metrologia 45:149",
		Standing: finding.Read,
	}
	buck = finding.Source{
		ID:       "buck-1996",
		Citation: "Buck 1981, J. Appl. Meteor. 20:1527, saturation vapor pressure over water, as revised 1996",
		Standing: finding.FromMemory,
	}
	psychrometer = finding.Source{
		ID:       "wmo-8-psychrometer",
		Citation: "WMO No. 8, Guide to Instruments and Methods of Observation, part I, ch. 4, psychrometric equation",
		Standing: finding.FromMemory,
	}
	pasquill = finding.Source{
		ID:       "noaa-arl-pasquill",
		Citation: "NOAA Air Resources Laboratory, Pasquill Stability Classes, after Pasquill 1961",
		Standing: finding.Read,
	}
	turner = finding.Source{
		ID:       "turner-1964",
		Citation: "Turner 1964, J. Appl. Meteor. 3:83, strength of the sun by its elevation and cloud",
		Standing: finding.Read,
	}
	stabilityRatio = finding.Source{
		ID:       "yates-1974",
		Citation: "Yates, Akesson and Coutts 1967 and 1974, stability ratio; used by Fritz et al. 2008, CIGR Ejournal",
		Standing: finding.FromMemory,
	}
	golder = finding.Source{
		ID:       "golder-1972",
		Citation: "Golder 1972, Boundary-Layer Meteorol. 3:47, Obukhov length by stability class and roughness",
		Standing: finding.Read,
	}
	surfaceLayer = finding.Source{
		ID:       "dyer-1974",
		Citation: "Businger et al. 1971; Dyer 1974; Paulson 1970; Webb 1970, wind profile of the surface layer",
		Standing: finding.FromMemory,
	}
	cropShape = finding.Source{
		ID:       "brutsaert-1982",
		Citation: "Brutsaert 1982, Evaporation into the Atmosphere, ch. 5; Allen et al. 1998, FAO-56 eq. 4: displacement and roughness of a crop",
		Standing: finding.FromMemory,
	}
	davenport = finding.Source{
		ID:       "davenport-classes",
		Citation: "Davenport roughness classes, as listed in wind statistics documentation",
		Standing: finding.Read,
	}
	inversionHours = finding.Source{
		ID:       "grdc-2025-10.8",
		Citation: "GRDC 2025, Spray Application Manual, module 10.8: inversions on most nights from 1-2 h before sunset until about 1 h after sunrise",
		Standing: finding.Read,
	}
	labelInversion = finding.Source{
		ID:       "label-no-inversion",
		Citation: "Product label language accepted by EPA, quoted by Clemson University Extension: no application during a temperature inversion",
		Standing: finding.Read,
	}
	labelWind = finding.Source{
		ID:       "label-3-mph",
		Citation: "Federal auxin herbicide labels, quoted by Basol, Iowa State University Extension: under 3 mph at boom height determine that no inversion exists",
		Standing: finding.Read,
	}
	adiabat = finding.Source{
		ID:       "stull-adiabatic-lapse",
		Citation: "Stull, Meteorology for Scientists and Engineers: air that is moved up without heat cools by g/cp, 9.8 K for each km; what cools less with height is stable",
		Standing: finding.FromMemory,
	}
	freezingPractice = finding.Source{
		ID:       "freezing-practice",
		Citation: "Water freezes at 0 C (32 F); operators ask the label and the makers before they spray in freezing air, and keep batteries warm",
		Standing: finding.CommonPractice,
	}
	ownBounds = finding.Source{
		ID:       "own-weather-bounds",
		Citation: "Own choice of the weather values that can occur on farmland, and of gusts, crop height and wind-meter height where none are stated",
		Standing: finding.OwnDesign,
	}
)

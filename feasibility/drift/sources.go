package drift

import "tractcheck/feasibility/finding"

// The sources of the room. Each is named where its number or rule is used.
var (
	sourceDrag = finding.Source{
		ID:       "schiller-naumann-1933",
		Citation: "Schiller and Naumann 1933, Z. VDI 77:318, with the high-speed term of Clift and Gauvin 1970, Proc. Chemeca 70; both in Clift, Grace and Weber 1978, Bubbles, Drops and Particles, ch. 5",
		Standing: finding.FromMemory,
	}
	sourceGunnKinzer = finding.Source{
		ID:       "gunn-kinzer-1949",
		Citation: "Gunn and Kinzer 1949, The terminal velocity of fall for water droplets in stagnant air, J. Meteorol. 6:243-248, Table 2",
		Standing: finding.Read,
	}
	sourceEvaporation = finding.Source{
		ID:       "beard-pruppacher-1971",
		Citation: "Beard and Pruppacher 1971, J. Atmos. Sci. 28:1455 (ventilation of falling drops); heat-limited drop at the wet bulb after Godsave 1953",
		Standing: finding.FromMemory,
	}
	sourceTurbulence = finding.Source{
		ID:       "panofsky-dutton-1984",
		Citation: "Panofsky and Dutton 1984, Atmospheric Turbulence; Businger et al. 1971; Csanady 1963 for crossing trajectories",
		Standing: finding.FromMemory,
	}
	sourceFanOut = finding.Source{
		ID:       "briggs-1973",
		Citation: "Briggs 1973, Diffusion Estimation for Small Emissions, ATDL contribution 79 (spread across the wind, open country)",
		Standing: finding.Read,
	}
	sourceMomentum = finding.Source{
		ID:       "glauert-1926",
		Citation: "Glauert 1926; Leishman, Principles of Helicopter Aerodynamics, ch. 2 (induced velocity by momentum theory)",
		Standing: finding.FromMemory,
	}
	sourceTrail = finding.Source{
		ID:       "tcsam-2021-20210105",
		Citation: "Trans. Chin. Soc. Agric. Mach. 2021, article 20210105: canopy disturbance 1.77 to 4.31 m behind a multirotor sprayer at 3 to 6 m/s",
		Standing: finding.Read,
	}
	sourceBasicDrift = finding.Source{
		ID:       "rautmann-2001",
		Citation: "Ganzelmeier et al. 1995; Rautmann, Streloke and Winkler 2001, Mitt. BBA 383:133 (basic drift values); FOCUS 2001, SANCO/4802/2001 Appendix B",
		Standing: finding.Read,
	}
	sourceBasicDriftConstants = finding.Source{
		ID:       "rautmann-2001-constants",
		Citation: "Rautmann, Streloke and Winkler 2001, Mitt. BBA 383:133, regression constants for fruit crops and for aerial application",
		Standing: finding.FromMemory,
	}
	sourceFieldTrials = finding.Source{
		ID:       "bonds-2024",
		Citation: "Bonds et al. 2024, J. ASABE 67(1):27-41 (review of drift from unmanned spraying); Butler Ellis et al. 2025, Pest Manag. Sci., doi 10.1002/ps.8645",
		Standing: finding.Read,
	}
	sourcePattern = finding.Source{
		ID:       "wheat-trial-2025",
		Citation: "Extension summary of a wheat trial of 2025: flight across the wind moved the swath 1 to 5 m downwind; Wang J. et al. 2020, doi 10.1002/apj.2382: the swath shifts 2 to 4 m as wind rises",
		Standing: finding.Read,
	}
	sourcePatternTest = finding.Source{
		ID:       "astm-e642",
		Citation: "ASTM E642, deposition tests of aerial spraying: fly parallel to the wind or within 20 degrees of it, in wind up to 16 km/h",
		Standing: finding.Read,
	}
	sourceDesign = finding.Source{
		ID:       "tractcheck-drift",
		Citation: "tractcheck, drift estimate: choice of this project, see the package documentation",
		Standing: finding.OwnDesign,
	}
	sourceLabel = finding.Source{
		ID:       "product-label",
		Citation: "The product label as stated in the request; use inconsistent with the label is unlawful, 7 U.S.C. 136j(a)(2)(G)",
		Standing: finding.Read,
	}
	sourceLabel2003 = finding.Source{
		ID:       "clemson-label-2003",
		Citation: "Clemson University extension, drift section of an EPA-accepted insecticide label of 2003: spray only under 10 mph, Medium or coarser, no inversion",
		Standing: finding.Read,
	}
	sourceCottonLabels = finding.Source{
		ID:       "cotton-label-summary",
		Citation: "Extension summary of cotton insecticide labels: wind of about 3 to 10 mph favored, over 15 mph prohibited",
		Standing: finding.Read,
	}
	sourceCalm = finding.Source{
		ID:       "auxin-label-calm",
		Citation: "Federal auxin herbicide label, drift section: under 3 mph the applicator must determine that no inversion or stable air exists; release not over 10 ft above the canopy",
		Standing: finding.Read,
	}
	sourceDeltaT = finding.Source{
		ID:       "bom-delta-t",
		Citation: "Australian Bureau of Meteorology, Delta T guidance for spraying: 2 to 8 C preferred, not above 10 C (read in quotation)",
		Standing: finding.Read,
	}
	sourceInversion = finding.Source{
		ID:       "fritz-2008",
		Citation: "Fritz et al. 2008, CIGR Ejournal: stable air and low-level drift; care in evenings and mornings when wind is under 2 m/s",
		Standing: finding.Read,
	}
	sourceFines = finding.Source{
		ID:       "hoffmann-2012",
		Citation: "Hoffmann et al. 2012, ASTM STP 1558: volume under 141 um the most consistent measure of drift; US extension usage: under 150 um a drift hazard",
		Standing: finding.Read,
	}
	sourceFormulation = finding.Source{
		ID:       "tractcheck-residue",
		Citation: "tractcheck, share of the spray that does not evaporate: choice of this project, low so that drops shrink more",
		Standing: finding.OwnDesign,
	}
)

// Sources reports every source of the room, in the order of the calculation.
func Sources() []finding.Source {
	return []finding.Source{
		sourceDrag, sourceGunnKinzer, sourceEvaporation, sourceFormulation, sourceTurbulence,
		sourceFanOut, sourceMomentum, sourceTrail, sourceBasicDrift, sourceBasicDriftConstants, sourceFieldTrials,
		sourceFines, sourcePattern, sourcePatternTest, sourceDesign, sourceLabel, sourceLabel2003, sourceCottonLabels, sourceCalm,
		sourceDeltaT, sourceInversion,
	}
}

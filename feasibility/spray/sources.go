package spray

import "tractcheck/feasibility/finding"

// The sources of the room. A figure that is only known "from memory" keeps that mark in the
// comment beside it and decides no hard stop alone.
var (
	sourceMesa = finding.Source{
		ID:       "mesa-county-stationary",
		Citation: "Mesa County (Colorado), Stationary calibration method for boom sprayers: GPA = GPM x 495 / (mph x swath ft)",
		Standing: finding.Read,
	}
	sourceCoreManual = finding.Source{
		ID:       "core-manual-ch11",
		Citation: "National Pesticide Applicator Certification Core Manual, chapter 11, as summarized in study notes: doubling flow needs four times the pressure",
		Standing: finding.Read,
	}
	sourceIowa = finding.Source{
		ID:       "iowa-state-844",
		Citation: "Iowa State University, Integrated Crop Management news 844: 25 % more speed needs 56 % more pressure",
		Standing: finding.Read,
	}
	sourceNebraska = finding.Source{
		ID:       "nebraska-cropwatch-2016",
		Citation: "University of Nebraska-Lincoln CropWatch, 2016, Setting the sprayer flow rate for non-water solutions, table 1",
		Standing: finding.Read,
	}
	sourceWater = finding.Source{
		ID:       "water-density-4c",
		Citation: "Tanaka et al. 2001, Metrologia 38:301, density of water: 0.99997 kg/L at 4 C, 8.345 lb/gal (from memory)",
		Standing: finding.FromMemory,
	}
	sourceKansas = finding.Source{
		ID:       "kansas-state-mf3178",
		Citation: "Slocombe and Sharda, Kansas State University MF3178: standard flat fan 30-60 psi, extended-range flat fan 15-60 psi",
		Standing: finding.Read,
	}
	sourceRangeMemory = finding.Source{
		ID:       "nozzle-range-trade-values",
		Citation: "Working pressures usual in nozzle charts: pre-orifice flat fan 30-60, air induction 15-90 and 30-100, hollow cone 40-150 psi (from memory)",
		Standing: finding.FromMemory,
	}
	sourceISO10625 = finding.Source{
		ID:       "iso-10625",
		Citation: "ISO 10625:2018, Equipment for crop protection: sprayer nozzles, color coding for identification (sizes; colors and metric flows from memory)",
		Standing: finding.FromMemory,
	}
	sourceS572 = finding.Source{
		ID:       "asabe-s572",
		Citation: "ASABE S572.1 (2009) and ISO 25358:2018, droplet size classes and reference nozzles (from memory); boundaries in micrometers from the widely reproduced S572.1 table (from memory)",
		Standing: finding.FromMemory,
	}
	sourceVirk = finding.Source{
		ID:       "virk-2021",
		Citation: "Virk et al. 2021, Peanut Science, On-farm evaluation of nozzle types: medium to coarse is 236 to 403 um, very coarse from 404 um",
		Standing: finding.Read,
	}
	sourceModel = finding.Source{
		ID:       "droplet-model",
		Citation: "Default droplet model of this project: Dv0.5 = 236 um [(N/0.30)/(p/3)]^(1/3) by angle, family and surface tension, through the fine/medium and medium/coarse reference nozzles; good to 25 %",
		Standing: finding.OwnDesign,
	}
	sourceSijsBonn = finding.Source{
		ID:       "sijs-bonn-2020",
		Citation: "Sijs and Bonn 2020, Pest Manag. Sci. 76(10):3487-3494, doi 10.1002/ps.5742: flat fan drop size follows the Weber number with the surface tension at 20 ms",
		Standing: finding.Read,
	}
	sourceKooij = finding.Source{
		ID:       "kooij-2018",
		Citation: "Kooij et al. 2018, Phys. Rev. X 8, 031019: D50 = C b We^(-1/3) (rho_air/rho_liquid)^(-1/6) (from memory)",
		Standing: finding.FromMemory,
	}
	sourceCreech = finding.Source{
		ID:       "creech-2015",
		Citation: "Creech et al. 2015, Weed Technol. 29(2), doi 10.1614/WT-D-14-00049.1: nozzle family, size, pressure and active ingredient against Dv0.5, 720 combinations (the percentages of pressure from memory)",
		Standing: finding.Read,
	}
	sourceNebGuide = finding.Source{
		ID:       "nebguide-drift",
		Citation: "University of Nebraska NebGuide on spray drift, Dv0.5 of 0.5 gal/min nozzles: 110 degree fan 380, hollow cone 330, pre-orifice fan 440 um at 40 psi (from memory)",
		Standing: finding.FromMemory,
	}
	sourceRosinRammler = finding.Source{
		ID:       "rosin-rammler-1933",
		Citation: "Rosin and Rammler 1933, J. Inst. Fuel 7:29-36 (from memory); relative span 1.3, the middle of usual values (from memory)",
		Standing: finding.FromMemory,
	}
	sourceFritz = finding.Source{
		ID:       "fritz-2014",
		Citation: "Fritz et al. 2014, Atomization and Sprays 24(2):181-192: three laboratories agree within 5 % on the reference nozzles",
		Standing: finding.Read,
	}
	sourceOhioFines = finding.Source{
		ID:       "ohio-state-816",
		Citation: "Ohio State University Extension Bulletin 816-00, Reducing Spray Drift: volume in drops under 150 um as the share prone to drift",
		Standing: finding.Read,
	}
	sourceStallinga = finding.Source{
		ID:       "stallinga-threshold",
		Citation: "Stallinga et al., single nozzle spray drift measurements of drift reducing nozzles at two forward speeds (Wageningen): the fine/medium threshold nozzle is the yardstick of drift reduction classes",
		Standing: finding.Read,
	}
	sourcePurdue = finding.Source{
		ID:       "purdue-ppp-154-ch6",
		Citation: "Purdue Extension PPP-154, The Evolution of Spray Drones, chapter 6: adjust if the actual rate is more than 5 % off the intended",
		Standing: finding.Read,
	}
	sourceCatch = finding.Source{
		ID:       "drone-calibration-2025",
		Citation: "Extension specialists' articles on drone calibration, 2025, sprayers101.com/calibrate-drone: collect each nozzle for a fixed time; all should agree and their sum match the displayed flow",
		Standing: finding.Read,
	}
	sourcePump = finding.Source{
		ID:       "drone-injection-evaluation",
		Citation: "Evaluation of spray characteristics of pesticide injection system in agricultural drones (summary): many drone pumps have no flow-pressure curve and some miss their stated rating",
		Standing: finding.Read,
	}
	sourcePumpReserve = finding.Source{
		ID:       "pump-reserve",
		Citation: "Planning choice of this project: count on 90 % of the pump's stated flow, because some drone pumps miss their rating",
		Standing: finding.OwnDesign,
	}
	sourceWaltonPrewett = finding.Source{
		ID:       "walton-prewett-1949",
		Citation: "Walton and Prewett 1949, Proc. Phys. Soc. B 62:341: d = 3.8/omega sqrt(T/(D rho)), 15 um to 3 mm",
		Standing: finding.Read,
	}
	sourceFrost = finding.Source{
		ID:       "frost-1981",
		Citation: "Frost 1981, J. agric. Engng Res. 26:63-78, ligament correlation of spinning discs (from memory)",
		Standing: finding.FromMemory,
	}
	sourceSpinningDisc = finding.Source{
		ID:       "spinning-disk-1952",
		Citation: "Characteristics of a spinning-disk liquid sprayer, 1952, Proc. Inst. Mech. Eng. 166(1):443-449, doi 10.1243/pime_proc_1952_166_045_02: size goes as 1/speed; sheets above 110 cm3/s",
		Standing: finding.Read,
	}
	sourceWang = finding.Source{
		ID:       "wang-2023",
		Citation: "Wang et al. 2023, Agriculture 13(3):628, doi 10.3390/agriculture13030628: 90.1 % (rotary) against 40.6 % (120 degree flat fan 01) cumulative drift at 2 m, 3.5 m/s tunnel wind",
		Standing: finding.Read,
	}
	sourceCoverage = finding.Source{
		ID:       "frontiers-agronomy-2024",
		Citation: "Frontiers in Agronomy 2024, doi 10.3389/fagro.2024.1493799: by drone 2 gal/ac covered under 9 %, 5 gal/ac matched ground spraying at 10 gal/ac with all but one nozzle type",
		Standing: finding.Read,
	}
	sourceMission = finding.Source{
		ID:       "mission-facts",
		Citation: "The caller's own figures for the spray system, taken as stated",
		Standing: finding.OwnDesign,
	}
)

// sourceTable is what sources lists, made once; nobody changes it.
var sourceTable = sources()

// sources lists every source of the room, in reading order.
func sources() []finding.Source {
	return []finding.Source{
		sourceMesa, sourceCoreManual, sourceIowa, sourceNebraska, sourceWater,
		sourceKansas, sourceRangeMemory, sourceISO10625,
		sourceS572, sourceVirk, sourceModel, sourceSijsBonn, sourceKooij, sourceCreech, sourceNebGuide,
		sourceRosinRammler, sourceFritz, sourceOhioFines, sourceStallinga,
		sourcePurdue, sourceCatch, sourcePump, sourcePumpReserve,
		sourceWaltonPrewett, sourceFrost, sourceSpinningDisc, sourceWang, sourceCoverage, sourceMission,
	}
}

package crew

import "tractcheck/feasibility/finding"

// The room's sources.
var (
	sourceCapacity = finding.Source{
		ID:       "asae-d497",
		Citation: "ASAE EP496.3 and D497.7 (R2020), Agricultural machinery management; effective capacity = theoretical capacity times field efficiency, worked in Iowa State University Extension, Ag Decision Maker A3-24, table 1",
		Standing: finding.Read,
	}
	sourceCycle = finding.Source{
		ID:       "uav-productivity-model",
		Citation: "Productivity model and experiment of field crop spraying by plant protection unmanned aircraft (abstract): spraying, turning, replenishing and transferring as the parts of the work cycle",
		Standing: finding.Read,
	}
	sourceBatteries = finding.Source{
		ID:       "ozkan-2023",
		Citation: "Ozkan, Ohio State University Extension, May 2023, Limitations of spray drones and obstacles to their adoption: three charged batteries for each machine with fast charging on 240 V",
		Standing: finding.Read,
	}
	sourceHandling = finding.Source{
		ID:       "battery-handling-practice",
		Citation: "Fast chargers fill a spray battery in 9 to 15 minutes with 88 to 94 percent of the wall power; batteries cool before charging; swaps and refills take one to two minutes; 80 percent of the energy is used",
		Standing: finding.FromMemory,
	}
	sourceGenerator = finding.Source{
		ID:       "iso-8528-1-practice",
		Citation: "Portable-generator manuals after ISO 8528-1: run at 80 percent of the rating; take off 3.5 percent for each 1000 ft above 1000 ft and 2 percent for each 10 F above 85 F",
		Standing: finding.CommonPractice,
	}
	sourceWindow = finding.Source{
		ID:       "grdc-2025-10.8",
		Citation: "Grains Research and Development Corporation (Australia) 2025, Spray application manual, module 10.8: inversions from 1 to 2 hours before sunset to about 1 hour after sunrise on most nights",
		Standing: finding.Read,
	}
	sourceFleet = finding.Source{
		ID:       "loading-place-bound",
		Citation: "Bound for equal machines at one loading place: loads per time = least of machines over (flight + loading) and 1 over loading (machine-repair queue)",
		Standing: finding.FromMemory,
	}
	sourceCost = finding.Source{
		ID:       "edwards-a3-29",
		Citation: "Edwards, Iowa State University Extension, Ag Decision Maker A3-29, Estimating farm machinery costs: ownership and operating costs per acre",
		Standing: finding.Read,
	}
	sourcePilots = finding.Source{
		ID:       "cfr-107-35",
		Citation: "14 CFR 107.35, as quoted in study and news texts",
		Standing: finding.Read,
	}
	sourceOwn = finding.Source{
		ID:       "crew-planning-choices",
		Citation: "Choices of this planner, stated where they are used",
		Standing: finding.OwnDesign,
	}
)

// sourcesTable is Sources, built once; it never changes.
var sourcesTable = sources()

// sources lists the room's sources in the order they are reported.
func sources() []finding.Source {
	return []finding.Source{
		sourceCapacity, sourceCycle, sourceBatteries, sourceHandling, sourceGenerator,
		sourceWindow, sourceFleet, sourceCost, sourcePilots, sourceOwn,
	}
}

package tract

import "tractcheck/feasibility/finding"

// The room's sources.
var (
	sourceEllipsoid = finding.Source{
		ID:       "wgs-84",
		Citation: "National Imagery and Mapping Agency 2000, Department of Defense World Geodetic System 1984, TR8350.2, 3rd edition, tables 3.1 and 3.3",
		Standing: finding.FromMemory,
	}
	sourceGeodesics = finding.Source{
		ID:       "karney-2013",
		Citation: "Karney 2013, Algorithms for geodesics, Journal of Geodesy 87:43-55, doi 10.1007/s00190-012-0578-z (check values for polygon areas)",
		Standing: finding.Read,
	}
	sourceTurns = finding.Source{
		ID:       "huang-2001",
		Citation: "Huang 2001, Optimal line-sweep-based decompositions for coverage algorithms, IEEE International Conference on Robotics and Automation, 27-32 (fewest turns along the least altitude)",
		Standing: finding.FromMemory,
	}
	sourceWind = finding.Source{
		ID:       "coombes-2018",
		Citation: "Coombes, Fletcher, Chen and Liu 2018, Optimal polygon decomposition for UAV survey coverage path planning in wind, Sensors 18:2132, doi 10.3390/s18072132",
		Standing: finding.Read,
	}
	sourceCycle = finding.Source{
		ID:       "uav-productivity-model",
		Citation: "Productivity model and experiment of field crop spraying by plant protection unmanned aircraft (abstract): spraying, turning, replenishing and transferring as the parts of the work cycle",
		Standing: finding.Read,
	}
	sourceTurnTime = finding.Source{
		ID:       "turn-time-practice",
		Citation: "Turns of multirotor sprayers take 3 to 8 seconds",
		Standing: finding.FromMemory,
	}
	sourceDownwind = finding.Source{
		ID:       "downwind-first",
		Citation: "Start at the downwind side and work into the wind, so that the aircraft does not fly through its own spray",
		Standing: finding.CommonPractice,
	}
	sourceOwn = finding.Source{
		ID:       "tract-planning-choices",
		Citation: "Choices of this planner, stated where they are used",
		Standing: finding.OwnDesign,
	}
)

// sourcesTable is Sources, built once; it never changes.
var sourcesTable = sources()

// sources lists the room's sources in the order they are reported.
func sources() []finding.Source {
	return []finding.Source{
		sourceEllipsoid, sourceGeodesics, sourceTurns, sourceWind, sourceCycle,
		sourceTurnTime, sourceDownwind, sourceOwn,
	}
}

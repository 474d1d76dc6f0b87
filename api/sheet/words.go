package sheet

import (
	"cmp"
	"strconv"
	"strings"
	"time"

	"tractcheck/api/wire"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/takeoff"
)

// The names of codes on a sheet. A code without a name is written with spaces for underscores.
var (
	partNames = map[string]string{
		"airframe": "airframe, tank empty", "battery": "battery", "other_onboard": "other things on board", "liquid": "liquid in the tank",
	}
	limitNames = map[string]string{
		"small_unmanned_aircraft": "small drone: must stay under", "maker_maximum": "maker's limit",
		"density_altitude": "thin air (estimate)", "tank_capacity": "tank: liquid it holds",
	}
	neighborNames = map[string]string{
		"dwelling": "house", "crop": "neighbor's crop", "apiary": "beehives", "organic": "organic field", "other": "other place",
	}
	boundNames = map[string]string{
		"nozzle_pressure": "the nozzles' pressure range", "pump_pressure": "the pump's pressure", "pump_flow": "the pump's flow",
		"tank": "the tank", "battery": "the battery", "weight": "the takeoff weight", "tank_capacity": "the tank",
		"small_unmanned_aircraft": "the 55 lb line", "maker_maximum": "the maker's limit", "density_altitude": "thin air",
	}
	changeNames = map[string]string{
		"/load/fill": "fill", "/load/application_rate": "rate", "/flight/speed": "speed", "/flight/height": "height above the crop",
		"/spray_system/nozzle/rated_flow": "nozzle size (rated flow)", "/spray_system/nozzle/rated_pressure": "pressure of that rating",
		"/spray_system/rotary/rotation": "disc speed", "/flight/swath": "swath", "/flight/course": "course of the lines",
		"/aircraft/count": "drones", "/weather/at": "time of the job",
		"/operation/over_people":    "people under the flight",
		"/spray_system/nozzle/type": "nozzle type", "/spray_system/nozzle/spectra": "the measured spectra",
		"/spray_system/nozzle/classes": "the measured classes", "/spray_system/nozzle/min_pressure": "the least pressure",
		"/spray_system/nozzle/max_pressure": "the most pressure",
	}
	tags = map[finding.Severity]string{
		finding.Stop: "Stop", finding.Needed: "Needed", finding.Caution: "Take care", finding.Note: "Note",
	}
	statusNames = map[string]string{
		"prohibited": "not allowed", "needed": "get it", "unknown": "find out", "held": "held", "not_needed": "not needed",
	}
)

func named(names map[string]string, code string) string { return cmp.Or(names[code], plain(code)) }

func partName(code string) string     { return named(partNames, code) }
func limitName(code string) string    { return named(limitNames, code) }
func neighborName(code string) string { return named(neighborNames, code) }
func boundName(code string) string    { return named(boundNames, code) }

// changeName names a member of the request that a remedy changes.
func changeName(pointer string) string {
	return cmp.Or(changeNames[pointer], plain(pointer[strings.LastIndexByte(pointer, '/')+1:]))
}

// changeText says one change, from what was sent to what lifts the finding.
func changeText(c wire.Change) string {
	switch from, to := sideText(c.From), sideText(c.To); {
	case c.Remove:
		return "leave out " + changeName(c.Pointer) + ", which belongs to what was there before"
	case c.From == nil:
		return changeName(c.Pointer) + " to " + to
	case from == to:
		return changeName(c.Pointer) + " stays " + to
	default:
		return changeName(c.Pointer) + " from " + from + " to " + to
	}
}

// sideText says one side of a change: a quantity, a word or a whole number.
func sideText(side any) string {
	switch v := side.(type) {
	case *wire.Quantity:
		return say(v)
	case int:
		return strconv.Itoa(v)
	case bool:
		if v {
			return "yes"
		}
		return "no"
	case string:
		if at, err := time.Parse(time.RFC3339, v); err == nil {
			return at.Format("January 2, 15:04")
		}
		return plain(v)
	default:
		return "what was there"
	}
}

// isPaper tells findings of the table of authorizations from the others.
func isPaper(code string) bool { return strings.HasPrefix(code, "permit_") }

// overLine is the finding that the takeoff weight is not under 55 lb.
const overLine = string(takeoff.CodeOverSmallLimit)

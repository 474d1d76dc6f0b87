package takeoff

import "tractcheck/feasibility/units"

// Water is the density taken for a mix whose own density was not stated: water at 4 C,
// 0.99997 kg/L, is 8.345 lb/gal. (Density of water from memory; conversion exact, NIST SP 811
// (2008) B.8.) Most mixes at 2 gal/ac are 98 to 110 percent of it (from memory), so a stated
// density always wins.
const Water = 8.345 * units.PoundPerGallon

const (
	// heavyLiquid is the density above which a tank filled to a volume mark is worth a warning.
	// Own choice: 8 percent over water, below every liquid fertilizer of the CropWatch 2016 table.
	heavyLiquid = 9 * units.PoundPerGallon

	// lightestLiquid and heaviestLiquid bound the densities read without a question. Own choice,
	// around the printed range of 6.6 (kerosene) to 12.0 lb/gal of CropWatch 2016, table 1. A
	// density in kg/L sent as lb/gal falls below it, and would make the aircraft look eight times
	// too light in liquid.
	lightestLiquid = 6 * units.PoundPerGallon
	heaviestLiquid = 15 * units.PoundPerGallon
)

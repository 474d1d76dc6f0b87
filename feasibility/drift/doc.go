// Package drift works out where the spray goes that misses the field: the deposit on the ground
// against the distance downwind, what reaches the neighbors, the share that leaves the field, a
// grade, a buffer, and the hard stops of wind and weather.
//
// # What is computed
//
// The droplet spectrum is cut into 24 classes of volume, finest first. Each class is let go at the
// release height. A share of it is caught by the rotor wake, whose strength follows from weight,
// disc area, air density and speed, and comes down in it until the wake meets the crop or is lost
// in the turbulence; the wake presses part of it into the crop and leaves the rest in a shallow
// layer above. What the wake missed and what it left then settles by drag and gravity while it
// shrinks by evaporation, is carried by the mean wind at each height and mixed by turbulence.
// The balance of settling, mixing and transport is solved on a vertical grid, step by step down the
// wind, so that nothing is lost: what has not landed is still aloft.
//
// From the share of one line's spray that lands within a distance x follows the deposit of the
// field. Lines side by side that cover it evenly sum to landed(x + length) - landed(x), as a share
// of the rate. Percent of rate is by active ingredient: water that evaporates takes nothing away.
//
// Airborne is the share of all spray that crosses the field's downwind edge, whether it lands
// beyond or stays aloft. Buffer uses the high estimate, so that it protects. AtNeighbors counts a
// neighbor as downwind within 45 degrees of the wind's line of travel, and every neighbor when the
// wind is under 3 mph and has no direction to rely on.
//
// What holds: finer drops and a higher release never make less drift, until so much is carried past
// that a third of the rate lands there. Drier air never makes a smaller Airborne; it may make a
// smaller deposit near the field, because drops that shrink land further out. More wind in air of
// the same stability never makes a smaller Airborne or a smaller deposit at 5 m. Further out a
// doubled wind lays down more up to 15 m; beyond, what falls in light wind is mist, which more wind
// thins. Where the wind or the hour takes the air from one stability class to the next, all steps.
//
// # Sources
//
// Drag: Schiller and Naumann 1933 with Clift and Gauvin 1970, held against Gunn and Kinzer 1949 and
// Beard 1976. Evaporation: heat-limited drop at the wet bulb with the ventilation of Beard and
// Pruppacher 1971. Turbulence: Businger et al. 1971, Panofsky and Dutton 1984, Csanady 1963. Wake:
// momentum theory of Glauert 1926, its growth fitted to trailing distances measured over a crop
// (Trans. Chin. Soc. Agric. Mach. 2021). Yardsticks: basic drift values of Rautmann et al. 2001.
//
// # Assumed conditions
//
// Level ground as high as the crop top, the wind steady and straight from the field to the
// neighbor, the neighbor opposite the middle of a long field edge, an even cover of every swath.
// The speed with which drops leave the nozzle is left out, and so is what leaves and hedges catch
// from the air: both err toward more drift. What is not stated is taken on the unfavorable side
// and listed: no rotors means no help from the wake.
//
// # How it is solved and checked
//
// The grid and its steps agree with an independent random walk of single drops under the same laws,
// in the tests, within 15 % of the deposit at 5, 10, 20 and 40 m. The laws are held against
// published drop tables, and the whole against what trials of unmanned aircraft could be read to
// say: off-target share, distance holding 90 %, deposit at 50 m, shift of the swath, order of
// effects, the airblast and aerial curves, and the wind and height factors of ground booms.
//
// # Limits and cautions
//
// A deposit is good to a factor of 3 either way. Multirotor trials could be held against totals,
// distances that hold 90 % and the orchard airblast curve, but not against tables of distance. The
// wake decides most: drops it misses at 10 ft travel many times as far as those it presses down.
// Heights of 0.2 to 50 m, extents to 5 km and buffers to 1 km are computed. Inversions are not:
// a plume under one can travel anywhere, so an inversion seen or presumed makes the grade severe
// whatever the deposit. The product label rules where it says more.
//
// The room before is spray, whose Droplet it reads, and air, whose State it reads.
package drift

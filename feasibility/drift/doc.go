// Package drift works out where the spray goes that misses the field: the deposit on the ground
// against the distance downwind, what reaches the neighbors, the share that leaves the field, a
// grade, a buffer, and the hard stops of wind and weather.
//
// # What is computed
//
// The droplet spectrum is cut into 12 classes of volume, finest first and narrow there. Each class is
// let go at the release height. A share of it is caught by the rotor wake, whose strength follows from weight,
// disc area, air density and speed, and comes down in it until the wake meets the crop or is lost
// in the turbulence; the wake presses part of it into the crop and leaves the rest in a shallow
// layer above. What the wake missed and what it left then settles by drag and gravity while it
// shrinks by evaporation, is carried by the mean wind at each height and mixed by turbulence.
// The balance of settling and mixing is solved on a vertical grid, step by step in time, so that all
// drops of a class have one age and one size, and nothing is lost: what has not landed is still aloft.
// How far the drops at each height have come goes along with them.
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
// thins. Faster flight, up to the speed that sweeps the wake back, lets no less go past the field; a
// deposit near it may fall by some percent, as a slower wake turns over more slowly on the crop. Where the
// wind or the hour takes the air from one stability class to the next, all steps.
//
// # Sources
//
// Drag: Schiller and Naumann 1933 with Clift and Gauvin 1970, held against Gunn and Kinzer 1949 and
// Beard 1976. Evaporation: heat-limited drop at the wet bulb with the ventilation of Beard and
// Pruppacher 1971. Turbulence: Businger et al. 1971, Panofsky and Dutton 1984, Csanady 1963. Wake:
// momentum theory of Glauert 1926, its growth fitted to trailing distances measured over a crop
// (Trans. Chin. Soc. Agric. Mach. 2021), the only constant fitted to a measurement. Yardsticks: basic
// drift values of Rautmann et al. 2001.
//
// # Assumed conditions
//
// Level ground as high as the crop top, the wind steady and straight from the field to the
// neighbor, the neighbor opposite the middle of the field's downwind edge, an even cover of every swath.
// The field counts as a rectangle as long as it reaches on any one line along the wind and as wide as it
// reaches across; what spreads sideways out of reach is taken off by Briggs 1973.
// The speed with which drops leave the nozzle is left out, and so is what leaves and hedges catch
// from the air: both err toward more drift. What is not stated is taken on the unfavorable side
// and listed: no rotors means no help from the wake.
//
// # How it is solved
//
// Each class flies twice, what the wake missed and what it left. What the wake missed is followed as one
// puff, normal in height, until its lower end nears the crop, and on cells from there. 15 cells of height,
// implicit steps of second order in time, and a track of what has landed against the mean distance it
// came. The drivers are flown more coarsely. Against flights of some thirty times the work, 1,199 deposits
// over 300 random conditions are off by 2.5 % root mean square, the worst by 13 %; steps of 0.2 % in drop
// size, wind and height move a deposit by under 5 %, but for one step in ten thousand.
//
// # What was shown
//
// An independent random walk of single drops (its own drag, drying, ages and sizes) over 200 random
// conditions: 1.2 to 10 m up, 1.5 to 9 m/s, Dv0.5 of 90 to 450 um, Delta T 0 to 11 C, stable to
// unstable, three machines and none. Of 798 deposits over 0.05 % of the rate at 5, 10, 20 and 50 m
// 775 agree within 15 % outright and all within 15 % and two standard errors of the walk (3.4 % on the
// mean); the root mean square of the differences is 6 %.
//
// Terminal speed stands within 5 % of Beard 1976 from 20 um to 1 mm and of Gunn and Kinzer 1949 from
// 200 um to 1.8 mm.
//
// The 90th percentile over 300 conditions (1 to 5 m/s, 1.5 to 3 m up, fine to medium, 20 to 50 kg)
// against the 90th percentile of orchard airblast, which multirotor fields are reported to resemble,
// at 5 to 50 m: FAC2 0.86, fractional bias -0.38, NMSE 0.50; from 10 m on 0.80, -0.19, 0.04 (negative:
// the model stands higher). It lies between ground boom and manned aircraft at every distance.
//
// The wake decides most. What is assumed of it, each part moved to its plausible ends, is worth a
// factor of 2.4 at 10 m: the depth of the layer it leaves 2.0, the share of the spray it catches 1.5,
// growth and sweep-back 1.2 each. No wake at all: 6 times the deposit. With what remains against the
// airblast curve that makes the factor of 3 on every deposit.
//
// A wake swept back by flight and wind counts as none, and one half swept back as half. What it then
// does, from pressing some spray down after all to vortices that hold small drops aloft, is not computed:
// the factor widens from 3 to 4.8 as it is swept back, by how far the curve of manned aircraft, whose
// wakes all are, stands from the model flown without one (3.1 times below at 5 m, 1.9 above at 50 m).
// Machines of 12 to 250 kg, with single rotors up to 5 m across, were flown 2 to 10 m up in 2 to 9 m/s.
//
// The trials' figures lie in the span of what comes out over the plausible set-ups: off-target shares,
// distance holding 90 %, deposit at 12 and 50 m, shift of the swath, order of effects, trailing
// distance of the wake. Ground booms: wind doubled x 3.2 (published about 7), height doubled x 2.3
// (about 4.5), distance doubled from 100 ft x 0.20 to 0.65 (0.2): the model falls off more slowly, which
// errs toward more deposit far out.
//
// # Limits and cautions
//
// A deposit is good to a factor of 3 either way, to 4.8 with no wake to count on; distance tables of
// multirotor trials could not be read. At 5 m from the edge the model stands 1.8 times over the airblast
// curve: it takes each swath as spread evenly up to the edge, and the wake then throws some of it over,
// as far down the wind with lines along it as with lines across it. Heights of
// 0.2 to 50 m, extents to 5 km and buffers to 1 km are computed. Inversions are not: a plume under one
// can travel anywhere, so an inversion seen or presumed makes the grade severe whatever the deposit.
// A driver's share is good to about a tenth. The product label rules where it says more.
//
// The room before is spray, whose Droplet it reads, and air, whose State it reads.
package drift

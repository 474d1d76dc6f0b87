// Package tract lays swath lines over the ground and cuts them into sorties.
//
// In goes a Field (a mapped boundary with holes and keep-outs, a rectangle, or an area alone), a
// Job (swath, speed, rate, fill, wind) and the calibrated power model of package flight. Out
// comes a Plan: where the ground went (sprayed, unsprayed, keep-outs), the course and its passes,
// and every sortie with what ended it and where the next one takes up.
//
// How it works, in the order of the files: field (what the ground is), plane (longitude and
// latitude to meters), ground (one polygon model for all three kinds of field), course (fewest
// turns, across the wind, or the caller's), lines (swath lines clipped to the ground), cover (how
// much ground the swaths really touch), path (the lines joined in flying order), craft (what a
// sortie costs in energy), sorties (cutting the path), fly (the whole). Beside them: clear (strips
// left for neighbors downwind), courses and headland (what other ways to lay the lines cost), map and
// trace (the plan, drawn), downwind (the drift zone), later (what wider strips would cost), wrap (maps
// across the 180th meridian). A headland is laid by band and flown after the lines.
//
// Sources: WGS 84 as in NIMA TR8350.2 (2000); check values from Karney 2013; the time parts of
// the work cycle from the published productivity model of field crop spraying by unmanned
// aircraft; wind and course from Coombes et al. 2018; least-turn headings from Huang 2001. The list
// with standings is in sources.go.
//
// Assumed: no hills (distances are level), an even wind, constant ground speed along a line, all
// of the fill sprayable, a line may be cut anywhere, only the liquid that a sortie will spray is
// loaded. Where turns, climb and gaps are flown with the spray off, hover power is taken, which
// is on the safe side of level flight at spraying speeds.
//
// Limits and cautions: lines end where their middle meets the edge of the tract, so the corners
// of a swath at a slanted edge lie a little outside, unless a headland pass lies there; holes and
// keep-outs are cleared by the whole swath. A headland follows the edge to a twentieth of a swath;
// where a strip for a neighbor takes the place of all its passes the lines go up to the strip. A strip
// for a neighbor lies along every side that looks toward its bearing, since its place is not known. The
// plane is good to 1 part in 1,000,000 of area up to about 20 km across. A plan over 20,000 lines is
// worked out from averages and says so. Before this room: takeoff, flight. After it: crew.
package tract

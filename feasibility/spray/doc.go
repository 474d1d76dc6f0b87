// Package spray works out how a spray system holds an application rate, and what drops it makes.
//
// In go the atomizers and the pump (System) and the work asked of them (Job); out come the flow,
// the pressure the controller must hold, the working range and what is really applied outside
// it, the speeds that hold the rate, the droplet spectrum and its size class (Result). The only
// door is Hold. The room stands after air and before drift, which flies the spectrum.
//
// Sources, by the short keys of sources.go: flow and rate by mesa-county-stationary; the square
// law by core-manual-ch11 and iowa-state-844; density by nebraska-cropwatch-2016; working ranges
// by kansas-state-mf3178; droplet size by sijs-bonn-2020, kooij-2018, creech-2015 and virk-2021;
// size classes by asabe-s572; distribution by rosin-rammler-1933; spinning discs by
// walton-prewett-1949 and frost-1981.
//
// Assumed conditions: pressure is gauge pressure at the nozzle, not at the pump; every atomizer
// of a system is the same and gets the same flow; nozzle ratings are for water of 8.345 lb/gal;
// the liquid flows like water (viscosity 1.0 mPa s); flight speed up to about 15 m/s, at which
// the air stream does not break drops further, so the ground scheme of ASABE S572 and ISO 25358
// applies and not the one for airplanes (ASABE S641).
//
// Limits and cautions. A size class is relative: the standards compare a nozzle with reference
// nozzles measured on the same instrument, so any boundary in micrometers is approximate, and
// the class here rests on Dv0.5 alone because no table of Dv0.1 for the reference nozzles could
// be read. The default droplet models are this project's own fit and good to about 25 percent
// (rotary 30 percent); a measured spectrum always goes before them. Figures come out unrounded;
// the door of feasibility rounds them.
package spray

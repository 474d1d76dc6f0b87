// Package feasibility answers one question: can this spray drone do this tract, with this load, at
// this rate and speed, in this weather, legally, and in how many sorties?
//
// Assess is the only door. A Mission goes in, an Answer comes out; the same mission always gives
// the same answer. The package is pure: no input or output, no clock, no network. The computation
// lives in rooms, one folder each, and every room reports its numbers, what it noticed (findings),
// what it had to assume, and the published sources it stands on. This package only lets the
// mission flow through the rooms once, gathers what they say, and draws the verdict:
//
//	Mission -> air, daylight -> takeoff -> spray -> drift
//	                                  \-> flight -> tract -> crew
//	        -> permits -> findings -> answer (yes | yes_if | no)
//
// Where something stops the job that a crew could change, a search turns one knob after another (knob),
// asks the room that decides (lever), and lets what it finds flow through the rooms again (remedies).
//
// Every figure leaves rounded to nine significant digits and every branch uses the tolerance of
// package units, so that processors whose last bits differ give the same answer.
//
// The answer supports a decision; it does not make it. The product label, the local rules and the
// licensed people on the spot come first.
package feasibility

// Package takeoff adds up what an aircraft weighs at takeoff and holds it against every limit on
// that weight: the small-aircraft line, the maker's maximum, an estimate of what thin air leaves
// of that maximum, and the tank. It answers with the largest fill under each limit and says which
// limit binds.
//
// Total weight is the airframe, every battery on board, other equipment and the liquid; the
// liquid is volume times density. The small-aircraft line is strict: 55 lb on takeoff, everything
// on board or attached, is already over it (14 CFR 107.3). Comparisons with a limit use the
// shared tolerance of package units, so a sum that equals 55 lb is at the line however floating
// point falls, whether the parts came in pounds or in kilograms.
//
// Sources: 14 CFR 107.3; Thompson and Taylor 2008, NIST SP 811, appendix B.8 (the pound and the
// gallon, exact); University of Nebraska-Lincoln CropWatch 2016 (densities of spray liquids);
// proportionality of rotor thrust and air density (from memory, an estimate only).
//
// Assumed conditions: one aircraft, standard gravity, the tank otherwise empty and the weights as
// the caller states them. Limits and cautions: the density-altitude limit is an estimate and only
// ever a caution; the maker's own altitude table decides. A label's or a grant's own weight terms
// are not known here. No figure is rounded here.
//
// Package air comes before this room in the pipeline; package flight comes after it.
package takeoff

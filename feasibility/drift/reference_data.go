package drift

import "tractcheck/feasibility/units"

// basicDrifts are regressions of Rautmann, Streloke and Winkler (2001), Mitt. BBA 383:133, used in
// FOCUS (2001), SANCO/4802/2001 Appendix B. The field-crop constants are fixed by published
// outputs; those of fruit crops are from memory and reproduce published outputs; the aerial
// constants are from memory.
var basicDrifts = [...]basicDrift{
	{Curve: GroundBoom, A: 2.7593, B: -0.9778, Source: sourceBasicDrift},
	{Curve: OrchardAirblast, A: 60.396, B: -1.2249, C: 210.70, D: -1.7599, Hinge: 10.3 * units.Meter, Source: sourceBasicDriftConstants},
	{Curve: MannedAerial, A: 50.470, B: -0.3819, C: 281.1, D: -0.9989, Hinge: 16.2 * units.Meter, Source: sourceBasicDriftConstants},
}

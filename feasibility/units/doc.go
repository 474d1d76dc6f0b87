// Package units holds the physical quantities of the house as types.
//
// Every quantity is a named float64 in SI. A unit is a constant of the quantity's type, so a
// caller writes 40 * units.PoundPerSquareInch and reads p.In(units.Bar). No bare number crosses
// a package border. Products across dimensions go through named methods (rate.Over(area),
// flow.During(time)), so that arithmetic reads as physics. Temperatures are affine and have
// constructors instead of unit constants. Unit codes and JSON live in api/wire, not here.
//
// Conversion constants are the exact ones of Thompson and Taylor 2008, Guide for the Use of the
// International System of Units (SI), NIST Special Publication 811, appendix B.8; the foot is the
// international foot (85 FR 62698, 5 October 2020).
package units

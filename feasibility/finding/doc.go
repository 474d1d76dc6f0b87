// Package finding holds what every room of the house reports beside its numbers: findings, the
// published sources they stand on, and the assumptions made where a fact was not stated.
//
// It knows no physics and no law. It depends on units only, so every room may use it.
package finding

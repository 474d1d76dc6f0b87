// Package wire holds the shapes of requests and answers, the strict reading of a request body,
// and the mapping between the wire and the quantities of feasibility.
//
// A body is read in three passes over the same bytes: text (strict JSON, every duplicate name and
// every number outside float64), shape (the schema of the embedded contract), meaning (single
// struct rules, units, and facts that contradict each other). All faults are collected, not the
// first. The command line reads its files through the same passes.
package wire

// Package form is the page an extension agent fills in: the request of an assessment as fields with
// plain labels, from one table.
//
// The table (layout) says where a value goes in the request, what a person calls it and which unit
// stands first; what kind of value it is, what it may be and whether it is needed comes from the
// embedded contract. From the two the package makes the page, the JSON request of what was typed, and
// what would be typed for a given request. It holds no rule about missions of its own: the JSON
// request goes through the same reader as any other, and the faults that the reader finds are shown
// beside the fields they are about.
//
// Blank means absent. Nothing is stored: a page carries what was typed, and the service forgets it.
// So there is nothing that a forged post could change.
package form

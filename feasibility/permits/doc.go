// Package permits holds the authorization rules of a crop-spraying unmanned aircraft mission in
// the United States as a table, and evaluates it on a mission's facts.
//
// In go Facts: weight and regime, purpose, airspace, daylight phase, label, crew, place, and what
// the caller already holds. Out comes a Checklist: one Item a row, in the order an applicant works
// through them, each held, needed, not needed, prohibited or unknown, with the reason, citation,
// way to get it, evidence to carry and official lead time. A row whose fact was not stated answers
// unknown and names the fact; it never answers not needed.
//
// The table is data: Rules returns every row with its citation, date and grade. The rows stand in
// explicit slices, one file a family, in reading order. One evaluator serves all rows; a row only
// brings a condition in three-valued logic (Kleene), so that taking a fact away can turn an answer
// into unknown and never into good news.
//
// Sources: 14 CFR parts 1, 11, 47, 48, 89, 91, 107, 137; 49 USC 44807; 7 USC 136 and 136j; 40 CFR
// parts 170 and 171; 7 CFR 110.3; the EPA general permit of 2026; FAA and EPA pages; and published
// second-hand texts where the primary text was not read (sources.go). Each row carries a grade:
// read, second-hand, or from memory. No row graded from memory can prohibit a mission.
//
// Limits and cautions: the table is dated (AsOf) and nothing published after 2026-10-08 was read;
// it knows no state, county or town rule, no grant's own terms, no notice of the day. It is a
// checklist, not legal advice. Other countries enter with their weight line only and always answer
// unknown.
//
// The daylight and takeoff rooms come before; the answer's verdict is drawn from the findings.
package permits

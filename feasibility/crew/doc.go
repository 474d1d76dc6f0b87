// Package crew turns a tract's sorties into people, batteries, chargers, hours, days and cost.
//
// In goes the Plan of package tract with the crew's facts (people, batteries, chargers, times,
// generator, prices) and the daylight; out come the batteries and chargers with which no aircraft
// waits, how long it waits with what there is, the generator and its fuel, the clock time of the job, acres
// per hour, the days it takes, and the cost per acre by its parts beside the caller's quotes.
//
// Sources: ASAE EP496.3 and D497.7 for field capacity (effective = theoretical times
// efficiency) with worked values of Iowa State University Extension A3-24; the parts of the work
// cycle from the published productivity model of field crop spraying by unmanned aircraft; battery
// practice of Ohio State University Extension 2023; spraying hours by the Australian spray
// application manual 2025; the list with standings is in sources.go.
//
// Assumed: all batteries are charged when the job starts; one loading place serves the aircraft in
// turn; every sortie takes the mean flight time; a battery comes off when a charged one goes on,
// cools, waits for a charger and charges; nobody rests. Travel to the tract, setting up, mixing and weather holds
// are not in the hours.
//
// Limits and cautions: real hours scatter; random times lower the gain from more aircraft at one
// loading place by 10 to 20 percent (from memory). Times taken for missing facts are from memory
// and said so. The rule on pilots and observers belongs to package permits; here it is only said
// whether the hours count on more aircraft than they can fly. This room ends the pipeline
// takeoff, flight, tract, crew.
package crew

package feasibility

import "tractcheck/feasibility/permits"

// topic groups the standing cautions by the part of the job they belong to.
type topic int

const (
	everyTopic topic = iota
	weightTopic
	sprayTopic
	driftTopic
	crewTopic
)

// standing is one caution that every job of its topic carries.
type standing struct {
	topic  topic
	text   string
	source string
}

// standingList holds the usual cautions, in the order they are read out. The source column names
// what each rests on. It never changes.
var standingList = []standing{
	{everyTopic, "This answer helps you decide; it does not decide. The product label, local codes and the licensed people on the spot come first.", "7 USC 136j(a)(2)(G); own design"},
	{weightTopic, "Weigh the aircraft ready to fly, with everything on it, before you trust a weight on paper.", "14 CFR 107.3, 107.49"},
	{sprayTopic, "Check the flow of every nozzle with a catch test before the job. Recheck if one is more than 5 % off.", "Purdue Extension PPP-154, ch. 6"},
	{sprayTopic, "Mix and load by the label. Wear what the label asks for. Keep mixing away from wells and open water.", "7 USC 136j(a)(2)(G); common practice"},
	{driftTopic, "Set the stop rules before the first flight. Stop and land when the wind leaves the range you planned for, dies down or gusts, or when anyone comes near.", "14 CFR 107.49(a), 137.37; common practice"},
	{driftTopic, "Stop if the wind shifts toward people, homes, water, bees or a sensitive crop. Measure the wind at the field, not on a phone.", "common practice"},
	{driftTopic, "Keep everyone but the trained crew at least 100 ft from the spraying aircraft. Nobody stands downwind of one that takes off, lands or sprays.", "40 CFR 170.405(a)(1)"},
	{crewTopic, "Stay clear of the rotors until they have stopped. Start and land with nobody in front, behind or below.", "common practice"},
	{crewTopic, "Carry lithium batteries with covered terminals, held fast, apart from chemicals and out of the sun. If one smokes or burns, keep away and call the fire service.", "common practice"},
	{crewTopic, "Charge lithium batteries on bare ground, away from fuel and chemicals, with somebody near. Do not charge a hot, wet or swollen one.", "common practice"},
}

// mostCautions has room for the standing cautions and those of the rules table.
const mostCautions = 20

// standingCautions lists the cautions of every job and of the given topics.
func standingCautions(topics ...topic) []string {
	texts := make([]string, 0, mostCautions)
	for _, c := range standingList {
		wanted := c.topic == everyTopic
		for _, t := range topics {
			wanted = wanted || c.topic == t
		}
		if wanted {
			texts = append(texts, c.text)
		}
	}
	return texts
}

// cautions lists everything a whole answer must carry.
func cautions(papers permits.Checklist) []string {
	return append(standingCautions(weightTopic, sprayTopic, driftTopic, crewTopic), papers.Cautions...)
}

package form

// wording is how a code of the contract is said to a person.
type wording struct{ code, words string }

// choiceWords are the codes of every closed list of the request.
var choiceWords = []wording{
	{"us", "US units"}, {"si", "SI units"},
	{"radar", "By radar"}, {"laser", "By laser"}, {"none", "Not at all"},
	{"hydraulic", "Hydraulic nozzles"}, {"rotary", "Spinning discs or cages"},
	{"under_rotors", "Under the rotors"}, {"boom", "On a boom"},
	{"flat_fan", "Flat fan"}, {"pre_orifice", "Flat fan with pre-orifice"},
	{"air_induction", "Air induction"}, {"hollow_cone", "Hollow cone"},
	{"extremely_fine", "Extremely fine"}, {"very_fine", "Very fine"}, {"fine", "Fine"}, {"medium", "Medium"},
	{"coarse", "Coarse"}, {"very_coarse", "Very coarse"}, {"extremely_coarse", "Extremely coarse"},
	{"ultra_coarse", "Ultra coarse"},
	{"crop", "Another crop"}, {"dwelling", "A home"}, {"water", "Water"}, {"apiary", "Bees"},
	{"organic", "Organic ground"}, {"road", "A road"}, {"other", "Something else"},
	{"commercial", "For others, or for pay"}, {"private", "On own land or own crop, unpaid"}, {"public", "For a public agency"},
	{"G", "G, uncontrolled"}, {"E-surface", "E, from the surface up"}, {"D", "D"}, {"C", "C"}, {"B", "B"},
	{"unknown", "Not known"},
	{"field", "A field, not at water"}, {"mosquito", "Mosquitoes and other flying insects"},
	{"aquatic_weed", "Weeds or algae at water"}, {"aquatic_animal", "Animals at water"},
	{"forest_canopy", "Forest canopy"},
	{"economic_poison", "A pesticide"}, {"nourishment", "Plant food"}, {"soil_treatment", "Soil treatment"},
	{"seed", "Seed"}, {"pest_control_other", "Something else against pests"}, {"live_insects", "Live insects"},
	{"water_test", "Water, for a test"},
	{"fill", "How much goes into the tank"}, {"speed", "The speed"}, {"height", "The height"}, {"swath", "The swath"},
	{"application_rate", "The rate"}, {"disc_rotation", "The speed of the discs"}, {"nozzle_size", "The size of the nozzles"},
	{"nozzle_type", "The type of the nozzles"}, {"course", "The direction of the lines"},
	{"aircraft_count", "How many machines fly"}, {"hour", "The hour"},
	{"over_people", "Who is under the flight"},
}

// unitWords are the unit codes that are said in another way than they are written.
var unitWords = []wording{
	{"gal", "US gal"}, {"fl_oz", "US fl oz"}, {"um", "\u00b5m"}, {"m2", "m\u00b2"}, {"km/h", "km/h"}, {"kn", "knots"},
	{"degF", "\u00b0F"}, {"degC", "\u00b0C"}, {"deg", "degrees"}, {"in", "inches"}, {"min", "minutes"},
	{"s", "seconds"}, {"h", "hours"}, {"USD", "dollars"}, {"USD/ac", "dollars/ac"}, {"USD/ha", "dollars/ha"},
}

// say finds the words of a code; the code itself where there are none.
func say(words []wording, code string) string {
	for _, w := range words {
		if w.code == code {
			return w.words
		}
	}
	return code
}

// offsetWords are the offsets from UTC of the states, with the clock that shows them, and Greenwich.
var offsetWords = []wording{
	{"-04:00", "4 h behind UTC (Eastern daylight)"},
	{"-05:00", "5 h behind (Central daylight, Eastern standard)"},
	{"-06:00", "6 h behind (Mountain daylight, Central standard)"},
	{"-07:00", "7 h behind (Pacific daylight, Mountain standard)"},
	{"-08:00", "8 h behind (Alaska daylight, Pacific standard)"},
	{"-09:00", "9 h behind (Alaska standard)"},
	{"-10:00", "10 h behind (Hawaii)"},
	{"Z", "UTC"},
	{"+01:00", "1 h ahead of UTC"}, {"+02:00", "2 h ahead"}, {"+03:00", "3 h ahead"},
}

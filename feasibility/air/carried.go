package air

import "tractcheck/feasibility/units"

// Carried reports the relative humidity of air that held a humidity at one temperature and now has
// another, no water vapor having come or gone. Both temperatures are held to -40 to 60 C; the humidity
// comes back between 1 % and the whole. That the vapor stays is fair from one hour to the next and
// worse the longer it is (common practice); the vapor pressure is that of Buck (see saturationPressure).
func Carried(humidity units.Proportion, from, to units.Temperature) units.Proportion {
	coldest, hottest := units.FromCelsius(-40), units.FromCelsius(60)
	from, to = max(coldest, min(hottest, from)), max(coldest, min(hottest, to))
	vapor := vaporPressure(from, humidity)
	carried := units.Proportion(vapor.SI() / saturationPressure(to).SI())
	return max(units.Percent, min(units.Whole, units.Significant(carried, 3)))
}

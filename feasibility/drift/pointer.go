package drift

// JSON pointers of the request's members that this room speaks of.
const (
	atWind      = "/weather/wind_speed"
	atGust      = "/weather/gust"
	atHumidity  = "/weather/relative_humidity"
	atHeight    = "/flight/height"
	atSpeed     = "/flight/speed"
	atCrosswind = "/flight/crosswind"
	atSpray     = "/spray_system"
	atPlacement = "/spray_system/placement"
	atRotors    = "/aircraft/rotors"
	atLoad      = "/load"
	atArea      = "/field/area"
	atNeighbors = "/field/neighbors"
)

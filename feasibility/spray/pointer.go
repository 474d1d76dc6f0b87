package spray

// JSON pointers of the request's members that this room speaks of.
const (
	atSystem      = "/spray_system"
	atCount       = "/spray_system/count"
	atNozzle      = "/spray_system/nozzle"
	atMinPressure = "/spray_system/nozzle/min_pressure"
	atMaxPressure = "/spray_system/nozzle/max_pressure"
	atFanAngle    = "/spray_system/nozzle/fan_angle"
	atSpectra     = "/spray_system/nozzle/spectra"
	atClasses     = "/spray_system/nozzle/classes"
	atDisc        = "/spray_system/rotary"
	atRotation    = "/spray_system/rotary/rotation"
	atDiscSpectra = "/spray_system/rotary/spectra"
	atPump        = "/spray_system/pump"
	atPumpFlow    = "/spray_system/pump/max_flow"
	atPumpPress   = "/spray_system/pump/max_pressure"
	atRate        = "/load/application_rate"
	atDensity     = "/load/density"
	atTension     = "/load/surface_tension"
	atSpeed       = "/flight/speed"
	atSwath       = "/flight/swath"
)

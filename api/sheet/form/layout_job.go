package form

// loadPart is what the tank holds.
func loadPart() part {
	return part{
		id: "load", title: "The load",
		fields: []field{
			{at: "/load/application_rate", label: "Spray volume per area", us: "gal/ac", si: "L/ha"},
			{at: "/load/pesticide", label: "The tank mix holds a pesticide", hint: "A plant regulator, defoliant or desiccant counts too."},
			{at: "/load/fill", label: "What goes into the tank", us: "gal", si: "L", hint: "Left blank, the answer finds the largest fill that is legal and fits."},
			{at: "/load/density", label: "Weight of the tank mix per volume", us: "lb/gal", si: "kg/L", hint: "Water is about 8.34 lb/gal. Left blank, water is taken."},
		},
		parts: []part{
			{
				id: "load-more", title: "More about the tank mix", folded: true,
				fields: []field{
					{at: "/load/specific_gravity", label: "Specific gravity", hint: "Instead of the weight per volume, not beside it. Water is 1."},
					{at: "/load/surface_tension", label: "Surface tension", us: "mN/m", si: "mN/m"},
				},
			},
			labelPart(),
		},
	}
}

// labelPart is what the product label says.
func labelPart() part {
	return part{
		id: "label", title: "What the product label says", folded: true,
		note: "Copy it from the label. What you leave blank counts as not known, never as allowed.",
		fields: []field{
			{at: "/load/product_label/brand", label: "Brand or product name"},
			{at: "/load/product_label/epa_registration_number", label: "EPA registration number"},
			{at: "/load/product_label/product_rate", label: "Product itself per area", us: "gal/ac", si: "L/ha", hint: "Undiluted. 128 fl oz are a gallon."},
			{at: "/load/product_label/aerial_allowed", label: "Use from the air is allowed"},
			{at: "/load/product_label/unmanned_allowed", label: "Use by unmanned aircraft is allowed"},
			{at: "/load/product_label/restricted_use", label: "Restricted use product"},
			{at: "/load/product_label/min_rate", label: "Least spray volume from the air", us: "gal/ac", si: "L/ha"},
			{at: "/load/product_label/min_wind", label: "Least wind", us: "mph", si: "m/s"},
			{at: "/load/product_label/max_wind", label: "Most wind", us: "mph", si: "m/s"},
			{at: "/load/product_label/droplet_class_min", label: "Finest drops allowed"},
			{at: "/load/product_label/droplet_class_max", label: "Coarsest drops allowed"},
			{at: "/load/product_label/max_release_height", label: "Highest release above the crop", us: "ft", si: "m"},
			{at: "/load/product_label/downwind_buffer", label: "Downwind buffer from the air", us: "ft", si: "m"},
			{at: "/load/product_label/boom_share", label: "Widest spray, share of the rotor span", us: "%", si: "%"},
			{at: "/load/product_label/restricted_entry", label: "Time nobody may enter", us: "h", si: "h", hint: "The restricted-entry interval."},
			{at: "/load/product_label/bulletin_required", label: "It sends you to a bulletin for endangered species"},
			{at: "/load/product_label/wps_label", label: "It has the agricultural use box", hint: "The box of the Worker Protection Standard."},
		},
	}
}

// flightPart is how the machine is flown.
func flightPart() part {
	return part{
		id: "flight", title: "How it is flown",
		fields: []field{
			{at: "/flight/speed", label: "Ground speed while spraying", us: "mph", si: "m/s"},
			{at: "/flight/height", label: "Height above the crop", us: "ft", si: "m", hint: "Of the nozzles or discs."},
			{at: "/flight/swath", label: "Swath", us: "ft", si: "m", hint: "The distance from one spray line to the next."},
		},
		parts: []part{{
			id: "flight-more", title: "Lines and turns", folded: true,
			fields: []field{
				{at: "/flight/course", label: "Direction of the lines", us: "deg", si: "deg", hint: "Clockwise from true north. Left blank, the one with fewest turns is taken."},
				{at: "/flight/crosswind", label: "Fly the lines across the wind"},
				{at: "/flight/turn_time", label: "Time for one turn", us: "s", si: "s"},
				{at: "/flight/headland_passes", label: "Passes round the edge", hint: "Flown after the lines. None where left blank."},
			},
		}},
	}
}

// fieldPart is the ground and its neighbors.
func fieldPart() part {
	return part{
		id: "field", title: "The field",
		note: "Give its size in one way: the area, the length and width, or a map.",
		fields: []field{
			{at: "/field/area", label: "Area to spray", us: "ac", si: "ha", hint: "Without the places left out."},
			{at: "/field/length", label: "Length, of a rectangle", us: "ft", si: "m"},
			{at: "/field/width", label: "Width, of a rectangle", us: "ft", si: "m"},
		},
		parts: []part{
			{
				id: "map", title: "A map of the field", folded: true,
				note: "GeoJSON as farm maps and map editors export it: polygons in WGS 84, longitude first. Paste it or choose a file; a file goes before what is pasted.",
				fields: []field{
					{at: "/field/boundary", label: "Outline of the field"},
					{at: "/field/keep_outs", label: "Places inside it to leave out"},
					{at: "/field/launch_point", label: "Where the machine takes off and lands"},
				},
			},
			{
				id: "neighbors", title: "Neighbors that must not be sprayed", list: "/field/neighbors",
				none: "There is no such neighbor near the field",
				note: "Other crops, homes, water, bees, organic ground, roads.",
				fields: []field{
					{at: "/kind", label: "What it is"},
					{at: "/distance", label: "Distance from the field's edge", us: "ft", si: "m"},
					{at: "/bearing", label: "Direction from the field", us: "deg", si: "deg", hint: "Clockwise from true north: east is 90."},
					{at: "/tolerance", label: "Most deposit it bears", us: "%", si: "%", hint: "Share of the applied rate. Left blank where not known."},
				},
			},
			{
				id: "field-more", title: "More about the field", folded: true,
				fields: []field{
					{at: "/field/crop", label: "Crop or site"},
					{at: "/field/crop_height", label: "Height of the crop", us: "ft", si: "m"},
					{at: "/field/elevation", label: "Elevation above sea level", us: "ft", si: "m"},
					{at: "/field/ferry_distance", label: "Distance from takeoff to the field", us: "ft", si: "m", hint: "Where there is no map with the takeoff point."},
				},
			},
		},
	}
}

// weatherPart is the weather at the job.
func weatherPart() part {
	return part{
		id: "weather", title: "The weather at the job",
		fields: []field{
			{at: "/weather/at", label: "When"},
			{at: "/weather/latitude", label: "Latitude", us: "deg", si: "deg", hint: "North is positive."},
			{at: "/weather/longitude", label: "Longitude", us: "deg", si: "deg", hint: "East is positive; all of the 48 states is negative."},
			{at: "/weather/wind_speed", label: "Mean wind", us: "mph", si: "m/s"},
			{at: "/weather/wind_from", label: "Wind comes from", us: "deg", si: "deg", hint: "Clockwise from true north: a south wind is 180."},
			{at: "/weather/gust", label: "Strongest gust", us: "mph", si: "m/s"},
			{at: "/weather/temperature", label: "Air temperature", us: "degF", si: "degC"},
			{at: "/weather/relative_humidity", label: "Relative humidity", us: "%", si: "%"},
			{at: "/weather/inversion_observed", label: "Smoke or dust hangs and drifts sideways", hint: "The sign of an inversion. No: it was seen to rise and mix."},
		},
		parts: []part{{
			id: "weather-more", title: "Sky, visibility and measured layers", folded: true,
			fields: []field{
				{at: "/weather/wind_height", label: "Height of the wind meter", us: "ft", si: "m"},
				{at: "/weather/cloud_cover", label: "Share of the sky under cloud", us: "%", si: "%"},
				{at: "/weather/visibility", label: "Visibility", us: "mi", si: "km"},
				{at: "/weather/cloud_below", label: "Clearance below the cloud", us: "ft", si: "m"},
				{at: "/weather/cloud_side", label: "Clearance beside the cloud", us: "ft", si: "m"},
				{at: "/weather/pressure", label: "Air pressure at the field", us: "psi", si: "kPa", hint: "Not reduced to sea level."},
				{at: "/weather/lapse/lower_temperature", label: "Temperature at the lower thermometer", us: "degF", si: "degC"},
				{at: "/weather/lapse/lower_height", label: "Height of the lower thermometer", us: "ft", si: "m"},
				{at: "/weather/lapse/upper_temperature", label: "Temperature at the upper thermometer", us: "degF", si: "degC"},
				{at: "/weather/lapse/upper_height", label: "Height of the upper thermometer", us: "ft", si: "m"},
			},
		}},
	}
}

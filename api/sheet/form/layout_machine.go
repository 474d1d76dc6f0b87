package form

// aircraftPart is the machine. Weights are asked for apart, because their sum is what the law and
// the maker limit.
func aircraftPart() part {
	return part{
		id: "aircraft", title: "The aircraft",
		note: "Figures from the maker's papers, or better, from your own scale.",
		fields: []field{
			{at: "/aircraft/label", label: "Name of the machine"},
			{at: "/aircraft/empty_weight", label: "Empty weight", us: "lb", si: "kg", hint: "Tank empty, no battery."},
			{at: "/aircraft/battery/weight", label: "Weight of one battery", us: "lb", si: "kg"},
			{at: "/aircraft/battery/energy", label: "Energy of one battery", us: "Wh", si: "Wh", hint: "As printed on it. Volts times amp-hours."},
			{at: "/aircraft/tank_capacity", label: "Tank size", us: "gal", si: "L"},
			{at: "/aircraft/max_takeoff_weight", label: "Maker's highest takeoff weight", us: "lb", si: "kg"},
		},
		parts: []part{
			{
				id: "aircraft-more", title: "More about the aircraft", folded: true,
				note: "What is left blank is taken on the safe side, and the answer says so.",
				fields: []field{
					{at: "/aircraft/count", label: "Machines flown at once", hint: "1 where left blank."},
					{at: "/aircraft/battery/on_board", label: "Batteries on board at once", hint: "1 where left blank."},
					{at: "/aircraft/battery/usable", label: "Share of a battery you may use", us: "%", si: "%", hint: "The rest is the reserve."},
					{at: "/aircraft/other_onboard_weight", label: "Weight of anything else on board", us: "lb", si: "kg", hint: "Lights, boards, remote identification."},
					{at: "/aircraft/drag_area", label: "Drag area", us: "m2", si: "m2", hint: "Drag coefficient times frontal area."},
				},
			},
			{
				id: "rotors", title: "Rotors and hover times", folded: true,
				note: "They make the battery and drift figures surer.",
				fields: []field{
					{at: "/aircraft/rotors/count", label: "Number of rotors", hint: "All of them, both of every pair."},
					{at: "/aircraft/rotors/diameter", label: "Diameter of one rotor", us: "in", si: "m"},
					{at: "/aircraft/rotors/coaxial", label: "Rotors in pairs on one axis"},
					{at: "/aircraft/hover_endurance/empty", label: "Measured hover time, tank empty", us: "min", si: "min"},
					{at: "/aircraft/hover_endurance/full", label: "Measured hover time, highest weight", us: "min", si: "min"},
				},
			},
			{
				id: "sensing", title: "What it can sense", folded: true,
				fields: []field{
					{at: "/aircraft/sensing/obstacle", label: "Senses obstacles and stops"},
					{at: "/aircraft/sensing/height", label: "How it senses its height"},
					{at: "/aircraft/sensing/tank_level", label: "Senses the level in the tank"},
					{at: "/aircraft/sensing/resume", label: "Goes on where a flight ended"},
					{at: "/aircraft/sensing/camera", label: "Camera for the pilot"},
				},
			},
		},
	}
}

// sprayPart is the atomizers and the pump.
func sprayPart() part {
	return part{
		id: "spray", title: "The spray system",
		fields: []field{
			{at: "/spray_system/atomizer", label: "What makes the drops"},
			{at: "/spray_system/count", label: "Nozzles or discs working"},
		},
		parts: []part{
			nozzlePart(), rotaryPart(),
			{
				id: "spray-more", title: "Pump and placement", folded: true,
				fields: []field{
					{at: "/spray_system/pump/max_flow", label: "Highest flow of the pump", us: "gal/min", si: "L/min", hint: "All nozzles or discs together."},
					{at: "/spray_system/pump/max_pressure", label: "Highest pressure of the pump", us: "psi", si: "bar"},
					{at: "/spray_system/placement", label: "Where the nozzles or discs sit"},
					{at: "/spray_system/spacing", label: "Distance between neighboring ones", us: "in", si: "cm"},
				},
			},
		},
	}
}

// nozzlePart is hydraulic nozzles.
func nozzlePart() part {
	hydraulic := only{"/spray_system/atomizer", "hydraulic"}
	return part{
		id: "nozzle", title: "Hydraulic nozzle", only: hydraulic,
		note: "Fill this in for hydraulic nozzles. It is not sent with spinning discs.",
		fields: []field{
			{at: "/spray_system/nozzle/type", label: "Kind of nozzle"},
			{at: "/spray_system/nozzle/rated_flow", label: "Rated flow of one nozzle", us: "gal/min", si: "L/min", hint: "With water, at the rated pressure."},
			{at: "/spray_system/nozzle/rated_pressure", label: "Rated pressure", us: "psi", si: "bar", hint: "Mostly 40 psi, 2.76 bar."},
		},
		parts: []part{
			{
				id: "nozzle-more", title: "Working range of the nozzle", folded: true, only: hydraulic,
				fields: []field{
					{at: "/spray_system/nozzle/min_pressure", label: "Lowest working pressure", us: "psi", si: "bar"},
					{at: "/spray_system/nozzle/max_pressure", label: "Highest working pressure", us: "psi", si: "bar"},
					{at: "/spray_system/nozzle/fan_angle", label: "Angle of the spray fan", us: "deg", si: "deg"},
				},
			},
			{
				id: "nozzle-classes", title: "Droplet classes from the nozzle's chart", folded: true, only: hydraulic,
				list: "/spray_system/nozzle/classes",
				note: "One row for each change of class, lowest pressure first.",
				fields: []field{
					{at: "/from_pressure", label: "From this pressure on", us: "psi", si: "bar"},
					{at: "/class", label: "Droplet class"},
				},
			},
			{
				id: "nozzle-spectra", title: "Measured droplet sizes of the nozzle", folded: true, only: hydraulic,
				list: "/spray_system/nozzle/spectra", note: "Lowest pressure first.",
				fields: append([]field{{at: "/pressure", label: "Pressure", us: "psi", si: "bar"}}, sizes()...),
			},
		},
	}
}

// rotaryPart is spinning discs and cages.
func rotaryPart() part {
	rotary := only{"/spray_system/atomizer", "rotary"}
	return part{
		id: "rotary", title: "Spinning disc or cage", folded: true, only: rotary,
		note: "Fill this in for spinning discs or cages. It is not sent with hydraulic nozzles.",
		fields: []field{
			{at: "/spray_system/rotary/disc_diameter", label: "Diameter of the disc", us: "in", si: "cm"},
			{at: "/spray_system/rotary/rotation", label: "Disc speed on this job", us: "rpm", si: "rpm"},
			{at: "/spray_system/rotary/min_rotation", label: "Lowest disc speed", us: "rpm", si: "rpm"},
			{at: "/spray_system/rotary/max_rotation", label: "Highest disc speed", us: "rpm", si: "rpm"},
		},
		parts: []part{{
			id: "rotary-spectra", title: "Measured droplet sizes of the disc", folded: true, only: rotary,
			list: "/spray_system/rotary/spectra", note: "Lowest disc speed first.",
			fields: append([]field{{at: "/rotation", label: "Disc speed", us: "rpm", si: "rpm"}}, sizes()...),
		}},
	}
}

// sizes is the three diameters of a measured spectrum.
func sizes() []field {
	return []field{
		{at: "/dv01", label: "DV0.1", us: "um", si: "um", hint: "A tenth of the volume is in smaller drops."},
		{at: "/dv05", label: "DV0.5 (volume median)", us: "um", si: "um"},
		{at: "/dv09", label: "DV0.9", us: "um", si: "um", hint: "Nine tenths of the volume are in smaller drops."},
	}
}

package form

// operationPart is who flies, where and under what authority.
func operationPart() part {
	return part{
		id: "operation", title: "Who flies, and where",
		fields: []field{
			{at: "/operation/country", label: "Country", hint: "Two letters. The rules of US are in the table; for any other country nothing is cleared."},
			{at: "/operation/state", label: "State", hint: "Two letters, such as TX."},
			{at: "/operation/purpose", label: "Why it is flown"},
			{at: "/operation/airspace", label: "Airspace over the field"},
			{at: "/operation/line_of_sight", label: "The aircraft stays in sight of the pilot or an observer"},
			{at: "/operation/over_people", label: "It flies over people who do not take part"},
			{at: "/operation/congested_area", label: "The field lies in a congested area", hint: "A town, a settlement, a gathering of people."},
		},
		parts: []part{
			{
				id: "holds", title: "Papers you hold",
				note: "Tick what is held and valid. What is not ticked counts as not held.",
				fields: []field{
					{at: "/operation/holds", label: "Held"},
				},
			},
			{
				id: "expiries", title: "When papers run out", folded: true, list: "/operation/expiries",
				fields: []field{
					{at: "/id", label: "Id of the paper", hint: "As written beside it above, such as remote-pilot-certificate."},
					{at: "/date", label: "Last valid day"},
				},
			},
			workPart(), placePart(), grantPart(), keeperPart(),
		},
	}
}

// workPart is the facts about the work that rules ask for.
func workPart() part {
	return part{
		id: "work", title: "More about the work", folded: true,
		fields: []field{
			{at: "/operation/dispenses", label: "What leaves the tank"},
			{at: "/operation/hazmat", label: "The tank mix is a hazardous material", hint: "Under 49 CFR 171.8."},
			{at: "/operation/own_interest", label: "You own or lease the land, or have a share in the crop"},
			{at: "/operation/paid", label: "The job is flown for pay"},
			{at: "/operation/remote_pilots", label: "Remote pilots at once"},
			{at: "/operation/visual_observers", label: "Visual observers"},
			{at: "/operation/over_water", label: "It sprays over or at water", hint: "Or for a use that water law counts so: mosquitoes, weeds or animals at water, forest canopy."},
			{at: "/operation/use_pattern", label: "Use, as water law asks"},
			{at: "/operation/employees_near", label: "Workers or other people are near the field"},
			{at: "/operation/nearest_person", label: "Distance to the nearest person not taking part", us: "ft", si: "m"},
		},
	}
}

// placePart is the facts about the place and the way of flying.
func placePart() part {
	return part{
		id: "place", title: "More about the place and the flight", folded: true,
		fields: []field{
			{at: "/operation/near_airport", label: "An airport, heliport or seaplane base is close"},
			{at: "/operation/prohibited_area", label: "The field lies in a prohibited or restricted area"},
			{at: "/operation/flight_restriction", label: "A flight restriction or notice covers the place and time"},
			{at: "/operation/moving_vehicles", label: "It flies over moving vehicles"},
			{at: "/operation/from_vehicle", label: "It is flown from a moving vehicle"},
			{at: "/operation/sparsely_populated", label: "The area is sparsely populated"},
			{at: "/operation/alaska", label: "The job is in Alaska"},
			{at: "/operation/lights_3sm", label: "Anti-collision lights visible for 3 statute miles"},
			{at: "/operation/night_trained", label: "The pilot was trained for night flight after April 6, 2021"},
			{at: "/operation/foreign_registered", label: "The aircraft is registered outside the United States"},
		},
	}
}

// grantPart is what an exemption or its list says.
func grantPart() part {
	return part{
		id: "grant", title: "What your exemption says", folded: true,
		fields: []field{
			{at: "/operation/on_approved_list", label: "The aircraft is on the exemption's list"},
			{at: "/operation/approved_weight", label: "Takeoff weight approved on that list", us: "lb", si: "kg"},
			{at: "/operation/grant_height", label: "Ceiling above ground in the grant", us: "ft", si: "m"},
			{at: "/operation/grant_people_distance", label: "Distance from people in the grant", us: "ft", si: "m"},
		},
	}
}

// keeperPart is the facts about the operator, the workers and the state.
func keeperPart() part {
	return part{
		id: "keeper", title: "More about the operator, workers and state", folded: true,
		fields: []field{
			{at: "/operation/applicator/name", label: "Certified applicator", hint: "For the application record."},
			{at: "/operation/applicator/certificate_number", label: "Number of the applicator's certificate"},
			{at: "/operation/wps_site", label: "The field belongs to a farm with hired workers or handlers"},
			{at: "/operation/hired_handlers", label: "Hired people mix, load or apply"},
			{at: "/operation/hired_workers", label: "Hired people work on the farm"},
			{at: "/operation/certificate_change", label: "The operator certificate is about to change"},
			{at: "/operation/base_moves", label: "The home base is about to move"},
			{at: "/operation/state_confirms_unmanned", label: "The state reads an aerial label as covering drones"},
			{at: "/operation/state_asks_aerial_category", label: "The state asks for an aerial category here"},
		},
	}
}

// crewPart is the people, the ground equipment and the prices.
func crewPart() part {
	return part{
		id: "crew", title: "Crew and batteries",
		fields: []field{
			{at: "/crew/people", label: "People on the job"},
			{at: "/crew/batteries", label: "Battery sets", hint: "All machines together."},
			{at: "/crew/chargers", label: "Chargers"},
		},
		parts: []part{
			{
				id: "crew-more", title: "Times and power", folded: true,
				fields: []field{
					{at: "/crew/charge_time", label: "Time to charge one set", us: "min", si: "min"},
					{at: "/crew/battery_swap_time", label: "Time to swap one set", us: "s", si: "s"},
					{at: "/crew/refill_time", label: "Time to refill the tank", us: "s", si: "s"},
					{at: "/crew/generator", label: "Power of the generator", us: "kW", si: "kW"},
					{at: "/crew/work_hours", label: "Working hours in a day", us: "h", si: "h"},
				},
			},
			costsPart(),
		},
	}
}

// costsPart is the caller's prices.
func costsPart() part {
	return part{
		id: "costs", title: "Prices, for the cost per area", folded: true,
		note: "A part without a price is left out of the sum, and the answer says so.",
		fields: []field{
			{at: "/crew/costs/machine_price", label: "Price of one machine", us: "USD", si: "USD", hint: "With its ground equipment, without batteries."},
			{at: "/crew/costs/salvage_value", label: "What it is worth at the end", us: "USD", si: "USD"},
			{at: "/crew/costs/machine_life_area", label: "Area sprayed over its life", us: "ac", si: "ha"},
			{at: "/crew/costs/machine_years", label: "Years it serves"},
			{at: "/crew/costs/interest_rate", label: "Interest a year", us: "%", si: "%"},
			{at: "/crew/costs/battery_price", label: "Price of one battery", us: "USD", si: "USD"},
			{at: "/crew/costs/battery_cycles", label: "Charges in a battery's life"},
			{at: "/crew/costs/labor_per_person_hour", label: "One person for one hour", us: "USD", si: "USD"},
			{at: "/crew/costs/energy_per_kilowatt_hour", label: "One kilowatt hour of charging", us: "USD", si: "USD"},
			{at: "/crew/costs/fuel_per_gallon", label: "One gallon of generator fuel", us: "USD", si: "USD", hint: "Where the price of a kilowatt hour is not known."},
			{at: "/crew/costs/travel_per_job", label: "Getting there and back", us: "USD", si: "USD"},
			{at: "/crew/costs/ground_quote", label: "Quote for a ground machine", us: "USD/ac", si: "USD/ha"},
			{at: "/crew/costs/manned_aircraft_quote", label: "Quote for a manned aircraft", us: "USD/ac", si: "USD/ha"},
		},
	}
}

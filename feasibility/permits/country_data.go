package permits

import "tractcheck/feasibility/units"

// WeightLines is how countries draw their weight line. They differ in the threshold and in whether
// the threshold itself is inside, so one shared constant would be wrong at the edge.
func WeightLines() []WeightLine {
	heavy, usLine := 25*units.Kilogram, weightLine
	return []WeightLine{
		{Country: "US", Place: "the United States", Threshold: &usLine, Grade: GradeRead, Source: "14-cfr-107-3",
			Citation: "14 CFR 107.3", Note: "under 55 lb is small"},
		{Country: "EU", Place: "the European Union", Threshold: &heavy, Grade: GradeSecondHand, Source: "eu-2019-947",
			Citation: "Regulation (EU) 2019/947 Art. 4, UAS.OPEN.040",
			Note:     "nothing may be dropped or sprayed in the open category, so spraying is specific at any weight; Directive 2009/128/EC Art. 9 bars aerial spraying save by derogation (from memory)"},
		{Country: "GB", Place: "the United Kingdom", Threshold: &heavy, Grade: GradeMemory, Source: "uk-2019-947",
			Citation: "UK Regulation (EU) 2019/947 as retained", Note: "retained text"},
		{Country: "CA", Place: "Canada", Threshold: &heavy, Inclusive: true, Grade: GradeSecondHand, Source: "ca-sor-2025-70",
			Citation: "SOR/2025-70, Canada Gazette II 159(7)",
			Note:     "medium is over 25 to 150 kg; over 150 kg needs a special certificate; labels must name remotely piloted aircraft"},
		{Country: "AU", Place: "Australia", Threshold: &heavy, Inclusive: true, Grade: GradeMemory, Source: "au-casr-101",
			Citation: "CASR 101.237; chemical-use rules of the states",
			Note:     "a landholder may spray own land up to 25 kg without a license, 25 to 150 kg with a remote pilot license; the states license the chemical side"},
		{Country: "BR", Place: "Brazil", Threshold: &heavy, Inclusive: true, Grade: GradeSecondHand, Source: "br-rbac-e-94",
			Citation: "RBAC-E 94; Portaria MAPA 298/2021",
			Note:     "class 3 to 25 kg, class 2 over 25 to 150 kg, class 1 over 150 kg; operators register and train; check whether it has been replaced"},
		{Country: "IN", Place: "India", Threshold: &heavy, Inclusive: true, Grade: GradeSecondHand, Source: "in-drone-rules-2021",
			Citation: "Drone Rules 2021", Note: "small is over 2 to 25 kg, medium over 25 to 150 kg"},
		{Country: "JP", Place: "Japan", Threshold: &heavy, Grade: GradeMemory, Source: "jp-aeronautics-act",
			Citation: "Civil Aeronautics Act Art. 2(22), 132-86",
			Note:     "rules begin at 100 g; extra standards at 25 kg and over; spraying counts as dropping things and needs permission"},
		{Country: "CN", Place: "China", Grade: GradeMemory, Source: "cn-interim-2023",
			Citation: "Interim Regulation of 2023, in force 2024-01-01",
			Note:     "the agricultural class has its own line, with height and speed capped"},
	}
}

// unionMembers is the member states of the European Union. Treaty on European Union, Art. 52, with
// later accessions and the withdrawal of 2020 (from memory).
func unionMembers() []string {
	return []string{
		"AT", "BE", "BG", "CY", "CZ", "DE", "DK", "EE", "ES", "FI", "FR", "GR", "HR", "HU",
		"IE", "IT", "LT", "LU", "LV", "MT", "NL", "PL", "PT", "RO", "SE", "SI", "SK",
	}
}

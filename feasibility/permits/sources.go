package permits

import (
	"slices"

	"tractcheck/feasibility/finding"
)

// sources is the published sources of the table, in the order in which answers list them.
func sources() []finding.Source { return slices.Concat(lawSources(), secondSources(), otherSources()) }

// lawSources is rules, statutes and agency pages that were read.
func lawSources() []finding.Source {
	read := func(id, citation string) finding.Source {
		return finding.Source{ID: id, Citation: citation, Standing: finding.Read}
	}
	return []finding.Source{
		read("14-cfr-107-3", "14 CFR 1.1 and 107.3; the 55 pound line as stated on the FAA's Section 44807 page"),
		read("cfr-107-36-205", "14 CFR 107.36 and 107.205, text of 2018, with the FAA's preamble"),
		read("cfr-107-200", "14 CFR 107.200, eCFR of 2026-04-05 and 2026-06-20; list of 107.205 as given in an explainer of 2026-06-22"),
		read("14-cfr-107.29", "14 CFR 107.29 as amended 2021 and AC 107-2 on night and twilight, as quoted in published texts"),
		read("cfr-107-31", "14 CFR 107.31 and 107.33, eCFR of 2026-06-20"),
		read("cfr-107-35", "14 CFR 107.35, as quoted in study and news texts"),
		read("cfr-107-39", "14 CFR 107.39 (86 FR 4382), eCFR of 2026-04-05"),
		read("cfr-107-51", "14 CFR 107.51, as taught in several published courses that all agree"),
		read("cfr-107-9", "14 CFR 107.9 (87 FR 75846, 2022), CFR edition of 2024"),
		read("cfr-107-137-2026", "14 CFR 107.65, 137.3, 137.17, 137.21, 137.35, 137.43, 137.45, 137.49, 137.53(c), 137.55 to 137.59, 137.71: eCFR of 2026-04-05"),
		read("cfr-107-137-2024", "14 CFR 107.12, 137.29, 137.31, 137.33, 137.42: CFR edition of 2024"),
		read("cfr-137-39", "14 CFR 137.39, copy of the Federal Aviation Regulations"),
		read("cfr-137-51", "14 CFR 137.51, copy of the Federal Aviation Regulations"),
		read("cfr-11", "14 CFR 11.63 and 11.81; FAA petition page repeating the 120 days"),
		read("usc-44807", "49 USC 44807 and notes, as amended by Pub. L. 118-63 sec. 927 (2024)"),
		read("cfr-48", "14 CFR 48.1 and 48.15, editions of 2021 and 2024"),
		read("cfr-89", "14 CFR 89.105, 89.110, 89.305; explainer of 2026-06-22"),
		read("cfr-40-171", "40 CFR 171.1, 171.3, 171.103"),
		read("cfr-40-170-405", "40 CFR 170.405(a), current text"),
		read("fr-89-80767", "EPA, Application exclusion zone final rule, 89 FR 80767 (2024-10-04)"),
		read("cfr-7-110-3", "7 CFR 110.3, edition of 2006; times as given by a state department of agriculture and a state university"),
		read("epa-bulletins", "EPA, Endangered species protection bulletins; Ohio State University Extension ANR-0222; Penn State Extension on bulletins and buffers"),
		read("epa-pgp-2026", "EPA, 2026 Pesticide General Permit, 89 FR 102134 (2024-12-17)"),
		read("faa-137-uas", "FAA, Dispensing chemicals and agricultural products (part 137) with unmanned aircraft, page dated 2026-05-05"),
		read("faa-44807", "FAA, Section 44807 special authority for certain unmanned aircraft systems"),
		read("faa-dangerous-goods", "FAA, Unmanned aircraft and dangerous goods; Aeronautical Information Manual 11-4-6"),
		read("faa-137-eligibility", "FAA, Part 137 operator eligibility page"),
		read("faa-airspace", "FAA, Part 107 airspace authorizations; FAA Order JO 7210.3 chapter 19 section 6"),
	}
}

// secondSources is published texts that quote or summarize a rule; read as such.
func secondSources() []finding.Source {
	read := func(id, citation string) finding.Source {
		return finding.Source{ID: id, Citation: citation, Standing: finding.Read}
	}
	return []finding.Source{
		read("ac-107-2a", "FAA AC 107-2A on waivers, as reproduced in a training text"),
		read("research-note-2026", "Public research note of 2026-08-30 quoting the FAA dispensing page, 14 CFR 137.3, 137.11, 137.37, 137.39 and 7 USC 136j"),
		read("sample-grants", "Sample conditions of part 137 grants at 55 lb and over, published by a law office (Rupprecht)"),
		read("petition-2024", "Petition for a grant at 55 lb and over, in public circulation, 2024-06-28"),
		read("naaa-uas", "National Agricultural Aviation Association, updates on unmanned operations exemptions, with the FAA's quoted reasons"),
		read("naaa-2023", "National Agricultural Aviation Association, newsletter of 2023-06-01"),
		read("naaa-2020", "National Agricultural Aviation Association, newsletter of 2020-01-23"),
		read("ksu-agronomy", "Kansas State University, Agronomy eUpdate on unmanned aircraft registration and recurrency"),
		read("part-47-summaries", "Legal and training summaries of part 47 registration; University of Massachusetts cranberry fact sheet"),
		read("laanc-terms", "LAANC terms as summarized in a flight-training article"),
		read("wac-16-228", "Washington Administrative Code 16-228-1225, repeating 7 USC 136(ee)"),
		read("purdue-ppp-154", "Purdue Extension PPP-154, chapter 10"),
		read("epa-aerial-position", "Trade-press report of the EPA's stated position on aerial labels and unmanned aircraft"),
		read("umn-2025", "University of Minnesota Extension, Getting started with unmanned aircraft for pesticide application (2025)"),
		read("cfr-40-171-303", "40 CFR 171.303(b)(7), as summarized in a published text"),
		read("npdes-patterns", "State summaries of the four use patterns of the general permit (Iowa DNR; Alabama)"),
		read("eu-2019-947", "Regulation (EU) 2019/947; EASA answer 116513; Irish Aviation Authority questions and answers"),
		read("ca-sor-2025-70", "SOR/2025-70, Ontario application-technology summary and a legal summary of April 2025"),
		read("br-rbac-e-94", "Published Brazilian summaries of RBAC-E 94 classes and Portaria 298/2021"),
		read("in-drone-rules-2021", "News summaries of the Drone Rules 2021"),
	}
}

// otherSources is what was not read again, trade practice, and choices of this project.
func otherSources() []finding.Source {
	memory := func(id, citation string) finding.Source {
		return finding.Source{ID: id, Citation: citation, Standing: finding.FromMemory}
	}
	return []finding.Source{
		memory("cfr-14-memory", "14 CFR parts 91, 99, 107 and 137: sections recalled, not read again"),
		memory("grants-memory", "Terms of grants of exemption as recalled; the caller's own grant decides"),
		memory("usc-49-memory", "49 USC 40102(a)(41), 40125, recalled"),
		memory("cfr-40-170-memory", "40 CFR part 170 (worker protection standard), sections beside 170.405, recalled"),
		memory("uk-2019-947", "Retained UK Regulation (EU) 2019/947, recalled"),
		memory("au-casr-101", "CASR 101.237, summary of 2018, and Agriculture Victoria; part of it recalled"),
		memory("jp-aeronautics-act", "Civil Aeronautics Act of Japan, legal guides for the 100 g line; the rest recalled"),
		memory("cn-interim-2023", "China, Interim Regulation of 2023, recalled"),
		{ID: "state-practice", Citation: "Common practice of state pesticide agencies", Standing: finding.CommonPractice},
		{ID: "permits-own-design", Citation: "Choice of this table: how facts, defaults and duties are shown", Standing: finding.OwnDesign},
	}
}

// find finds a source among some; a key that is not among them gives an empty source, which the
// test of the table refuses.
func find(among []finding.Source, id string) finding.Source {
	for i := range among {
		if among[i].ID == id {
			return among[i]
		}
	}
	return finding.Source{}
}

// usedSources lists the sources of the rows shown, each once, in the order of the sources table. Every row
// but a notice is shown whatever the mission, so the list is mostly the one made once.
func usedSources(items []Item) []finding.Source {
	used := ruleCites
	more := false
	for i := range items {
		if r := items[i].row; r != nil && r.Kind == Notice {
			for _, at := range r.cites {
				more = more || !used[at]
				used[at] = true
			}
		}
	}
	if !more {
		return ruleSources
	}
	return used.list()
}

// cites marks places in the sources table.
type cites [mostSources]bool

// mostSources is room for the sources table.
const mostSources = 64

// list is the sources marked.
func (c *cites) list() []finding.Source {
	var list []finding.Source
	for i := range sourceTable {
		if c[i] {
			list = append(list, sourceTable[i])
		}
	}
	return slices.Clip(list)
}

// What every checklist cites: made once, never changed.
var (
	ruleCites   = citesOf(table)
	ruleSources = ruleCites.list()
)

// citesOf marks the sources of the rows that every checklist shows, and that of the choices of this table.
func citesOf(rows []row) cites {
	var c cites
	for i := range rows {
		if rows[i].Kind != Notice {
			for _, at := range rows[i].cites {
				c[at] = true
			}
		}
	}
	c[ownDesign] = true
	return c
}

// ownDesign is the place of the source that names the choices of this table.
var ownDesign = len(sourceTable) - 1

package wire

import (
	"tractcheck/feasibility"
	"tractcheck/feasibility/tract"
)

// SortiePlan is the tract flown.
type SortiePlan struct {
	Feasible          bool       `json:"feasible"`
	Area              *Quantity  `json:"area"`
	Accounting        Accounting `json:"accounting"`
	Sorties           int        `json:"sorties"`
	BoundBy           string     `json:"bound_by,omitzero"`
	AreaEach          *Quantity  `json:"area_each"`
	AreaPerBattery    *Quantity  `json:"area_per_battery"`
	SortiesPerBattery int        `json:"sorties_per_battery"`
	Passes            int        `json:"passes"`
	Course            *Quantity  `json:"course"`
	SprayTime         *Quantity  `json:"spray_time"`
	FlightTime        *Quantity  `json:"flight_time"`
	ElapsedTime       *Quantity  `json:"elapsed_time"`
	EnergyEach        *Quantity  `json:"energy_each"`
	BatteriesNeeded   int        `json:"batteries_needed"`
	Aircraft          int        `json:"aircraft"`
	Courses           []Course   `json:"courses"`
	Headland          *Headland  `json:"headland,omitzero"`
	List              []Sortie   `json:"list"`
}

// Course is one way to lay the swath lines, with what it costs.
type Course struct {
	Course     *Quantity `json:"course"`
	By         string    `json:"by"`
	Chosen     bool      `json:"chosen"`
	Passes     int       `json:"passes"`
	Turns      int       `json:"turns"`
	TurnTime   *Quantity `json:"turn_time"`
	FlightTime *Quantity `json:"flight_time"`
	Note       string    `json:"note"`
}

// Headland is the passes round the edge, or what one would cost.
type Headland struct {
	Passes int            `json:"passes"`
	Length *Quantity      `json:"length"`
	Time   *Quantity      `json:"time"`
	Volume *Quantity      `json:"volume"`
	Missed *Quantity      `json:"missed"`
	Costs  []HeadlandCost `json:"costs"`
}

// HeadlandCost is what the job costs with a number of passes round the edge.
type HeadlandCost struct {
	Passes     int       `json:"passes"`
	Length     *Quantity `json:"length"`
	Turns      int       `json:"turns"`
	FlightTime *Quantity `json:"flight_time"`
	Volume     *Quantity `json:"volume"`
	Missed     *Quantity `json:"missed"`
	PastEdge   *Quantity `json:"past_edge"`
	Twice      *Quantity `json:"twice"`
}

// Accounting is where the ground went.
type Accounting struct {
	Tract     *Quantity `json:"tract"`
	Sprayed   *Quantity `json:"sprayed"`
	Unsprayed *Quantity `json:"unsprayed"`
	KeepOuts  *Quantity `json:"keep_outs"`
	Strips    *Quantity `json:"strips"`
}

// Sortie is one flight from takeoff to landing.
type Sortie struct {
	Number     int       `json:"number"`
	Aircraft   int       `json:"aircraft"`
	Fill       *Quantity `json:"fill"`
	Area       *Quantity `json:"area"`
	Passes     int       `json:"passes"`
	SprayTime  *Quantity `json:"spray_time"`
	FlightTime *Quantity `json:"flight_time"`
	Energy     *Quantity `json:"energy"`
	EndedBy    string    `json:"ended_by,omitzero"`
	Resume     *Resume   `json:"resume,omitzero"`
}

// Resume is where the next sortie takes up.
type Resume struct {
	Line  int       `json:"line"`
	Along *Quantity `json:"along"`
}

func (w *writer) sortiePlan(a feasibility.Answer) *SortiePlan {
	p := a.SortiePlan
	out := &SortiePlan{
		Feasible: p.Feasible,
		Area:     w.in(p.Area),
		Accounting: Accounting{
			Tract: w.in(p.Accounting.Tract), Sprayed: w.in(p.Accounting.Sprayed),
			Unsprayed: w.in(p.Accounting.Unsprayed), KeepOuts: w.in(p.Accounting.KeepOuts),
			Strips: w.in(p.Accounting.Strips),
		},
		Sorties:           int(p.Sorties),
		BoundBy:           string(p.BoundBy),
		AreaEach:          w.in(p.AreaEach),
		AreaPerBattery:    w.in(p.AreaPerBattery),
		SortiesPerBattery: int(p.SortiesPerBattery),
		Passes:            int(p.Passes),
		Course:            w.in(p.Course),
		SprayTime:         w.in(p.SprayTime),
		FlightTime:        w.in(p.FlightTime),
		ElapsedTime:       w.as(a.Elapsed, "h"),
		EnergyEach:        w.in(p.EnergyEach),
		BatteriesNeeded:   int(a.BatteriesNeeded),
		Aircraft:          int(a.Aircraft),
		Courses:           make([]Course, 0, len(p.Courses)),
		List:              make([]Sortie, 0, len(p.List)),
	}
	for _, c := range p.Courses {
		out.Courses = append(out.Courses, Course{
			Course: w.in(c.Course), By: string(c.By), Chosen: c.Chosen, Passes: int(c.Passes), Turns: int(c.Turns),
			TurnTime: w.in(c.TurnTime), FlightTime: w.in(c.FlightTime), Note: c.Note,
		})
	}
	out.Headland = w.headland(p.Headland)
	for _, s := range p.List {
		out.List = append(out.List, w.sortie(s))
	}
	return out
}

func (w *writer) headland(h tract.Headland) *Headland {
	if h.Length <= 0 {
		return nil
	}
	out := &Headland{
		Passes: int(h.Passes), Length: w.in(h.Length), Time: w.in(h.Time), Volume: w.in(h.Volume), Missed: w.in(h.Missed),
		Costs: make([]HeadlandCost, 0, len(h.Costs)),
	}
	for _, c := range h.Costs {
		out.Costs = append(out.Costs, HeadlandCost{
			Passes: int(c.Passes), Length: w.in(c.Length), Turns: int(c.Turns), FlightTime: w.in(c.FlightTime),
			Volume: w.in(c.Volume), Missed: w.in(c.Missed), PastEdge: w.in(c.PastEdge), Twice: w.in(c.Twice),
		})
	}
	return out
}

func (w *writer) sortie(s tract.Sortie) Sortie {
	out := Sortie{
		Number: int(s.Number), Aircraft: int(s.Aircraft),
		Fill: w.down(s.Fill), Area: w.in(s.Area), Passes: int(s.Passes),
		SprayTime: w.in(s.SprayTime), FlightTime: w.in(s.FlightTime), Energy: w.in(s.Energy),
		EndedBy: string(s.EndedBy),
	}
	if s.ResumeLine > 0 {
		out.Resume = &Resume{Line: int(s.ResumeLine), Along: w.in(s.ResumeAlong)}
	}
	return out
}

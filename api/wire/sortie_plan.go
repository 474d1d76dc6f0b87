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
	List              []Sortie   `json:"list"`
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
		List:              make([]Sortie, 0, len(p.List)),
	}
	for _, s := range p.List {
		out.List = append(out.List, w.sortie(s))
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

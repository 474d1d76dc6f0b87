package sheet

import (
	"html/template"
	"slices"
	"strconv"
	"strings"

	"tractcheck/api/wire"
)

// weightBlock is the weight against its limits.
type weightBlock struct {
	Plot    template.HTML
	Total   string
	Largest string
	Parts   []row
	Limits  []limitRow
	Notes   []note
}

// row is one line of a table: its key in the drawing, a name and a figure.
type row struct{ Key, Name, Figure string }

// limitRow is one limit.
type limitRow struct{ Key, Name, Limit, Margin, Stands, Fill string }

func weightOf(w *wire.TakeoffWeight, notes []note) weightBlock {
	out := weightBlock{Notes: notes}
	if w == nil {
		return out
	}
	out.Plot, out.Total = weightPlot(w).show(), say(w.Total)
	out.Largest = say(w.LargestFill.Volume)
	if w.LargestFill.BoundBy != "" {
		out.Largest += ", set by " + boundName(w.LargestFill.BoundBy)
	}
	for i, p := range w.Parts {
		out.Parts = append(out.Parts, row{strconv.Itoa(i + 1), partName(p.Name), say(p.Weight)})
	}
	for i, l := range w.Limits {
		r := limitRow{Name: limitName(l.Code), Limit: say(l.Limit), Margin: say(l.Margin), Stands: "OVER", Fill: say(l.FillLimit)}
		if l.Within {
			r.Stands = "within"
		}
		if onScale(l) {
			r.Key = letter(i)
		}
		out.Limits = append(out.Limits, r)
	}
	return out
}

// sprayBlock is pressure and droplets.
type sprayBlock struct {
	Plot  template.HTML
	Facts []fact
	Curve []curveRow
	Basis string
	Notes []note
}

// curveRow is one speed of the curve.
type curveRow struct{ Speed, Pressure, Class, Fines, Holds string }

func sprayOf(r *wire.RatePressure, request *wire.Request, notes []note) sprayBlock {
	out := sprayBlock{Notes: notes}
	if r == nil {
		return out
	}
	var speed *wire.Quantity
	if request.Flight != nil {
		speed = request.Flight.Speed
	}
	out.Plot = pressurePlot(r, speed).show()
	add := func(name, text string) { out.Facts = append(out.Facts, fact{name, text}) }
	add("Flow", say(r.FlowTotal)+" in all, "+say(r.FlowEach)+" each")
	if r.Pressure != nil {
		text := say(r.Pressure) + " holds the rate"
		if !r.WithinRange {
			text += ", outside the working range"
		}
		add("Pressure", text)
	}
	add("Really applied", say(r.RateDelivered))
	class := "not known"
	if r.Droplet.Class != "" {
		class = plain(r.Droplet.Class)
	}
	if r.Droplet.Dv05 != nil {
		class += "; half the spray is in drops under " + say(r.Droplet.Dv05)
	}
	add("Droplets", class)
	add("Fine drops", say(r.Droplet.FinesPercent)+" of the spray, under 150 um")
	if high, ok := value(r.SpeedRange.Highest); ok && high > 0 {
		text := say(r.SpeedRange.Lowest) + " to " + say(r.SpeedRange.Highest)
		if b := r.SpeedRange.BoundBy.Highest; b != "" {
			text += " (top set by " + boundName(b) + ")"
		}
		add("Speeds that hold the rate", text)
	}
	out.Basis = capital(r.Droplet.Basis)
	for i, p := range r.Curve {
		if i%3 != 2 && i != 0 && i != len(r.Curve)-1 {
			continue
		}
		row := curveRow{Speed: say(p.Speed), Class: plain(p.Class), Fines: say(p.FinesPercent), Holds: "no"}
		if p.Pressure != nil {
			row.Pressure = say(p.Pressure)
		}
		if p.WithinRange {
			row.Holds = "yes"
		}
		out.Curve = append(out.Curve, row)
	}
	return out
}

// driftBlock is drift and neighbors.
type driftBlock struct {
	Plot      template.HTML
	Facts     []fact
	Neighbors []neighborRow
	Notes     []note
}

// neighborRow is one neighbor.
type neighborRow struct{ Key, Name, Distance, Downwind, Best, Range string }

func driftOf(d *wire.DriftRisk, notes []note) driftBlock {
	out := driftBlock{Notes: notes}
	if d == nil {
		return out
	}
	out.Plot = depositPlot(d).show()
	add := func(name, text string) { out.Facts = append(out.Facts, fact{name, text}) }
	add("Drift risk", d.Grade)
	if distance, ok := value(d.Buffer.Distance); ok && distance > 0 {
		add("Keep clear downwind", sayUp(d.Buffer.Distance)+", where up to "+say(d.Buffer.PercentOfRate)+" of the rate may land")
	}
	add("Leaves the field in the air", say(d.AirbornePercent)+" of the spray")
	var drivers []string
	for _, x := range d.Drivers {
		if share, ok := value(x.Share); ok && share >= 1 {
			drivers = append(drivers, plain(x.Factor)+" "+say(x.Share))
		}
	}
	if len(drivers) > 0 {
		add("What drives it", strings.Join(drivers, ", "))
	}
	for i, n := range d.AtNeighbors {
		r := neighborRow{
			Key: "N" + strconv.Itoa(i+1), Name: neighborName(n.Kind), Distance: say(n.Distance), Downwind: "no",
			Best: say(n.PercentOfRate.Best), Range: digitsOf(n.PercentOfRate.Low) + " to " + say(n.PercentOfRate.High),
		}
		if n.Downwind {
			r.Downwind = "yes"
		}
		out.Neighbors = append(out.Neighbors, r)
	}
	return out
}

// digitsOf is a figure without its unit.
func digitsOf(q *wire.Quantity) string {
	x, _ := value(q)
	return digits(x, 3)
}

// workBlock is flights and hours.
type workBlock struct {
	Plot  template.HTML
	NoMap string // why there is no drawing
	Facts []fact
	Cost  []row
	Total string
	Quote []row
	Notes []note
}

func workOf(in Assessed, notes []note) workBlock {
	out := workBlock{Notes: notes}
	p, c := in.Answer.SortiePlan, in.Answer.CrewPlan
	add := func(name, text string) { out.Facts = append(out.Facts, fact{name, text}) }
	if p != nil {
		si := in.Request.Units != nil && *in.Request.Units == "si"
		out.Plot = tractPlot(in.Drawing, in.Request.Weather, si).show()
		if out.Plot == "" {
			out.NoMap = "No map is drawn: only the size of the tract was sent. Send its boundary to see the lines and where each flight takes up."
		}
		out.Facts = append(out.Facts, groundFacts(p)...)
	}
	if c != nil {
		add("Battery sets, chargers", strconv.Itoa(c.Batteries)+" and "+strconv.Itoa(c.Chargers))
		add("Generator", say(c.GeneratorPower)+", "+say(c.GeneratorFuel)+" of fuel")
		if hours, ok := value(c.Hours); ok && hours > 0 {
			add("Time", say(c.Hours)+" in "+counted(c.Days, "day", "days")+", "+say(c.AcresPerHour))
		} else {
			add("Time", "cannot be worked out yet")
		}
		if waiting, ok := value(c.Waiting); ok && waiting > 0 {
			add("Waiting for batteries", say(c.Waiting))
		}
		if c.Cost != nil {
			out.Total = say(c.Cost.PerArea)
			for _, part := range c.Cost.Parts {
				out.Cost = append(out.Cost, row{Name: plain(part.Name), Figure: say(part.PerArea)})
			}
			if q := c.Cost.GroundQuote; q != nil {
				out.Quote = append(out.Quote, row{Name: "your quote, ground rig", Figure: say(q)})
			}
			if q := c.Cost.MannedAircraftQuote; q != nil {
				out.Quote = append(out.Quote, row{Name: "your quote, airplane", Figure: say(q)})
			}
		}
	}
	return out
}

// groundFacts says where the ground goes and how it is flown.
func groundFacts(p *wire.SortiePlan) []fact {
	ground := say(p.Accounting.Sprayed) + " of " + say(p.Accounting.Tract)
	for _, part := range []struct {
		name string
		area *wire.Quantity
	}{{"strips left", p.Accounting.Strips}, {"keep-outs", p.Accounting.KeepOuts}, {"missed", p.Accounting.Unsprayed}} {
		if x, ok := value(part.area); ok && x > 0 {
			ground += "; " + part.name + " " + say(part.area)
		}
	}
	out := []fact{{"Sprayed", ground}}
	if !p.Feasible {
		return append(out, fact{"Flights", "could not be planned; see the findings"})
	}
	flights := counted(p.Sorties, "flight", "flights") + " of " + say(p.AreaEach)
	if p.BoundBy != "" {
		flights += ", set by " + boundName(p.BoundBy)
	}
	if p.Aircraft > 1 {
		flights += ", " + strconv.Itoa(p.Aircraft) + " drones"
	}
	out = append(out, fact{"Flights", flights})
	if p.SortiesPerBattery > 0 {
		out = append(out, fact{"One battery", counted(p.SortiesPerBattery, "flight", "flights") + ", " + say(p.AreaPerBattery)})
	}
	lines := counted(p.Passes, "pass", "passes") + " on a course of " + say(p.Course)
	return append(out, fact{"Lines", lines}, fact{"In the air", say(p.FlightTime) + ", spraying for " + say(p.SprayTime)})
}

// counted says a number of things.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// papersBlock is the authorizations.
type papersBlock struct {
	Regime   string
	Rows     []paperRow
	Asked    []paperRow // to find out about: what is not known stands with the step that finds it out
	Held     []string
	Duties   []duty
	Across   string
	Cautions []string
	Notes    []note
	Record   *wire.ApplicationRecord
}

// paperRow is one authorization that is open.
type paperRow struct{ Title, Status, Because, Citation string }

// duty is something to do on every job; Unknown where it is not known whether it applies.
type duty struct {
	Title   string
	Unknown bool
}

func papersOf(in Assessed, lifted []string, notes []note) papersBlock {
	a := in.Answer.Authorizations
	if a == nil {
		return papersBlock{Notes: notes}
	}
	out := papersBlock{Cautions: in.Computed.Authorizations.Cautions, Record: a.Record}
	out.Regime = "under 55 lb: the rules for small drones"
	if a.Regime == "large" {
		out.Regime = "55 lb and over: the rules for large drones"
	}
	titles := []string{}
	for _, i := range inOrder(open(a.Items)) {
		titles = append(titles, i.Title+": ")
		status := statusNames[i.Status]
		until := slices.Contains(lifted, i.ID)
		if i.Status == "unknown" && !until {
			out.Asked = append(out.Asked, paperRow{Title: i.Title, Citation: i.Citation})
			continue
		}
		if until {
			status += ", until the change above is made"
		}
		out.Rows = append(out.Rows, paperRow{i.Title, status, i.Because, i.Citation})
	}
	for _, i := range a.Items {
		switch {
		case i.Status == "held":
			out.Held = append(out.Held, i.Title)
		case i.Kind == "duty" && i.Status != "not_needed":
			out.Duties = append(out.Duties, duty{i.Title, i.Status == "unknown"})
		}
	}
	for _, n := range notes {
		inTable := slices.ContainsFunc(titles, func(title string) bool { return strings.HasPrefix(n.Message, title) })
		if !inTable {
			out.Notes = append(out.Notes, n)
		}
	}
	if a.AcrossTheLine != nil {
		// The titles that the text goes on to list are those of the table for the other side.
		said, _, _ := strings.Cut(a.AcrossTheLine.Text, ": ")
		out.Across = strings.TrimSuffix(said, ".") + "."
	}
	return out
}

// show writes a picture; nothing where there is none.
func (p picture) show() template.HTML {
	if p.body == "" {
		return ""
	}
	return p.SVG()
}

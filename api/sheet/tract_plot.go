package sheet

import (
	"fmt"
	"math"
	"strconv"

	"tractcheck/api/wire"
	"tractcheck/feasibility"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

const (
	tractHeight = 470
	tractMargin = 50.0
)

// plane brings positions onto the drawing: north up, all ways at the same scale.
type plane struct {
	west, north units.Angle
	across      float64 // the cosine of the latitude in the middle
	perMeter    float64
	left, top   float64
}

// earthRadius is the mean radius of the earth (IUGG). A drawing needs no better.
const earthRadius = 6371008.8

// onPlane fits positions into the drawing.
func onPlane(positions []tract.Position) (plane, bool) {
	if len(positions) == 0 {
		return plane{}, false
	}
	west, east := positions[0].Longitude, positions[0].Longitude
	south, north := positions[0].Latitude, positions[0].Latitude
	for _, p := range positions {
		west, east = min(west, p.Longitude), max(east, p.Longitude)
		south, north = min(south, p.Latitude), max(north, p.Latitude)
	}
	out := plane{west: west, north: north, across: math.Cos((south.SI() + north.SI()) / 2)}
	width, height := (east-west).SI()*out.across*earthRadius, (north-south).SI()*earthRadius
	if !(width > 0) && !(height > 0) {
		return plane{}, false
	}
	roomX, roomY := plotWidth-2*tractMargin, tractHeight-2*tractMargin
	out.perMeter = min(roomX/max(width, 1e-6), roomY/max(height, 1e-6))
	out.left = (plotWidth - width*out.perMeter) / 2
	out.top = (tractHeight - height*out.perMeter) / 2
	return out, true
}

// at is where a position stands.
func (p plane) at(q tract.Position) point {
	return point{
		x: p.left + (q.Longitude-p.west).SI()*p.across*earthRadius*p.perMeter,
		y: p.top + (p.north-q.Latitude).SI()*earthRadius*p.perMeter,
	}
}

// tractPlot draws the tract: boundary, keep-outs, strips to leave, drift zone, swath lines, where
// flights begin, the launch point, the wind and a scale.
func tractPlot(d *feasibility.Drawing, weather *wire.Weather, si bool) picture {
	if d == nil {
		return picture{}
	}
	var shown []tract.Position
	for _, polygon := range d.Map.Boundary {
		for _, ring := range polygon {
			shown = append(shown, ring...)
		}
	}
	if d.Map.Launch != nil {
		shown = append(shown, *d.Map.Launch)
	}
	p, ok := onPlane(shown)
	if !ok {
		return picture{}
	}
	c := &canvas{}
	drawGround(c, p, d)
	starts := drawFlights(c, p, d)
	drawWind(c, weather)
	drawScale(c, p, si)
	return picture{
		id: "tract-plot", width: plotWidth, height: tractHeight, body: c.body.String(),
		title: "The tract from above, north up", about: aboutTract(d, weather, starts),
	}
}

// drawGround draws areas, each with a line of its own kind.
func drawGround(c *canvas, p plane, d *feasibility.Drawing) {
	area := func(polygons []tract.Polygon) {
		for _, polygon := range polygons {
			for _, ring := range polygon {
				points := make([]point, len(ring))
				for i, q := range ring {
					points[i] = p.at(q)
				}
				c.polyline(points...)
				c.Close()
			}
		}
	}
	area(d.DriftZone)
	c.pen(soft, thin, 2, 7)
	c.fill = wash
	c.FillStroke()
	area(d.Map.Boundary)
	c.pen(ink, thick)
	c.fill = paper
	c.FillStroke()
	area(d.Map.Unsprayed)
	c.pen(ink, thin, 10, 5)
	c.fill = wash
	c.FillStroke()
}

// drawFlights draws the swath lines, then the keep-outs over them, and the places where flights
// begin. It reports how many flights are marked.
func drawFlights(c *canvas, p plane, d *feasibility.Drawing) int {
	for _, l := range d.Map.Lines {
		c.polyline(p.at(l.From), p.at(l.To))
	}
	c.pen(earth, 1.2)
	c.Stroke()
	for _, polygon := range d.Map.KeepOuts {
		for _, ring := range polygon {
			points := make([]point, len(ring))
			for i, q := range ring {
				points[i] = p.at(q)
			}
			c.polyline(points...)
			c.Close()
		}
		c.pen(ink, medium)
		c.fill = soft
		c.FillStroke()
	}
	starts := 0
	for _, b := range d.Map.Breaks {
		if b.Starts {
			starts++
		}
	}
	every := units.Count(max(1, (starts+9)/10))
	for _, b := range d.Map.Breaks {
		if !b.Starts {
			continue
		}
		q := p.at(b.At)
		c.circle(q.x, q.y, 5)
		c.pen(ink, thin)
		c.fill = paper
		c.FillStroke()
		if (b.Sortie-1)%every == 0 {
			c.SetFontSize(smallSize)
			c.say(b.Sortie.String(), q.x+9, q.y-7, "start")
		}
	}
	if d.Map.Launch != nil {
		q := p.at(*d.Map.Launch)
		c.polyline(point{q.x - 13, q.y + 11}, point{q.x + 13, q.y + 11}, point{q.x, q.y - 13})
		c.Close()
		c.fill = ink
		c.Fill()
		c.SetFontSize(textSize)
		c.say("launch", q.x+20, q.y+10, "start")
	}
	return starts
}

// drawWind draws an arrow the way the wind blows, with words beside it.
func drawWind(c *canvas, w *wire.Weather) {
	c.SetFontSize(textSize)
	c.say("N", plotWidth-30, 34, "middle")
	c.polyline(point{plotWidth - 30, 80}, point{plotWidth - 30, 42})
	c.polyline(point{plotWidth - 38, 54}, point{plotWidth - 30, 42}, point{plotWidth - 22, 54})
	c.pen(ink, medium)
	c.Stroke()
	if w == nil {
		return
	}
	from, ok := value(w.WindFrom)
	speed, okSpeed := value(w.WindSpeed)
	if !ok || !okSpeed || speed <= 0 {
		return
	}
	to := (math.Mod(from, 360) + 180) * math.Pi / 180
	middle := point{52, 52}
	ahead := point{math.Sin(to), -math.Cos(to)}
	tail, head := point{middle.x - 38*ahead.x, middle.y - 38*ahead.y}, point{middle.x + 38*ahead.x, middle.y + 38*ahead.y}
	side := func(sign float64) point {
		return point{head.x - 20*ahead.x + sign*12*ahead.y, head.y - 20*ahead.y - sign*12*ahead.x}
	}
	c.polyline(tail, head)
	c.pen(ink, thick)
	c.Stroke()
	c.polyline(head, side(1), side(-1))
	c.Close()
	c.fill = ink
	c.Fill()
	c.SetFontSize(smallSize)
	c.say("wind "+say(w.WindSpeed), 108, 46, "start")
	c.say("from "+bearing(w.WindFrom), 108, 72, "start")
}

// drawScale draws a bar of a round length.
func drawScale(c *canvas, p plane, si bool) {
	unit, name := units.Foot.SI(), "ft"
	if si {
		unit, name = units.Meter.SI(), "m"
	}
	most := 220 / (p.perMeter * unit)
	if !(most > 0) || math.IsInf(most, 0) {
		return
	}
	length := math.Pow(10, math.Floor(math.Log10(most)))
	for _, m := range []float64{5, 2} {
		if m*length <= most {
			length *= m
			break
		}
	}
	wide, y := length*unit*p.perMeter, tractHeight-22.0
	c.polyline(point{20, y - 8}, point{20, y}, point{20 + wide, y}, point{20 + wide, y - 8})
	c.pen(ink, medium)
	c.Stroke()
	c.SetFontSize(smallSize)
	c.say(digits(length, 3)+" "+name, 30+wide, y, "start")
}

// aboutTract says in words what the drawing shows.
func aboutTract(d *feasibility.Drawing, w *wire.Weather, starts int) string {
	lines := map[units.Count]bool{}
	for _, l := range d.Map.Lines {
		lines[l.Number] = true
	}
	said := fmt.Sprintf("The boundary is a thick line. %d swath lines cross it. ", len(lines))
	if starts > 0 {
		said += strconv.Itoa(starts) + " small circles mark where flights begin to spray. "
	}
	if n := len(d.Map.KeepOuts); n > 0 {
		said += fmt.Sprintf("Keep-outs are dark: %d. ", n)
	}
	if len(d.Map.Unsprayed) > 0 {
		said += "Strips to leave unsprayed have a broken outline. "
	}
	if len(d.DriftZone) > 0 {
		said += "The shaded ground with a dotted outline is where spray may drift. "
	}
	if w != nil {
		if speed, ok := value(w.WindSpeed); ok && speed > 0 {
			said += "The arrow shows the wind, " + say(w.WindSpeed) + " from the " + bearing(w.WindFrom) + "."
		}
	}
	return said
}

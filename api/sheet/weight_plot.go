package sheet

import (
	"strconv"
	"strings"

	"github.com/go-analyze/charts/chartdraw"

	"tractcheck/api/wire"
)

// The widths and heights of drawings, in units of half a unit of the page.
const (
	plotWidth    = 760
	weightHeight = 250
)

// onScale reports whether a limit is one of the takeoff weight; that of the tank is one of the
// liquid alone.
func onScale(l wire.WeightLimit) bool { return l.Code != "tank_capacity" }

// letter is the name of the i-th limit in the drawing and in the table beside it.
func letter(i int) string { return string(rune('A' + i%26)) }

// weightPlot draws the parts of the takeoff weight as one bar against the limits. Parts carry the
// numbers and limits the letters of the table beside the drawing.
func weightPlot(w *wire.TakeoffWeight) picture {
	total, ok := value(w.Total)
	if !ok || total <= 0 {
		return picture{}
	}
	reach := total
	for _, l := range w.Limits {
		if limit, ok := value(l.Limit); ok && onScale(l) && limit < 3*total {
			reach = max(reach, limit)
		}
	}
	const top, bottom = 1.0, 0.0
	bar := overlay(func(c *canvas, at func(x, y float64) point, box chartdraw.Box) {
		drawParts(c, at, w)
		drawLimits(c, at, w, reach)
	})
	body := chart{
		width: plotWidth, height: weightHeight, hideY: true,
		xName: "takeoff weight, " + w.Total.Unit, xTicks: linear(0, reach*1.04),
		yTicks: []chartdraw.Tick{{Value: bottom}, {Value: top}},
		series: []chartdraw.Series{bar},
	}.draw()
	about := []string{"One bar, " + say(w.Total) + " long, made of"}
	for i, p := range w.Parts {
		about = append(about, strconv.Itoa(i+1)+" "+partName(p.Name)+" "+say(p.Weight)+";")
	}
	about = append(about, "and lines for the limits:")
	for i, l := range w.Limits {
		if onScale(l) {
			about = append(about, letter(i)+" "+limitName(l.Code)+" "+say(l.Limit)+";")
		}
	}
	return picture{
		id: "weight-plot", width: plotWidth, height: weightHeight, body: body,
		title: "Takeoff weight against its limits", about: strings.TrimSuffix(strings.Join(about, " "), ";") + ".",
	}
}

// drawParts draws the bar.
func drawParts(c *canvas, at func(x, y float64) point, w *wire.TakeoffWeight) {
	from := 0.0
	for i, p := range w.Parts {
		part, ok := value(p.Weight)
		if !ok || part <= 0 {
			continue
		}
		a, b := at(from, 0.62), at(from+part, 0.12)
		from += part
		c.rectangle(a.x, a.y, b.x, b.y)
		c.pen(ink, thin)
		c.fill = paper
		if p.Name == "liquid" {
			c.fill = wash
		}
		c.FillStroke()
		if p.Name == "liquid" {
			hatch(c, a, b)
		}
		if b.x-a.x > 18 {
			c.SetFontSize(textSize)
			c.say(strconv.Itoa(i+1), (a.x+b.x)/2, (a.y+b.y)/2+9, "middle")
		}
	}
}

// hatch fills a rectangle with slanted lines, so that it is told apart without color.
func hatch(c *canvas, a, b point) {
	height := b.y - a.y
	for x := a.x - height; x < b.x; x += 16 {
		low, high := point{x, b.y}, point{x + height, a.y}
		if low.x < a.x {
			low = point{a.x, b.y - (a.x - x)}
		}
		if high.x > b.x {
			high = point{b.x, a.y + (high.x - b.x)}
		}
		c.polyline(low, high)
	}
	c.pen(soft, 1.5)
	c.Stroke()
}

// drawLimits draws a line for each limit, its letter above. Letters of limits close together stand
// on different heights.
func drawLimits(c *canvas, at func(x, y float64) point, w *wire.TakeoffWeight, reach float64) {
	var drawn []float64
	for i, l := range w.Limits {
		limit, ok := value(l.Limit)
		if !ok || !onScale(l) || limit > reach*1.04 {
			continue
		}
		foot, head := at(limit, 0), at(limit, 0.74)
		for _, x := range drawn {
			if d := x - foot.x; d < 34 && d > -34 {
				head.y -= lineHeight
			}
		}
		drawn = append(drawn, foot.x)
		dashes := [][]float64{nil, {12, 6}, {4, 5}, {14, 5, 3, 5}}
		c.polyline(foot, point{head.x, head.y})
		c.pen(ink, medium, dashes[i%len(dashes)]...)
		c.Stroke()
		c.SetFontSize(textSize)
		c.say(letter(i), head.x, head.y-8, "middle")
	}
}

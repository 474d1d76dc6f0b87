package sheet

import (
	"fmt"
	"math"
	"strings"

	"github.com/go-analyze/charts/chartdraw"

	"tractcheck/api/wire"
)

const (
	pressureHeight = 215
	finesHeight    = 215
)

// curveOf picks one figure of the curve over speed; points without it are left out.
func curveOf(r *wire.RatePressure, of func(wire.CurvePoint) *wire.Quantity) (xs, ys []float64) {
	for _, p := range r.Curve {
		x, okX := value(p.Speed)
		y, okY := value(of(p))
		if okX && okY {
			xs, ys = append(xs, x), append(ys, y)
		}
	}
	return xs, ys
}

// pressurePlot draws the pressure and the share of fine drops against the speed, with the speeds
// that hold the rate and the speed of the job. Rotary atomizers have no pressure.
func pressurePlot(r *wire.RatePressure, speed *wire.Quantity) picture {
	xs, fines := curveOf(r, func(p wire.CurvePoint) *wire.Quantity { return p.FinesPercent })
	if len(xs) < 2 {
		return picture{}
	}
	xTicks := linear(xs[0], xs[len(xs)-1])
	unit := r.Curve[0].Speed.Unit
	finesTicks := linear(0, largest(fines))
	window := speedWindow(r, speed, xs)
	var body string
	height := 0
	if px, pressures := curveOf(r, func(p wire.CurvePoint) *wire.Quantity { return p.Pressure }); len(px) >= 2 {
		pressureTicks := linear(0, largest(pressures))
		pad(pressureTicks, finesTicks)
		body = chart{
			width: plotWidth, height: pressureHeight, yName: "pressure, " + r.Curve[0].Pressure.Unit,
			xTicks: xTicks, yTicks: pressureTicks,
			series: []chartdraw.Series{window, line(px, pressures, thick)},
		}.draw()
		height = pressureHeight
	}
	lower := chart{
		width: plotWidth, height: finesHeight + 30, yName: "share of drops under 150 um, %", xName: "speed, " + unit,
		xTicks: xTicks, yTicks: finesTicks,
		series: []chartdraw.Series{window, line(xs, fines, thick, 16, 7)},
	}.draw()
	body += fmt.Sprintf("<g transform=\"translate(0 %d)\">%s</g>", height, lower)
	height += finesHeight + 30
	key, keyHeight := legend(float64(height)+26, legendEntry{name: "shaded: speeds that hold the rate", band: true},
		legendEntry{name: "upright line: speed of this job", width: medium, dash: []float64{2, 5}})
	return picture{
		id: "pressure-plot", width: plotWidth, height: height + int(keyHeight) + 12, body: body + key,
		title: "Pressure and fine drops against speed", about: aboutPressure(r, speed),
	}
}

// pad brings the labels of two upright axes, one above the other, to one width, so that their plots
// begin under each other. The filler is a space as wide as a digit.
func pad(axes ...[]chartdraw.Tick) {
	const figureSpace = "\u2007"
	longest := 0
	for _, ticks := range axes {
		for _, t := range ticks {
			longest = max(longest, len([]rune(t.Label)))
		}
	}
	for _, ticks := range axes {
		for i, t := range ticks {
			ticks[i].Label = strings.Repeat(figureSpace, longest-len([]rune(t.Label))) + t.Label
		}
	}
}

// aboutPressure says in words what the drawing shows.
func aboutPressure(r *wire.RatePressure, speed *wire.Quantity) string {
	first, last := r.Curve[0], r.Curve[len(r.Curve)-1]
	said := []string{fmt.Sprintf("From %s to %s", say(first.Speed), say(last.Speed))}
	if first.Pressure != nil && last.Pressure != nil {
		said = append(said, fmt.Sprintf("the pressure goes from %s to %s and", say(first.Pressure), say(last.Pressure)))
	}
	said = append(said, fmt.Sprintf("the share of drops under 150 um goes from %s to %s.", say(first.FinesPercent), say(last.FinesPercent)))
	if low, ok := value(r.SpeedRange.Lowest); ok && low >= 0 {
		said = append(said, fmt.Sprintf("The shaded speeds, %s to %s, hold the rate.", say(r.SpeedRange.Lowest), say(r.SpeedRange.Highest)))
	}
	if speed != nil {
		said = append(said, "The upright line marks the speed of the job, "+say(speed)+".")
	}
	return strings.Join(said, " ")
}

// speedWindow shades the speeds that hold the rate and marks the speed of the job.
func speedWindow(r *wire.RatePressure, speed *wire.Quantity, xs []float64) overlay {
	return func(c *canvas, at func(x, y float64) point, box chartdraw.Box) {
		low, okLow := value(r.SpeedRange.Lowest)
		high, okHigh := value(r.SpeedRange.Highest)
		top, bottom := float64(box.Top), float64(box.Bottom)
		if okLow && okHigh && high > low && high > xs[0] && low < xs[len(xs)-1] {
			a, b := at(low, 0), at(high, 0)
			c.rectangle(a.x, top, b.x, bottom)
			c.pen(soft, thin, 4, 6)
			c.fill = wash
			c.FillStroke()
		}
		if v, ok := value(speed); ok && sameUnit(speed, r.Curve[0].Speed) {
			p := at(v, 0)
			c.polyline(point{p.x, top}, point{p.x, bottom})
			c.pen(ink, medium, 2, 5)
			c.Stroke()
		}
	}
}

// sameUnit reports whether two quantities can be compared by their numbers.
func sameUnit(a, b *wire.Quantity) bool { return a != nil && b != nil && a.Unit == b.Unit }

// largest is the largest of some numbers; 0 where there are none.
func largest(xs []float64) float64 {
	most := 0.0
	for _, x := range xs {
		most = math.Max(most, x)
	}
	return most
}

package sheet

import (
	"fmt"
	"math"
	"strconv"

	"github.com/go-analyze/charts/chartdraw"

	"tractcheck/api/wire"
)

// The heights of the deposit drawing, and the least share of the rate that it shows.
const (
	depositHeight = 370
	leastDeposit  = 0.001
)

// depositCurve is the deposit downwind, ready to draw.
type depositCurve struct{ distance, low, best, high []float64 }

func curveOfDeposit(deposit []wire.Deposit) depositCurve {
	var out depositCurve
	for _, d := range deposit {
		x, ok := value(d.Distance)
		low, okLow := value(d.PercentOfRate.Low)
		best, okBest := value(d.PercentOfRate.Best)
		high, okHigh := value(d.PercentOfRate.High)
		if !ok || !okLow || !okBest || !okHigh || x <= 0 {
			continue
		}
		out.distance = append(out.distance, x)
		out.low, out.best, out.high = append(out.low, low), append(out.best, best), append(out.high, high)
	}
	return out
}

// depositPlot draws the deposit against the distance downwind on logarithmic axes: the best estimate,
// the band from low to high, the neighbors downwind, the distance to keep, and published curves.
func depositPlot(d *wire.DriftRisk) picture {
	curve := curveOfDeposit(d.Deposit)
	if len(curve.distance) < 2 {
		return picture{}
	}
	reach, least := curve.distance[len(curve.distance)-1], 1.0
	for _, n := range d.AtNeighbors {
		if x, ok := value(n.Distance); ok && n.Downwind {
			reach = max(reach, min(x, 5*reach))
		}
	}
	for _, y := range curve.low {
		least = min(least, max(y, leastDeposit))
	}
	xTicks, yTicks := decades(curve.distance[0], reach, 1, 2, 5), decades(least, 100, 1)
	series := []chartdraw.Series{band(curve)}
	entries := []legendEntry{{name: "this job, low to high estimate", band: true}, {name: "this job, best estimate", width: thick}}
	dashes := [][]float64{{14, 7}, {3, 6}, {16, 6, 3, 6}, {8, 4}}
	for i, c := range d.ReferenceCurves {
		if xs, ys := referenceCurve(c, yTicks[0].Value, xTicks[len(xTicks)-1].Value); len(xs) > 1 {
			dash := dashes[i%len(dashes)]
			series = append(series, line(xs, ys, medium, dash...))
			entries = append(entries, legendEntry{name: referenceName(c), width: medium, dash: dash})
		}
	}
	series = append(series, line(curve.distance, curve.best, thick), marks(d, xTicks[len(xTicks)-1].Value))
	body := chart{
		width: plotWidth, height: depositHeight, yName: "share of the rate that lands, % (each step is ten times)",
		xName:  "distance downwind of the field, " + d.Deposit[0].Distance.Unit,
		xTicks: xTicks, yTicks: yTicks, xLog: true, yLog: true,
		series: series,
	}.draw()
	key, height := legend(depositHeight+26, entries...)
	return picture{
		id: "deposit-plot", width: plotWidth, height: depositHeight + int(height) + 12, body: body + key,
		title: "Deposit against distance downwind", about: aboutDeposit(d),
	}
}

// referenceName names a published curve; one that was not read again says so.
func referenceName(c wire.ReferenceCurve) string {
	name := "published: " + plain(c.Name)
	if c.Standing == "from memory" {
		name += " (from memory)"
	}
	return name
}

// referenceCurve is a published curve as far as it stays on the axes.
func referenceCurve(c wire.ReferenceCurve, least, reach float64) (xs, ys []float64) {
	for _, p := range c.Deposit {
		x, okX := value(p.Distance)
		y, okY := value(p.PercentOfRate)
		if okX && okY && x > 0 && x <= reach && y >= least {
			xs, ys = append(xs, x), append(ys, y)
		}
	}
	return xs, ys
}

// band draws the range from the low to the high estimate.
func band(d depositCurve) overlay {
	return func(c *canvas, at func(x, y float64) point, _ chartdraw.Box) {
		var outline []point
		for i, x := range d.distance {
			outline = append(outline, at(x, d.high[i]))
		}
		for i := len(d.distance) - 1; i >= 0; i-- {
			outline = append(outline, at(d.distance[i], d.low[i]))
		}
		c.polyline(outline...)
		c.Close()
		c.pen(soft, thin, 3, 5)
		c.fill = wash
		c.FillStroke()
	}
}

// marks draws the neighbors downwind, each with its range and its number in the table, and the
// distance to keep. reach is where the axis of distance ends.
func marks(d *wire.DriftRisk, reach float64) overlay {
	return func(c *canvas, at func(x, y float64) point, box chartdraw.Box) {
		if x, ok := value(d.Buffer.Distance); ok && x > reach {
			c.SetFontSize(smallSize)
			c.say("keep "+sayUp(d.Buffer.Distance)+", beyond this axis", float64(box.Right)-6, float64(box.Top)+24, "end")
		} else if ok && x > 0 {
			p := at(x, 1)
			c.polyline(point{p.x, float64(box.Top)}, point{p.x, float64(box.Bottom)})
			c.pen(ink, thin, 2, 6)
			c.Stroke()
			c.SetFontSize(smallSize)
			text, anchor, dx := "keep "+sayUp(d.Buffer.Distance), "start", 8.0
			if p.x > float64(box.Left+3*box.Right)/4 {
				anchor, dx = "end", -8
			}
			c.say(text, p.x+dx, float64(box.Top)+24, anchor)
		}
		for i, n := range d.AtNeighbors {
			x, ok := value(n.Distance)
			best, okBest := value(n.PercentOfRate.Best)
			if !ok || !okBest || !n.Downwind || x <= 0 || x > reach {
				continue
			}
			low, _ := value(n.PercentOfRate.Low)
			high, _ := value(n.PercentOfRate.High)
			a, b, m := at(x, low), at(x, high), at(x, best)
			c.polyline(a, b)
			c.polyline(point{a.x - 8, a.y}, point{a.x + 8, a.y})
			c.polyline(point{b.x - 8, b.y}, point{b.x + 8, b.y})
			c.pen(ink, medium)
			c.Stroke()
			c.circle(m.x, m.y, 8)
			c.fill = ink
			c.Fill()
			c.SetFontSize(textSize)
			c.say("N"+strconv.Itoa(i+1), b.x, b.y-12, "middle")
		}
	}
}

// aboutDeposit says in words what the drawing shows.
func aboutDeposit(d *wire.DriftRisk) string {
	said := ""
	for _, wanted := range []float64{0, 0.5, 1} {
		p := d.Deposit[int(math.Round(wanted*float64(len(d.Deposit)-1)))]
		said += fmt.Sprintf("At %s downwind %s of the rate lands by the best estimate, %s to %s by the low and the high one. ",
			say(p.Distance), say(p.PercentOfRate.Best), say(p.PercentOfRate.Low), say(p.PercentOfRate.High))
	}
	for i, n := range d.AtNeighbors {
		if n.Downwind {
			said += fmt.Sprintf("N%d marks the %s %s away, where %s lands. ", i+1, neighborName(n.Kind), say(n.Distance), say(n.PercentOfRate.Best))
		}
	}
	if len(d.ReferenceCurves) > 0 {
		said += "Published curves are drawn beside it with broken lines: "
		for i, c := range d.ReferenceCurves {
			if i > 0 {
				said += ", "
			}
			said += plain(c.Name)
		}
		said += "."
	}
	return said
}

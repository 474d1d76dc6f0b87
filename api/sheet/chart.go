package sheet

import (
	"math"
	"strings"

	"github.com/go-analyze/charts/chartdraw"
	"github.com/golang/freetype/truetype"
)

// scale is a linear or logarithmic axis for the charting library, whose own logarithmic axis begins
// at 1. Values outside it are held at its ends.
type scale struct {
	min, max float64
	log      bool
	domain   int
}

func (s *scale) String() string       { return "scale" }
func (s *scale) IsZero() bool         { return false }
func (s *scale) GetMin() float64      { return s.min }
func (s *scale) SetMin(x float64)     { s.min = x }
func (s *scale) GetMax() float64      { return s.max }
func (s *scale) SetMax(x float64)     { s.max = x }
func (s *scale) GetDelta() float64    { return s.max - s.min }
func (s *scale) GetDomain() int       { return s.domain }
func (s *scale) SetDomain(domain int) { s.domain = domain }
func (s *scale) IsDescending() bool   { return false }

// Translate is where a value stands, in units of the drawing from the beginning of the axis.
func (s *scale) Translate(x float64) int {
	x = max(s.min, min(s.max, x))
	share := (x - s.min) / (s.max - s.min)
	if s.log {
		share = math.Log(x/s.min) / math.Log(s.max/s.min)
	}
	if math.IsNaN(share) {
		return 0
	}
	return int(math.Round(share * float64(s.domain)))
}

// linear makes round ticks that reach around the values.
func linear(low, high float64) []chartdraw.Tick {
	if !(high > low) {
		high = low + max(1, math.Abs(low))
	}
	const most = 5
	rough := (high - low) / most
	step := math.Pow(10, math.Floor(math.Log10(rough)))
	for _, m := range []float64{1, 2, 5, 10} {
		if m*step >= rough*(1-1e-9) {
			step *= m
			break
		}
	}
	var ticks []chartdraw.Tick
	for i := math.Floor(low/step + 1e-9); ; i++ {
		x := i * step
		ticks = append(ticks, chartdraw.Tick{Value: x, Label: digits(x, 4)})
		if x >= high-1e-9*step || len(ticks) > 20 {
			return ticks
		}
	}
}

// decades makes the ticks of a logarithmic axis around the values, at each of the steps within a
// decade.
func decades(low, high float64, steps ...float64) []chartdraw.Tick {
	var marks []float64
	for e := -6.0; e <= 7; e++ {
		for _, s := range steps {
			marks = append(marks, s*math.Pow(10, e))
		}
	}
	first, last := 0, len(marks)-1
	for first < last-1 && marks[first+1] <= low*(1+1e-9) {
		first++
	}
	for last > first+1 && marks[last-1] >= high*(1-1e-9) {
		last--
	}
	var ticks []chartdraw.Tick
	for _, x := range marks[first : last+1] {
		ticks = append(ticks, chartdraw.Tick{Value: x, Label: digits(x, 2)})
	}
	return ticks
}

// overlay is a part of a chart that the library has no series for, drawn over its axes.
type overlay func(c *canvas, at func(x, y float64) point, box chartdraw.Box)

func (overlay) GetName() string               { return "" }
func (overlay) GetYAxis() chartdraw.YAxisType { return chartdraw.YAxisSecondary }
func (overlay) GetStyle() chartdraw.Style     { return chartdraw.Style{} }
func (overlay) Validate() error               { return nil }

// Render draws the overlay.
func (o overlay) Render(r chartdraw.Renderer, box chartdraw.Box, x, y chartdraw.Range, _ chartdraw.Style) {
	c, ok := r.(*canvas)
	if !ok {
		return
	}
	o(c, func(vx, vy float64) point {
		return point{float64(box.Left + x.Translate(vx)), float64(box.Bottom - y.Translate(vy))}
	}, box)
	c.ResetStyle()
	c.SetFontSize(textSize)
}

// line is a curve of a chart.
func line(xs, ys []float64, width float64, dash ...float64) chartdraw.Series {
	return chartdraw.ContinuousSeries{
		YAxis: chartdraw.YAxisSecondary, XValues: xs, YValues: ys,
		Style: chartdraw.Style{StrokeColor: ink, StrokeWidth: width, StrokeDashArray: dash},
	}
}

// chart is a plot of curves over two axes.
type chart struct {
	width, height  int
	xName, yName   string
	xTicks, yTicks []chartdraw.Tick
	xLog, yLog     bool
	hideY          bool
	series         []chartdraw.Series
}

// draw has the library lay the chart out and draw it; the drawing is empty where it cannot be drawn.
func (d chart) draw() string {
	label := chartdraw.Style{FontStyle: chartdraw.FontStyle{FontSize: smallSize, FontColor: ink}, StrokeColor: ink, StrokeWidth: thin}
	rule := chartdraw.Style{StrokeColor: grid, StrokeWidth: 1.5}
	c := &canvas{}
	body := chartdraw.Chart{
		Width: d.width, Height: d.height, Font: &truetype.Font{},
		Background: chartdraw.Style{Padding: chartdraw.Box{Top: 40, Left: 8, Right: 30, Bottom: 8, IsSet: true}, FillColor: paper, StrokeColor: paper},
		XAxis: chartdraw.XAxis{
			Name: d.xName, NameStyle: label, Style: label, Ticks: d.xTicks, GridMajorStyle: rule, Range: &scale{log: d.xLog},
		},
		YAxis: chartdraw.YAxis{Style: chartdraw.Hidden(), Range: &chartdraw.ContinuousRange{Min: 0, Max: 1}},
		YAxisSecondary: chartdraw.YAxis{
			AxisType: chartdraw.YAxisSecondary, Style: label, Ticks: d.yTicks, GridMajorStyle: rule, Range: &scale{log: d.yLog},
		},
		Series: d.series,
		Elements: []chartdraw.Renderable{func(r chartdraw.Renderer, _ chartdraw.Box, _ chartdraw.Style) {
			r.SetFontColor(ink)
			r.SetFontSize(smallSize)
			r.Text(d.yName, 8, 22)
		}},
	}
	if d.hideY {
		body.YAxisSecondary.Style.Hidden = true
		body.XAxis.GridMajorStyle = chartdraw.Hidden()
	}
	var out strings.Builder
	if err := body.Render(func(int, int) chartdraw.Renderer { return c }, &out); err != nil {
		return ""
	}
	return out.String()
}

// legend draws samples of curves with their names, one under the other, and reports its height.
func legend(top float64, entries ...legendEntry) (string, float64) {
	c := &canvas{}
	for i, e := range entries {
		y := top + float64(i)*lineHeight
		if e.band {
			c.rectangle(20, y-16, 90, y)
			c.pen(soft, thin, 3, 5)
			c.fill = wash
			c.FillStroke()
		} else {
			c.polyline(point{20, y - 8}, point{90, y - 8})
			c.pen(ink, e.width, e.dash...)
			c.Stroke()
		}
		c.SetFontSize(smallSize)
		c.say(e.name, 104, y, "start")
	}
	return c.body.String(), float64(len(entries)) * lineHeight
}

// legendEntry is one curve of a legend.
type legendEntry struct {
	name  string
	width float64
	dash  []float64
	band  bool
}

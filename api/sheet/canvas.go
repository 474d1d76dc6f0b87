package sheet

import (
	"html/template"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/go-analyze/charts/chartdraw"
	"github.com/go-analyze/charts/chartdraw/drawing"
	"github.com/golang/freetype/truetype"
)

// canvas writes what the charting library draws as SVG that may stand in a page: presentation
// attributes and no style attribute (the page's policy admits none), no font of its own, every text
// escaped. The pages draw on it directly too, where a plot is no chart.
type canvas struct {
	body strings.Builder
	path strings.Builder

	class        string
	stroke, fill drawing.Color
	width        float64
	dash         []float64
	fontSize     float64
	fontColor    drawing.Color
	rotation     float64
}

// units of a drawing for one unit of the page's text: the library counts in whole units, so the
// drawings are twice as large as they are shown.
const (
	textSize   = 24.0
	smallSize  = 21.0
	thin       = 2.0
	medium     = 3.5
	thick      = 6.0
	lineHeight = 27.0
)

// The inks of drawings. Nothing is told by them alone. The contrast with the paper is at least 4.5
// for text and 3 for lines (WCAG 2.1, 1.4.3 and 1.4.11).
var (
	ink   = drawing.Color{R: 0x1a, G: 0x1a, B: 0x1a, A: 255}
	soft  = drawing.Color{R: 0x4a, G: 0x4a, B: 0x4a, A: 255}
	grid  = drawing.Color{R: 0xd4, G: 0xd4, B: 0xd0, A: 255}
	wash  = drawing.Color{R: 0xe6, G: 0xe4, B: 0xdc, A: 255}
	earth = drawing.Color{R: 0x6f, G: 0x5d, B: 0x3c, A: 255}
	paper = drawing.Color{R: 0xff, G: 0xff, B: 0xff, A: 255}
)

func (c *canvas) ResetStyle() {
	c.class, c.stroke, c.fill, c.width, c.dash = "", drawing.Color{}, drawing.Color{}, 0, nil
	c.fontColor, c.rotation = drawing.Color{}, 0
}

func (c *canvas) GetDPI() float64                    { return drawing.DefaultDPI }
func (c *canvas) SetDPI(float64)                     {}
func (c *canvas) SetClassName(name string)           { c.class = name }
func (c *canvas) SetStrokeColor(color drawing.Color) { c.stroke = color }
func (c *canvas) SetFillColor(color drawing.Color)   { c.fill = color }
func (c *canvas) SetStrokeWidth(width float64)       { c.width = width }
func (c *canvas) SetStrokeDashArray(dash []float64)  { c.dash = dash }
func (c *canvas) SetFont(*truetype.Font)             {}
func (c *canvas) SetFontColor(color drawing.Color)   { c.fontColor = color }
func (c *canvas) SetFontSize(size float64)           { c.fontSize = size }
func (c *canvas) SetTextRotation(radians float64)    { c.rotation = radians }
func (c *canvas) ClearTextRotation()                 { c.rotation = 0 }
func (c *canvas) MoveTo(x, y int)                    { c.move('M', float64(x), float64(y)) }
func (c *canvas) LineTo(x, y int)                    { c.move('L', float64(x), float64(y)) }
func (c *canvas) Close()                             { c.path.WriteByte('Z') }
func (c *canvas) Stroke()                            { c.paint(drawing.Color{}, c.stroke) }
func (c *canvas) Fill()                              { c.paint(c.fill, drawing.Color{}) }
func (c *canvas) FillStroke()                        { c.paint(c.fill, c.stroke) }
func (c *canvas) Text(body string, x, y int)         { c.say(body, float64(x), float64(y), "start") }
func (c *canvas) Circle(radius float64, x, y int)    { c.circle(float64(x), float64(y), radius) }
func (c *canvas) MeasureText(text string) chartdraw.Box {
	return chartdraw.Box{Right: int(math.Ceil(c.textWidth(text))), Bottom: int(math.Ceil(c.size() * 0.72)), IsSet: true}
}

// QuadCurveTo draws a quadratic curve.
func (c *canvas) QuadCurveTo(cx, cy, x, y int) {
	c.move('Q', float64(cx), float64(cy))
	c.path.WriteByte(' ')
	c.path.WriteString(number(float64(x)) + " " + number(float64(y)))
}

// ArcTo is not used by any chart of ours; it draws the chord.
func (c *canvas) ArcTo(cx, cy int, rx, ry, startAngle, delta float64) {
	end := startAngle + delta
	c.move('L', float64(cx)+rx*math.Cos(end), float64(cy)+ry*math.Sin(end))
}

// Save writes what was drawn, without the element around it.
func (c *canvas) Save(w io.Writer) error {
	_, err := io.WriteString(w, c.body.String())
	return err
}

// size is the size of text; that of the drawings where none was set.
func (c *canvas) size() float64 {
	if c.fontSize <= 0 {
		return textSize
	}
	return c.fontSize
}

// textWidth guesses the width of a text: the font is the reader's own. The mean width of a character
// of common sans-serif fonts is a little over half its size (common practice).
func (c *canvas) textWidth(text string) float64 {
	return 0.54 * c.size() * float64(len([]rune(text)))
}

// move adds to the path.
func (c *canvas) move(command byte, x, y float64) {
	c.path.WriteByte(command)
	c.path.WriteString(number(x) + " " + number(y))
}

// circle adds a circle to the path.
func (c *canvas) circle(x, y, radius float64) {
	c.move('M', x-radius, y)
	arc := "a" + number(radius) + " " + number(radius) + " 0 1 0 "
	c.path.WriteString(arc + number(2*radius) + " 0" + arc + number(-2*radius) + " 0Z")
}

// polyline adds a line through points.
func (c *canvas) polyline(points ...point) {
	for i, p := range points {
		command := byte('L')
		if i == 0 {
			command = 'M'
		}
		c.move(command, p.x, p.y)
	}
}

// rectangle adds a rectangle to the path.
func (c *canvas) rectangle(left, top, right, bottom float64) {
	c.polyline(point{left, top}, point{right, top}, point{right, bottom}, point{left, bottom})
	c.Close()
}

// point is a place on the canvas.
type point struct{ x, y float64 }

// paint ends the path.
func (c *canvas) paint(fill, stroke drawing.Color) {
	path := c.path.String()
	c.path.Reset()
	if path == "" || fill.A == 0 && (stroke.A == 0 || c.width <= 0) {
		return
	}
	c.body.WriteString(`<path d="` + path + `" fill="` + paintOf(fill) + `"`)
	if fill.A > 0 {
		c.body.WriteString(` fill-rule="evenodd"`)
	}
	if stroke.A > 0 && c.width > 0 {
		c.body.WriteString(` stroke="` + paintOf(stroke) + `" stroke-width="` + number(c.width) + `" stroke-linejoin="round"`)
		if len(c.dash) > 0 {
			parts := make([]string, len(c.dash))
			for i, d := range c.dash {
				parts[i] = number(d)
			}
			c.body.WriteString(` stroke-dasharray="` + strings.Join(parts, " ") + `"`)
		}
	}
	c.body.WriteString("/>\n")
}

// pen sets a line.
func (c *canvas) pen(color drawing.Color, width float64, dash ...float64) {
	c.stroke, c.width, c.dash = color, width, dash
}

// say writes text with its anchor (start, middle or end) at a place, on a halo of paper so that no
// line runs through it.
func (c *canvas) say(text string, x, y float64, anchor string) {
	color := c.fontColor
	if color.A == 0 {
		color = ink
	}
	c.body.WriteString(`<text x="` + number(x) + `" y="` + number(y) + `" font-size="` + number(c.size()) + `" fill="` + paintOf(color) + `"`)
	c.body.WriteString(` stroke="#ffffff" stroke-width="6" stroke-linejoin="round" paint-order="stroke"`)
	if anchor != "start" {
		c.body.WriteString(` text-anchor="` + anchor + `"`)
	}
	if c.rotation != 0 {
		c.body.WriteString(` transform="rotate(` + number(c.rotation*180/math.Pi) + " " + number(x) + " " + number(y) + `)"`)
	}
	c.body.WriteString(">" + template.HTMLEscapeString(text) + "</text>\n")
}

// paintOf writes a color.
func paintOf(color drawing.Color) string {
	if color.A == 0 {
		return "none"
	}
	const hex = "0123456789abcdef"
	out := []byte{'#'}
	for _, v := range []uint8{color.R, color.G, color.B} {
		out = append(out, hex[v>>4], hex[v&15])
	}
	return string(out)
}

// number writes a coordinate. One that is not finite or absurd is held at the edge of any drawing.
func number(x float64) string {
	const far = 1e5
	if math.IsNaN(x) {
		x = 0
	}
	x = math.Round(max(-far, min(far, x))*10) / 10
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// picture is a drawing with its text alternative.
type picture struct {
	id            string // unique on the page; a constant
	width, height int
	title, about  string
	body          string
}

// SVG writes the picture. Its text is escaped here, and its drawing by the canvas.
func (p picture) SVG() template.HTML {
	w, h := strconv.Itoa(p.width), strconv.Itoa(p.height)
	return template.HTML(`<svg xmlns="http://www.w3.org/2000/svg" id="` + p.id + `" viewBox="0 0 ` + w + ` ` + h + //nolint:gosec // escaped
		`" role="img" aria-labelledby="` + p.id + `-title ` + p.id + `-about" font-family="Arial, 'Liberation Sans', Helvetica, sans-serif">` +
		`<title id="` + p.id + `-title">` + template.HTMLEscapeString(p.title) + `</title>` +
		`<desc id="` + p.id + `-about">` + template.HTMLEscapeString(p.about) + `</desc>` + "\n" + p.body + `</svg>`)
}

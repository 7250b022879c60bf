// Package picture draws the invented pictures of the sample catalogues: plain shapes,
// written as SVG or painted as PNG or JPEG.
package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"path"
	"strings"
)

// Size of every picture, in the units of its shapes.
const (
	width  = 320
	height = 200
)

// shape is a polygon, or a circle where r is positive.
type shape struct {
	fill    string // #rrggbb
	points  []float64
	x, y, r float64
}

func polygon(fill string, points ...float64) shape { return shape{fill: fill, points: points} }

func box(fill string, x, y, w, h float64) shape {
	return polygon(fill, x, y, x+w, y, x+w, y+h, x, y+h)
}

func disc(fill string, x, y, r float64) shape { return shape{fill: fill, x: x, y: y, r: r} }

// bar is a straight piece of some thickness.
func bar(fill string, x1, y1, x2, y2, thick float64) shape {
	l := math.Hypot(x2-x1, y2-y1)
	dx, dy := (y2-y1)/l*thick/2, (x1-x2)/l*thick/2
	return polygon(fill, x1+dx, y1+dy, x2+dx, y2+dy, x2-dx, y2-dy, x1-dx, y1-dy)
}

// Names lists the pictures.
func Names() []string {
	var out []string
	for _, d := range drawings() {
		out = append(out, d.name)
	}
	return out
}

// Draw gives the bytes of one of the pictures, in the format of its name.
func Draw(name string) ([]byte, error) {
	for _, d := range drawings() {
		if d.name != name {
			continue
		}
		switch path.Ext(name) {
		case ".svg":
			return svg(d.shapes), nil
		case ".png":
			var b bytes.Buffer
			err := png.Encode(&b, paint(d.shapes, 2))
			return b.Bytes(), err
		case ".jpg":
			var b bytes.Buffer
			err := jpeg.Encode(&b, paint(d.shapes, 3), &jpeg.Options{Quality: 85})
			return b.Bytes(), err
		}
	}
	return nil, fmt.Errorf("no picture is called %s", name)
}

func svg(shapes []shape) []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %d %d\">\n<path fill=%q d=\"M0 0H%dV%dH0z\"/>\n", width, height, paper, width, height)
	for _, s := range shapes {
		if s.r > 0 {
			fmt.Fprintf(&b, "<circle fill=%q cx=\"%.4g\" cy=\"%.4g\" r=\"%.4g\"/>\n", s.fill, s.x, s.y, s.r)
			continue
		}
		fmt.Fprintf(&b, "<path fill=%q d=\"", s.fill)
		for i := 0; i < len(s.points); i += 2 {
			fmt.Fprintf(&b, "%c%.4g %.4g", "ML"[min(i, 1)], s.points[i], s.points[i+1])
		}
		b.WriteString("z\"/>\n")
	}
	b.WriteString("</svg>\n")
	return []byte(b.String())
}

// fine is how many times a pixel is looked at each way.
const fine = 2

// paint gives a picture with so many pixels to the unit.
func paint(shapes []shape, scale int) *image.RGBA {
	shapes = append([]shape{box(paper, 0, 0, width, height)}, shapes...)
	fills := make([]color.RGBA, len(shapes))
	for i, s := range shapes {
		fills[i] = rgb(s.fill)
	}
	m := image.NewRGBA(image.Rect(0, 0, width*scale, height*scale))
	for y := range height * scale {
		for x := range width * scale {
			var sum [3]int
			for k := range fine * fine {
				px := (float64(x) + (float64(k%fine)+.5)/fine) / float64(scale)
				py := (float64(y) + (float64(k/fine)+.5)/fine) / float64(scale)
				c := colourAt(shapes, fills, px, py)
				sum[0], sum[1], sum[2] = sum[0]+int(c.R), sum[1]+int(c.G), sum[2]+int(c.B)
			}
			m.SetRGBA(x, y, color.RGBA{uint8(sum[0] / (fine * fine)), uint8(sum[1] / (fine * fine)), uint8(sum[2] / (fine * fine)), 255})
		}
	}
	return m
}

// colourAt gives the colour of the uppermost shape; the lowest one is everywhere.
func colourAt(shapes []shape, fills []color.RGBA, x, y float64) color.RGBA {
	i := len(shapes) - 1
	for i > 0 && !shapes[i].holds(x, y) {
		i--
	}
	return fills[i]
}

func rgb(hex string) color.RGBA {
	c := color.RGBA{A: 255}
	if _, err := fmt.Sscanf(hex, "#%02x%02x%02x", &c.R, &c.G, &c.B); err != nil {
		panic("picture: no colour: " + hex)
	}
	return c
}

// holds tells whether a point lies in the shape.
func (s shape) holds(x, y float64) bool {
	if s.r > 0 {
		return math.Hypot(x-s.x, y-s.y) <= s.r
	}
	in, n := false, len(s.points)/2
	for i := range n {
		ax, ay := s.points[2*i], s.points[2*i+1]
		bx, by := s.points[2*((i+1)%n)], s.points[2*((i+1)%n)+1]
		if (ay > y) != (by > y) && x < (bx-ax)*(y-ay)/(by-ay)+ax {
			in = !in
		}
	}
	return in
}

package picture

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

const (
	svgSpace   = "http://www.w3.org/2000/svg"
	htmlSpace  = "http://www.w3.org/1999/xhtml"
	mathSpace  = "http://www.w3.org/1998/Math/MathML"
	xlinkSpace = "http://www.w3.org/1999/xlink"
	xmlSpace   = "http://www.w3.org/XML/1998/namespace"
)

// maybeSVG tells whether a file begins as an XML document does.
func maybeSVG(data []byte) bool {
	start := bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\ufeff")), " \t\r\n")
	return bytes.HasPrefix(start, []byte("<"))
}

// plainSVG gives the size of a drawing that holds nothing that acts or refers to
// anything outside it, and draws no more than a browser can show at once.
func plainSVG(data []byte) (width, height int, err error) {
	if !utf8.Valid(data) {
		return 0, 0, errors.New("it is not written in UTF-8")
	}
	d := &sketch{named: map[string]*part{}}
	x := xml.NewDecoder(bytes.NewReader(data))
	for {
		token, err := x.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			return 0, 0, damaged(err)
		}
		if err := d.take(token); err != nil {
			return 0, 0, err
		}
	}
	if d.root == nil {
		return 0, 0, errors.New("it is no SVG: it has no elements")
	}
	if d.width == 0 {
		return 0, 0, errors.New("it does not say how large it is: give it a viewBox")
	}
	return d.width, d.height, d.weigh()
}

// sketch is an SVG while it is read.
type sketch struct {
	root          *part
	open          []*part // the innermost last
	named         map[string]*part
	parts         int
	width, height int     // as it is shown
	area          float64 // in its own units
	sheets        []rule  // of its style elements
	pixels        int     // of the pictures in it
}

// maxNested bounds how deep elements stand in one another; drawings stay below 50.
const maxNested = 200

// take takes the next piece of the file.
func (d *sketch) take(token xml.Token) error {
	switch t := token.(type) {
	case xml.Directive:
		return errors.New("it has a document type, which may define what it likes; save it as plain SVG")
	case xml.ProcInst:
		if t.Target != "xml" {
			return fmt.Errorf("it has an instruction (%s) for whoever reads it; save it as plain SVG", t.Target)
		}
	case xml.StartElement:
		return d.begin(t)
	case xml.EndElement:
		return d.end()
	case xml.CharData:
		if n := len(d.open); n > 0 && d.open[n-1].name == "style" {
			// All pieces of its text are one text, whatever stands between them.
			d.open[n-1].text = append(d.open[n-1].text, t...)
		}
	}
	return nil
}

func (d *sketch) begin(t xml.StartElement) error {
	p, err := d.element(t)
	if err != nil {
		return err
	}
	if d.root == nil {
		if p.name != "svg" {
			return errors.New("it is no SVG: its first element is not svg")
		}
		d.root = p
		d.width, d.height = svgSize(t)
		d.area = boxArea(t)
	}
	if n := len(d.open); n > 0 {
		over := d.open[n-1]
		if over.name == "style" {
			return fmt.Errorf("its styles hold an element (%.40s), where only text can be", t.Name.Local)
		}
		over.inside = append(over.inside, p)
		p.scale *= over.scale * min(1, boxScale(t, d.area))
	}
	if d.open = append(d.open, p); len(d.open) > maxNested {
		return fmt.Errorf("its elements stand in one another more than %d deep", maxNested)
	}
	d.parts++
	if p.id != "" && d.named[p.id] == nil {
		d.named[p.id] = p
	}
	return nil
}

func (d *sketch) end() error {
	last := len(d.open) - 1
	p := d.open[last]
	d.open = d.open[:last]
	if p.name != "style" {
		return nil
	}
	rules, err := sheet(string(p.text))
	d.sheets = append(d.sheets, rules...)
	return err
}

// svgSize gives the size of a drawing: the one that it states, else that of its
// viewBox; 0 where it states none. It only has to have the right shape.
func svgSize(root xml.StartElement) (width, height int) {
	w, h := statedSize(root)
	if !(w >= 1 && h >= 1) {
		if _, _, bw, bh, ok := viewBox(root); ok {
			w, h = bw, bh
		}
	}
	if !(w > 0 && h > 0) || w > 1e6 || h > 1e6 || w/h > 100 || h/w > 100 {
		return 0, 0
	}
	if scale := 960 / w; w > 960 || w < 48 {
		w, h = w*scale, h*scale
	}
	return int(math.Round(w)), max(1, int(math.Round(h)))
}

func statedSize(t xml.StartElement) (w, h float64) {
	return number(plainAttr(t, "width")), number(plainAttr(t, "height"))
}

// number reads a length in units of the drawing; 0 where it is none.
func number(text string) float64 {
	f, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(text), "px"), 64)
	if err != nil || math.IsInf(f, 0) || math.IsNaN(f) {
		return 0
	}
	return f
}

func viewBox(t xml.StartElement) (x, y, w, h float64, ok bool) {
	box := strings.FieldsFunc(plainAttr(t, "viewBox"), func(r rune) bool { return strings.ContainsRune(" ,\n\t\r", r) })
	if len(box) != 4 {
		return 0, 0, 0, 0, false
	}
	return number(box[0]), number(box[1]), number(box[2]), number(box[3]), true
}

// boxArea gives how much of its own units a drawing shows.
func boxArea(t xml.StartElement) float64 {
	if _, _, w, h, ok := viewBox(t); ok && w*h > 0 {
		return w * h
	}
	w, h := statedSize(t)
	return w * h
}

// boxScale gives by how much a part with a viewBox of its own is made smaller at most.
func boxScale(t xml.StartElement, area float64) float64 {
	if _, _, w, h, ok := viewBox(t); ok && w*h > 0 {
		return area / (w * h)
	}
	return 1
}

// plainAttr gives an attribute without a namespace, "" where there is none.
func plainAttr(t xml.StartElement, name string) string {
	for _, a := range t.Attr {
		if a.Name.Space == "" && a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

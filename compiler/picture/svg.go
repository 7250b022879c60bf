package picture

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

const (
	svgSpace  = "http://www.w3.org/2000/svg"
	htmlSpace = "http://www.w3.org/1999/xhtml"
	mathSpace = "http://www.w3.org/1998/Math/MathML"
)

// svgParts are the elements of a plain drawing.
var svgParts = []string{"svg", "g", "defs", "symbol", "use", "title", "desc", "metadata", "switch", "style",
	"path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text", "tspan", "textPath", "image",
	"linearGradient", "radialGradient", "stop", "pattern", "clipPath", "mask", "marker", "view"}

// maybeSVG tells whether a file begins as an XML document does.
func maybeSVG(data []byte) bool {
	start := bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\ufeff")), " \t\r\n")
	return bytes.HasPrefix(start, []byte("<"))
}

// plainSVG gives the size of a drawing that holds nothing that acts or refers to
// anything outside it.
func plainSVG(data []byte) (width, height int, err error) {
	if !utf8.Valid(data) {
		return 0, 0, errors.New("it is not written in UTF-8")
	}
	d := xml.NewDecoder(bytes.NewReader(data))
	root := true
	style := 0 // open style elements
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			return 0, 0, damaged(err)
		}
		switch t := token.(type) {
		case xml.Directive:
			return 0, 0, errors.New("it has a document type, which may define what it likes; save it as plain SVG")
		case xml.ProcInst:
			if t.Target != "xml" {
				return 0, 0, fmt.Errorf("it has an instruction (%s) for whoever reads it; save it as plain SVG", t.Target)
			}
		case xml.StartElement:
			if err := plainElement(t); err != nil {
				return 0, 0, err
			}
			if root {
				if t.Name.Local != "svg" || t.Name.Space != svgSpace {
					return 0, 0, errors.New("it is no SVG: its first element is not svg")
				}
				width, height = svgSize(t)
				root = false
			}
			if t.Name.Local == "style" {
				style++
			}
		case xml.EndElement:
			if t.Name.Local == "style" {
				style--
			}
		case xml.CharData:
			if style > 0 {
				if err := plainStyle(string(t)); err != nil {
					return 0, 0, err
				}
			}
		}
	}
	switch {
	case root:
		return 0, 0, errors.New("it is no SVG: it has no elements")
	case width == 0:
		return 0, 0, errors.New("it does not say how large it is: give it a viewBox")
	}
	return width, height, nil
}

func plainElement(t xml.StartElement) error {
	switch {
	case t.Name.Space == htmlSpace, t.Name.Space == mathSpace:
		return fmt.Errorf("it holds %s, which is no part of a drawing", t.Name.Local)
	case t.Name.Space == svgSpace && !slices.Contains(svgParts, t.Name.Local):
		return fmt.Errorf("it holds %s, and only a plain drawing is published; save it as plain SVG", t.Name.Local)
	}
	for _, a := range t.Attr {
		value := strings.TrimSpace(a.Value)
		switch name := strings.ToLower(a.Name.Local); {
		case a.Name.Space == "xmlns", name == "xmlns":
		case strings.HasPrefix(name, "on") && t.Name.Space == svgSpace:
			return fmt.Errorf("it holds %s, a script", a.Name.Local)
		case name == "base":
			return errors.New("it refers to something outside it (base)")
		case name == "href" || name == "src":
			if !strings.HasPrefix(value, "#") && !(t.Name.Local == "image" && inlineImage(value)) {
				return fmt.Errorf("it refers to something outside it (%.60s)", value)
			}
		default:
			if err := plainStyle(value); err != nil {
				return err
			}
		}
	}
	return nil
}

// inlineImage tells whether an address holds a picture itself, in a form that cannot
// act.
func inlineImage(address string) bool {
	for _, kind := range []string{"png", "jpeg", "webp", "gif"} {
		if strings.HasPrefix(address, "data:image/"+kind+";base64,") {
			return true
		}
	}
	return false
}

// plainStyle judges a text that may hold styles: it must refer to nothing outside. A
// backslash could write the words that are looked for in another way.
func plainStyle(text string) error {
	low := strings.ToLower(text)
	if strings.Contains(low, "@import") || strings.Contains(low, "javascript:") || strings.Contains(low, `\`) {
		return errors.New("its styles refer to something outside it")
	}
	for rest := low; ; {
		_, after, found := strings.Cut(rest, "url(")
		if !found {
			return nil
		}
		if !strings.HasPrefix(strings.TrimLeft(after, ` "'`), "#") {
			return errors.New("its styles refer to something outside it")
		}
		rest = after
	}
}

// svgSize gives the size of a drawing: the one that it states, else that of its
// viewBox; 0 where it states none. It only has to have the right shape.
func svgSize(root xml.StartElement) (width, height int) {
	var w, h float64
	for _, a := range root.Attr {
		switch a.Name.Local {
		case "width":
			w, _ = strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(a.Value), "px"), 64)
		case "height":
			h, _ = strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(a.Value), "px"), 64)
		}
	}
	if !(w >= 1 && h >= 1) {
		for _, a := range root.Attr {
			if box := strings.FieldsFunc(a.Value, func(r rune) bool { return r == ' ' || r == ',' || r == '\n' || r == '\t' }); a.Name.Local == "viewBox" && len(box) == 4 {
				w, _ = strconv.ParseFloat(box[2], 64)
				h, _ = strconv.ParseFloat(box[3], 64)
			}
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

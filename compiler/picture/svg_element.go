package picture

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"fmt"
	"image"
	_ "image/gif" // pictures inside drawings
	"net/url"
	"slices"
	"strings"
)

// svgParts are the elements of a plain drawing (SVG 2, appendix F, without what acts, moves,
// filters or fetches).
var svgParts = []string{"svg", "g", "defs", "symbol", "use", "title", "desc", "metadata", "switch", "style",
	"path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text", "tspan", "textPath", "image",
	"linearGradient", "radialGradient", "stop", "pattern", "clipPath", "mask", "marker", "view"}

// svgTexts are attributes that are no styles, so that anything can stand in them.
var svgTexts = []string{"id", "class", "d", "points", "lang", "role", "name", "version", "baseProfile", "content"}

// maxClasses bounds the classes of one element.
const maxClasses = 100

// part is an element of a drawing with what it draws besides itself.
type part struct {
	name    string // "" for one of another namespace
	id      string
	classes []string
	inside  []*part
	refs    []ref
	corners int     // how often a marker stands on its line
	scale   float64 // of areas, by its own transform and those around it
	text    []byte  // of a style
	tile    tile
	dash    float64 // the length of a dash with its gap, 0 where lines are whole

	weight int
	state  uint8 // of weighing
}

// ref is another part that is drawn as well.
type ref struct {
	id     string
	marker bool // once for each corner of its line
	takes  bool // what the other says of itself, where this one does not
}

// element judges an element and its attributes, each by a list of what may be there.
func (d *sketch) element(t xml.StartElement) (*part, error) {
	p := &part{scale: 1}
	switch {
	case t.Name.Space == htmlSpace, t.Name.Space == mathSpace:
		return nil, fmt.Errorf("it holds %s, which is no part of a drawing", t.Name.Local)
	case t.Name.Space != svgSpace: // what a drawing program keeps for itself
	case !slices.Contains(svgParts, t.Name.Local):
		return nil, fmt.Errorf("it holds %s, and only a plain drawing is published; save it as plain SVG", t.Name.Local)
	default:
		p.name = t.Name.Local
	}
	for _, a := range t.Attr {
		if err := d.attribute(p, a); err != nil {
			return nil, err
		}
	}
	if p.name == "pattern" {
		p.tile = tileOf(t)
	}
	return p, nil
}

// attribute judges an attribute and keeps what it refers to.
func (d *sketch) attribute(p *part, a xml.Attr) error {
	name, value := a.Name.Local, strings.TrimSpace(a.Value)
	low := strings.ToLower(name)
	switch {
	case a.Name.Space == "xmlns", name == "xmlns":
		return nil
	case low == "base":
		return errors.New("it refers to something outside it (base)")
	case low == "href" || low == "src":
		return d.address(p, a, value)
	case a.Name.Space != "", p.name == "": // known to drawing programs alone
		return nil
	case strings.HasPrefix(low, "on"):
		return fmt.Errorf("it holds %s, a script", name)
	case name == "id":
		p.id = value
	case name == "class":
		if p.classes = strings.Fields(value); len(p.classes) > maxClasses {
			return fmt.Errorf("an element of it has more than %d classes", maxClasses)
		}
	case name == "d" || name == "points":
		p.corners = corners(value)
	case slices.Contains(svgTexts, name), strings.HasPrefix(low, "data-"), strings.HasPrefix(low, "aria-"):
	default:
		return p.styled(name, value)
	}
	return nil
}

// styled takes an attribute whose value is read as a style.
func (p *part) styled(name, value string) error {
	found, err := values(value, name == "style")
	if err != nil {
		return err
	}
	for _, r := range found.refs {
		p.refs = append(p.refs, ref{id: r, marker: found.marker || strings.HasPrefix(name, "marker")})
	}
	if name == "transform" || name == "style" {
		p.scale *= areaScale(value)
	}
	if dash := dashOf(name, value); dash > 0 {
		p.dash = dash
	}
	return nil
}

// address judges an address: a part of the drawing, or a picture that is written out.
func (d *sketch) address(p *part, a xml.Attr, value string) error {
	switch id, local := strings.CutPrefix(value, "#"); {
	case local:
		if p.name == "use" || p.name == "pattern" {
			p.refs = append(p.refs, ref{id: id, takes: p.name == "pattern"})
		}
		return nil
	case p.name == "image" && inlineImage(value):
		if d.pixels += pixelsOf(value); d.pixels > maxPixels {
			return fmt.Errorf("the pictures in it have more than %d million pixels", maxPixels/1_000_000)
		}
		return nil
	case value == "" || p.name == "" && a.Name.Space != xlinkSpace && a.Name.Space != "":
		return nil
	}
	return fmt.Errorf("it refers to something outside it (%.60s)", value)
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

// pixelsOf gives how many pixels a picture has that is written out; 0 where it is none.
func pixelsOf(address string) int {
	_, text, _ := strings.Cut(address, ",")
	if plain, err := url.PathUnescape(text); err == nil {
		text = plain
	}
	text = strings.TrimRight(strings.Join(strings.Fields(text), ""), "=")
	data, err := base64.RawStdEncoding.DecodeString(text)
	if err != nil {
		return 0
	}
	w, h := 0, 0
	if len(data) > 12 && string(data[8:12]) == "WEBP" {
		if _, w, h, err = plainWebP(data); err != nil {
			return 0
		}
	} else if config, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil {
		w, h = config.Width, config.Height
	}
	if w <= 0 || h <= 0 {
		return 0
	}
	return min(w, maxPixels+1) * min(h, maxPixels+1)
}

// corners counts the pairs of numbers in a line, about.
func corners(line string) int {
	n, in := 0, false
	for i := range len(line) {
		c := line[i]
		digit := c >= '0' && c <= '9' || c == '.'
		if (digit || c == '-' || c == '+') && !in || in && (c == '-' || c == '+') {
			n++
		}
		in = digit || c == '-' || c == '+' || in && c == 'e'
	}
	return n // curves and single coordinates make as many corners at most
}

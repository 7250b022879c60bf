package picture

import (
	"encoding/xml"
	"fmt"
	"math"
	"strings"
)

// maxTiles bounds how often the tile of one pattern is laid over the whole drawing, and how
// many dashes a line has that goes round it.
const maxTiles = 1_000_000

// tile is how a pattern is laid, as it says itself; "" where the pattern that it refers to
// says so.
type tile struct{ width, height, units, transform string }

func tileOf(t xml.StartElement) tile {
	return tile{plainAttr(t, "width"), plainAttr(t, "height"), plainAttr(t, "patternUnits"), plainAttr(t, "patternTransform")}
}

// laid gives the tile of a pattern with what it takes from those that it refers to.
func (d *sketch) laid(p *part) tile {
	out := p.tile
	const far = 20 // patterns that one refers to; a longer way is no drawing's
	for range far {
		next := d.refersTo(p)
		if next == nil {
			break
		}
		p = next
		out.width, out.height = first(out.width, p.tile.width), first(out.height, p.tile.height)
		out.units, out.transform = first(out.units, p.tile.units), first(out.transform, p.tile.transform)
	}
	return out
}

func (d *sketch) refersTo(p *part) *part {
	for _, r := range p.refs {
		if to := d.named[r.id]; to != nil && to.name == "pattern" && r.takes {
			return to
		}
	}
	return nil
}

func first(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// tiles gives how often a tile is laid over an area in units of the drawing.
func (t tile) tiles(area float64) float64 {
	w, wShare := side(t.width)
	h, hShare := side(t.height)
	one := math.Abs(w*h) * areaScale(t.transform)
	switch {
	case one == 0 && (w == 0 || h == 0): // is not laid at all
		return 0
	case t.units != "userSpaceOnUse", wShare && hShare:
		return 1 / one
	case wShare || hShare:
		return math.Sqrt(area) / one
	}
	return area / one
}

// side reads a length; share tells that it is one of what is filled.
func side(text string) (length float64, share bool) {
	if of, ok := strings.CutSuffix(strings.TrimSpace(text), "%"); ok {
		return number(of) / 100, true
	}
	return number(text), false
}

// weighTiles bounds patterns and dashes, however small they are scaled anywhere.
func (d *sketch) weighTiles() error {
	least, all := 1.0, d.all(d.root, nil)
	for _, p := range all {
		least = min(least, p.scale)
	}
	for _, r := range d.sheets {
		least = min(least, least*r.scale)
	}
	for _, p := range all {
		if p.name == "pattern" && !(d.laid(p).tiles(d.area/least) <= maxTiles) {
			return fmt.Errorf("the tile of a pattern in it (%.40s) is so small that it is laid more than %d times; make it larger", p.id, maxTiles)
		}
		if err := d.dashed(p.dash, least); err != nil {
			return err
		}
	}
	for _, r := range d.sheets {
		if err := d.dashed(r.dash, least); err != nil {
			return err
		}
	}
	return nil
}

func (d *sketch) dashed(dash, least float64) error {
	if dash > 0 && !(4*math.Sqrt(d.area/least)/dash <= maxTiles) {
		return fmt.Errorf("its lines have dashes so short that there are more than %d of them; make them longer", maxTiles)
	}
	return nil
}

// all gives a part and all inside it.
func (d *sketch) all(p *part, to []*part) []*part {
	to = append(to, p)
	for _, in := range p.inside {
		to = d.all(in, to)
	}
	return to
}

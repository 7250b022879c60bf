package sheets

import (
	"encoding/xml"
	"strconv"
	"strings"
)

// fill and ink are the colours of a cell and of its type, in words that are equal for
// equal ones; "" is the usual: no fill, or white, and black type.

// takeFill gathers a piece of a fill.
func (s *styleSheet) takeFill(m *markup, path string, t xml.StartElement) error {
	if path == "styleSheet/fills/fill" {
		s.fills = append(s.fills, fill{})
		return s.bounded(m, len(s.fills), "fills")
	}
	if len(s.fills) == 0 {
		return nil
	}
	f := &s.fills[len(s.fills)-1]
	switch path {
	case "styleSheet/fills/fill/patternFill":
		f.pattern, _ = attr(t, "patternType")
		f.pattern = brief(f.pattern)
	case "styleSheet/fills/fill/patternFill/fgColor":
		f.front = colour(t)
	case "styleSheet/fills/fill/patternFill/bgColor":
		f.back = colour(t)
	case "styleSheet/fills/fill/gradientFill", "styleSheet/fills/fill/gradientFill/stop/color":
		if f.stops++; f.stops > maxStops {
			return m.fault("a fill in it has more than %d colours", maxStops)
		}
		f.pattern, f.front = "gradient", f.front+" "+colour(t)
	}
	return nil
}

// fill is how a cell is filled.
type fill struct {
	pattern, front, back string
	stops                int // of a gradient
}

// words gives "" for a fill that cannot be seen on white paper.
func (f fill) words() string {
	switch f.pattern {
	case "", "none":
		return ""
	case "solid":
		if white(f.front) {
			return ""
		}
		return f.front
	}
	return f.pattern + " " + f.front + " " + f.back
}

// takeInk gathers what a font says of its colour. Links are blue and underlined
// by themselves, which says nothing.
func (s *styleSheet) takeInk(path string, t xml.StartElement) {
	if len(s.inks) == 0 {
		return
	}
	ink := &s.inks[len(s.inks)-1]
	switch path {
	case "styleSheet/fonts/font/color":
		ink.colour = colour(t)
	case "styleSheet/fonts/font/u":
		ink.link = true
	}
}

type ink struct {
	colour string
	link   bool
}

func (i ink) words() string {
	switch i.colour {
	case "auto", "theme 1", "indexed 8", "indexed 0", "indexed 64", "000000":
		return ""
	}
	if i.link {
		return ""
	}
	return i.colour
}

func white(c string) bool {
	switch c {
	case "auto", "theme 0", "indexed 1", "indexed 9", "indexed 64", "indexed 65", "FFFFFF":
		return true
	}
	return false
}

// colour says which colour an element names, without how it may be seen through.
func colour(t xml.StartElement) string {
	tint, _ := attr(t, "tint")
	if n, err := strconv.ParseFloat(tint, 64); err != nil || n == 0 {
		tint = ""
	}
	for _, by := range []string{"rgb", "theme", "indexed"} {
		v, ok := attr(t, by)
		switch {
		case !ok:
			continue
		case by == "rgb" && len(v) == 8:
			v = strings.ToUpper(v[2:])
		case by != "rgb":
			v = by + " " + v
		}
		return strings.TrimSpace(brief(v) + " " + brief(tint))
	}
	return "auto"
}

// mostLooks is how many looks are told apart; all others are one.
const mostLooks = 254

// looker numbers looks, 0 for the usual one.
type looker map[[2]string]uint8

func (l looker) number(fill, ink string) uint8 {
	key := [2]string{fill, ink}
	if key == [2]string{} {
		return 0
	}
	n, ok := l[key]
	if !ok {
		n = uint8(min(len(l), mostLooks) + 1)
		l[key] = n
	}
	return n
}

// FillOf says how a cell format of that number fills cells, in words that are equal for equal
// fills; "" for none, or white, and "another" where a workbook has more than are told apart.
func (b *Book) FillOf(style int) string {
	if style < 0 || style >= len(b.packed().styles) {
		return ""
	}
	return b.FillOfLook(b.packed().styles[style].look)
}

// FillOfLook says how cells of a look are filled, as FillOf does.
func (b *Book) FillOfLook(look uint8) string {
	if look > mostLooks {
		return "another"
	}
	for key, n := range b.packed().looks {
		if n == look {
			return key[0]
		}
	}
	return ""
}

// LookWith gives the look of cells that have the type of a look, filled otherwise. One that no cell
// format has is the one that is not told apart.
func (b *Book) LookWith(look uint8, fill string) uint8 {
	var ink string
	for key, n := range b.packed().looks {
		if n == look {
			ink = key[1]
		}
	}
	key := [2]string{fill, ink}
	if key == [2]string{} {
		return 0
	}
	if n, ok := b.packed().looks[key]; ok {
		return n
	}
	return mostLooks + 1
}

// Filled tells whether a cell format of the workbook fills cells in a way that is asked for.
func (b *Book) Filled(so func(fill string) bool) bool {
	for key := range b.packed().looks {
		if so(key[0]) {
			return true
		}
	}
	return false
}

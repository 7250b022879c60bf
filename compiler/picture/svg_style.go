package picture

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
)

// svgFunctions are the functions that values of styles may call (CSS Values, Color,
// Transforms, Shapes and Easing), and those of selectors. None of them takes an address;
// url is judged by itself.
var svgFunctions = []string{"rgb", "rgba", "hsl", "hsla", "hwb", "lab", "lch", "oklab", "oklch", "color",
	"calc", "min", "max", "clamp", "var", "rect", "inset", "circle", "ellipse", "polygon",
	"matrix", "translate", "translatex", "translatey", "scale", "scalex", "scaley", "rotate", "skewx", "skewy", "skew",
	"cubic-bezier", "steps", "not", "is", "where", "nth-child", "nth-of-type", "lang"}

var errOutside = errors.New("its styles refer to something outside it")

// judged is what a text of styles refers to.
type judged struct {
	refs   []string
	marker bool // some of them for markers
}

// values judges a text that is read as values of styles, or as declarations: what it calls
// must be on the list, and what it refers to must be parts of the drawing. Comments and texts
// in quotes are judged like all else, since either may be made to look like the other, and
// nothing that could write a word in another way, an escape, gets by.
func values(text string, declarations bool) (out judged, err error) {
	if at := strings.IndexAny(text, "\\<@"); at >= 0 {
		return out, fmt.Errorf("its styles hold %q, by which they could refer to something outside it; save it as plain SVG", text[at:at+1])
	}
	if strings.Contains(strings.ToLower(text), "javascript:") {
		return out, errOutside
	}
	if declarations && scaled.MatchString(text) {
		return out, errors.New("its styles scale it; save it as plain SVG")
	}
	low := strings.ToLower(text)
	out.marker = declarations && strings.Contains(low, "marker")
	for at := strings.IndexByte(low, '('); at >= 0; {
		name := wordBefore(low[:at])
		switch {
		case name == "url":
			id, ok := localID(text[at+1:])
			if !ok {
				return out, errOutside
			}
			out.refs = append(out.refs, id)
		case name != "" && !slices.Contains(svgFunctions, name):
			return out, fmt.Errorf("its styles use %s(), and only a plain drawing is published; save it as plain SVG", name)
		}
		next := strings.IndexByte(low[at+1:], '(')
		if next < 0 {
			break
		}
		at += 1 + next
	}
	return out, nil
}

// wordBefore gives the word that a text ends with: letters, digits, - and _, and whatever
// is not ASCII, as names in styles have them.
func wordBefore(text string) string {
	i := len(text)
	for i > 0 {
		c := text[i-1]
		if !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-' || c == '_' || c >= 0x80) {
			break
		}
		i--
	}
	return text[i:]
}

// localID reads #name behind "url(", with quotes or without.
func localID(text string) (id string, ok bool) {
	const most = 1000 // bytes of a name
	inside, _, found := strings.Cut(text[:min(len(text), most)], ")")
	id, local := strings.CutPrefix(strings.Trim(inside, " \t\r\n\f\"'"), "#")
	return id, found && local
}

// rule is what a style sheet says of some elements.
type rule struct {
	selectors []selector
	refs      []ref
	scale     float64
	dash      float64
}

// selector is what an element must have to be meant; more may be asked of it.
type selector struct {
	tag, id string // "" for any
	classes []string
}

func (s selector) means(p *part) bool {
	return (s.tag == "" || s.tag == p.name) && (s.id == "" || s.id == p.id) &&
		!slices.ContainsFunc(s.classes, func(c string) bool { return !slices.Contains(p.classes, c) })
}

// sheet judges the text of a style element.
func sheet(text string) ([]rule, error) {
	text = charset.ReplaceAllString(strings.NewReplacer("<!--", "", "-->", "").Replace(text), "")
	text = media.ReplaceAllString(text, "$1") // its condition is judged like all else
	if _, err := values(text, true); err != nil {
		return nil, err
	}
	var out []rule
	for block := range strings.SplitSeq(text, "}") {
		at := strings.LastIndexByte(block, '{')
		if at < 0 {
			continue
		}
		found, err := values(block[at+1:], true)
		if err != nil {
			return nil, err
		}
		r := rule{scale: areaScale(block[at+1:]), dash: dashOf("style", block[at+1:])}
		for _, id := range found.refs {
			r.refs = append(r.refs, ref{id: id, marker: found.marker})
		}
		if len(r.refs) == 0 && r.scale == 1 && r.dash == 0 {
			continue
		}
		head := block[strings.LastIndexByte(block[:at], '{')+1 : at]
		for one := range strings.SplitSeq(head, ",") {
			r.selectors = append(r.selectors, selectorOf(one))
		}
		out = append(out, r)
	}
	return out, nil
}

// selectorOf reads the last compound of a selector.
func selectorOf(text string) (s selector) {
	text = strings.TrimSpace(text)
	if at := strings.LastIndexAny(text, " \t\n\r>+~"); at >= 0 {
		text = text[at+1:]
	}
	if strings.ContainsAny(text, ":[(|/*") {
		return selector{} // may mean any
	}
	for _, word := range words.FindAllString(text, maxClasses+1) {
		switch {
		case word[0] == '.':
			s.classes = append(s.classes, word[1:])
		case word[0] == '#':
			s.id = word[1:]
		case word != "*":
			s.tag = word
		}
	}
	if len(s.classes) > maxClasses {
		return selector{}
	}
	return s
}

var (
	scaling = regexp.MustCompile(`(?i)\b(scale|scalex|scaley|matrix)\s*\(([^()]*)\)`)
	dashes  = regexp.MustCompile(`(?i)stroke-dasharray\s*:([^;}]*)`)
	media   = regexp.MustCompile(`(?i)(^|[{};\s])@media\b`)
	charset = regexp.MustCompile(`(?i)^\s*@charset\s+"[-\w]*"\s*;`)
	words   = regexp.MustCompile(`[.#]?[^.#]+`)
	scaled  = regexp.MustCompile(`(?i)(^|[;{\s])(scale|zoom)\s*:`)
	amount  = regexp.MustCompile(`[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?`)
)

// areaScale gives by how much transforms make areas larger or smaller.
func areaScale(text string) float64 {
	out := 1.0
	for _, m := range scaling.FindAllStringSubmatch(text, -1) {
		var n []float64
		for _, word := range amount.FindAllString(m[2], -1) {
			n = append(n, number(word))
		}
		switch name := strings.ToLower(m[1]); {
		case name == "matrix" && len(n) == 6:
			out *= math.Abs(n[0]*n[3] - n[1]*n[2])
		case name == "scale" && len(n) == 1:
			out *= n[0] * n[0]
		case name == "scale" && len(n) == 2:
			out *= math.Abs(n[0] * n[1])
		case len(n) == 1:
			out *= math.Abs(n[0])
		}
	}
	return out
}

// dashOf gives the length of a dash with its gap, by an attribute or a style; 0 where there
// is none.
func dashOf(name, value string) float64 {
	switch name {
	case "stroke-dasharray":
		return sum(value)
	case "style":
		least := 0.0
		for _, m := range dashes.FindAllStringSubmatch(value, -1) {
			if n := sum(m[1]); n > 0 && (least == 0 || n < least) {
				least = n
			}
		}
		return least
	}
	return 0
}

func sum(text string) (all float64) {
	for _, word := range amount.FindAllString(text, -1) {
		all += number(word)
	}
	return all
}

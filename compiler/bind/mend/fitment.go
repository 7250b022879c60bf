package mend

import (
	"fmt"
	"regexp"
	"strings"
)

// Fitment is what there is to know of a catalogue where a fitment cell is mended.
type Fitment struct {
	Find  func(number string) (string, bool) // a number as it is declared
	Alike func(number string) string         // the one number that differs in spaces, hyphens and look-alikes only, or ""
	Near  func(number string) string         // the nearest number that may be meant, or ""
	Reads func(cell string) bool             // whether a cell reads, all of its names declared
	Most  int                                // the largest quantity
}

// The joints between parts. What may be a choice or not is open until it is written.
const open = "\x00"

var joints = []struct {
	at *regexp.Regexp
	as string
}{
	{regexp.MustCompile(`(?i)[\s\p{Z}]+or[\s\p{Z}]+`), " or "},
	{regexp.MustCompile(`[,;\n\r|]+`), open},
	{regexp.MustCompile(`(?i)\s+and\s+|\s*&\s*`), open},
	{regexp.MustCompile(`(?i)\s+(?:with|w/|plus)\s*`), " + "},
	{regexp.MustCompile(`\s*\+\s*`), " + "},
	{regexp.MustCompile(`\s*/\s*|\s*\\\s*`), open},
}

var together = regexp.MustCompile(`(?i)\s+and\s+|&`)

// reading is a cell taken apart: its parts, the joints between them and the remarks.
type reading struct {
	text    string // with open for the joints that may be one or the other
	items   []item
	remarks []string
}

// Advise says what to write in place of a cell that does not read; false where the cell
// shows nothing of what was meant.
func (f Fitment) Advise(text string) (Advice, bool) {
	text = strings.TrimSpace(text)
	if broken.MatchString(folded(text)) {
		return f.word(text)
	}
	if a, ok := f.replaced(text); ok {
		return a, true
	}
	if a, ok := f.run(text); ok {
		return a, true
	}
	if r, ok := f.read(text, 0); ok {
		if a, ok := f.phrase(text, r); ok {
			return a, true
		}
	}
	if a, ok := f.word(text); ok {
		return a, true
	}
	return f.unnamed(text)
}

// deepest bounds how often a cell is taken apart: no cell that people write is deeper.
const deepest = 6

func (f Fitment) read(text string, depth int) (reading, bool) {
	if it, ok := f.exact(text); ok {
		return reading{text: it.text, items: []item{it}}, true
	}
	for _, j := range joints {
		if depth == deepest {
			break
		}
		pieces := split(text, j.at)
		if len(pieces) == 1 {
			continue
		}
		if r, ok := f.joined(pieces, j.as, depth+1); ok {
			return r, true
		}
	}
	if it, remark, ok := f.loose(text); ok {
		r := reading{text: it.text, items: []item{it}}
		if remark != "" {
			r.remarks = []string{remark}
		}
		return r, true
	}
	return reading{}, false
}

// joined reads pieces that a joint parts. A piece that is only the end of a number goes on
// from the piece before it: NR-140/141.
func (f Fitment) joined(pieces []string, joint string, depth int) (reading, bool) {
	var out reading
	for _, p := range pieces {
		if p = strings.TrimSpace(p); p == "" {
			continue
		}
		r, ok := f.read(p, depth)
		if !ok && len(out.items) > 0 {
			r, ok = f.goesOn(out.items[len(out.items)-1], p)
		}
		if !ok {
			return reading{}, false
		}
		if out.text != "" {
			out.text += joint
		}
		out.text += r.text
		out.items, out.remarks = append(out.items, r.items...), append(out.remarks, r.remarks...)
	}
	return out, len(out.items) > 1
}

// goesOn completes the end of a number with the beginning of the number before it.
func (f Fitment) goesOn(before item, end string) (reading, bool) {
	n := before.number
	for _, head := range []int{len(n) - len(end), strings.LastIndexAny(n, "-_. /") + 1} {
		if head <= 0 || head > len(n) || strings.Trim(end, "0123456789") != "" && head == len(n)-len(end) {
			continue
		}
		if it, ok := f.exact(n[:head] + end); ok {
			it.spelt = end
			return reading{text: it.text, items: []item{it}}, true
		}
	}
	return reading{}, false
}

// phrase puts a reading into words. What it says to write is read first.
func (f Fitment) phrase(text string, r reading) (Advice, bool) {
	a := Advice{Aside: distinct(r.remarks), Name: len(r.remarks) == 0}
	ways := []string{" or ", " + "}
	if together.MatchString(text) {
		ways = []string{" + ", " or "}
	}
	for _, by := range ways {
		if w := strings.ReplaceAll(r.text, open, by); f.Reads(w) {
			a.Write = append(a.Write, w)
		}
	}
	if a.Write = distinct(a.Write); len(a.Write) == 0 {
		return Advice{}, false
	}
	a.Says = whys(text, r) + write(a.Write, ways[0] == " or ") + aside(a.Aside)
	return a, true
}

func write(cells []string, choiceFirst bool) string {
	if len(cells) == 1 {
		return "write " + cells[0]
	}
	what := []string{"for a choice", "for parts fitted together"}
	if !choiceFirst {
		what[0], what[1] = what[1], what[0]
	}
	return fmt.Sprintf("write %q %s, or %q %s", cells[0], what[0], cells[1], what[1])
}

// aside says where the remarks of a cell belong.
func aside(remarks []string) string {
	if len(remarks) == 0 {
		return ""
	}
	return fmt.Sprintf(", and put %s into a column of notes (the position's name and note), or under the trait or the years that it is about", quoted(remarks, " and "))
}

// whys says what had to be put right.
func whys(text string, r reading) string {
	var out []string
	for _, it := range r.items {
		if it.counted {
			out = append(out, "a quantity stands before the part, with x and a space")
		}
		if it.spelt != "" && it.spelt != text {
			out = append(out, fmt.Sprintf("%q is taken for %s", it.spelt, it.number))
		}
	}
	if len(r.remarks) > 0 {
		out = append(out, "a fitment cell takes numbers of parts and no remarks")
	}
	switch {
	case !strings.Contains(r.text, open):
	case strings.ContainsAny(text, "\n\r"):
		out = append(out, "a line break between parts may mean a choice or both")
	default:
		out = append(out, "what stands between the parts may mean a choice or both")
	}
	if len(out) == 0 {
		return ""
	}
	return strings.Join(distinct(out), ", and ") + ": "
}

// unnamed reads a quantity that stands before or behind a number that nothing declares,
// otherwise than it should: of one that is written well there is nothing to say here.
func (f Fitment) unnamed(text string) (Advice, bool) {
	text = strings.Join(strings.Fields(text), " ")
	if proper.MatchString(text) {
		return Advice{}, false
	}
	number, quantity := "", ""
	if m := countBefore.FindStringSubmatch(text); m != nil {
		quantity, number = m[1], m[2]
	} else if m := countBehind.FindStringSubmatch(text); m != nil {
		quantity, number = m[2]+m[3]+m[4]+m[5]+m[6], m[1]
	}
	if !strings.ContainsAny(number, "0123456789") || strings.ContainsAny(number, " /") || strings.Trim(quantity, "0123456789") != "" || strings.Trim(quantity, "0") == "" {
		return Advice{}, false
	}
	if text == quantity+" x "+number {
		return Advice{}, false // it is written as it should be, and the number alone is at fault
	}
	says := fmt.Sprintf("is taken for %s of %q, and no part is called that", quantity, number)
	near := f.Near(number)
	if near == "" {
		return saying(says + fmt.Sprintf("; write %s x and the number of the part", quantity))
	}
	w := quantity + " x " + near
	if !f.Reads(w) {
		return Advice{}, false
	}
	return Advice{Says: says + "; did you mean " + w + "?", Write: []string{w}}, true
}

package report

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"ferrule/out/visible"
)

// page writes wrapped lines and remembers the first error.
type page struct {
	w     io.Writer
	width int
	color bool
	err   error
}

// Styles of the terminal (ECMA-48, select graphic rendition).
const (
	bold   = "1"
	dim    = "2"
	red    = "1;31"
	yellow = "1;33"
	blue   = "1;34"
)

// paint gives s in a style, or as it is where there are no colours.
func (p *page) paint(style, s string) string {
	s = visible.Text(s)
	if !p.color {
		return s
	}
	return "\x1b[" + style + "m" + s + "\x1b[0m"
}

// line writes one line.
func (p *page) line(s string) { p.painted(visible.Text(s)) }

// title writes one line in bold type.
func (p *page) title(s string) { p.painted(p.paint(bold, s)) }

// painted writes one line of which all that a workbook says has gone through paint or
// visible.Text.
func (p *page) painted(s string) {
	if p.err == nil {
		_, p.err = fmt.Fprintln(p.w, s)
	}
}

// wrap writes text after a label and goes on in the label's width of blanks. The
// label may be painted; plain is its width. Words longer than a line are not broken,
// since they may be names of cells to be copied.
func (p *page) wrap(label string, plain int, text string) {
	hang := strings.Repeat(" ", plain)
	line, used := label, plain
	fresh := true
	for _, word := range strings.Fields(clean(text)) {
		n := utf8.RuneCountInString(word)
		switch {
		case fresh:
			line, used, fresh = line+word, used+n, false
		case used+1+n > p.width:
			p.painted(line)
			line, used = hang+word, plain+n
		default:
			line, used = line+" "+word, used+1+n
		}
	}
	p.painted(line)
}

// clean gives a text on one line, as everybody can see it.
func clean(s string) string { return visible.Text(strings.Join(strings.Fields(s), " ")) }

// count says how many: `1 error`, `2 errors`.
func count[N int | string](n N, one string) string {
	s := fmt.Sprint(n)
	if s == "1" {
		return s + " " + one
	}
	return s + " " + one + "s"
}

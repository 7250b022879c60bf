package markup

import (
	"strings"
	"unicode/utf8"
)

// proseWidth is the width of the column of a sheet of sentences, in characters.
const proseWidth = 100

// Heights of rows, in points: of a line of Calibri 11, of one of a title, and the most that a row may have
// (ECMA-376 does not bound it; the most used program does, from memory).
const (
	lineHeight  = 15
	titleHeight = 20
	mostHeight  = 409
)

// heights makes rows as high as the lines that they hold, which programs that only print do not work out.
func (p *writing) heights(s *Sheet) error {
	widths := s.widths()
	for r, row := range s.Rows {
		lines := 1
		for c := range row {
			if c < len(widths) && p.wraps(s, r) {
				lines = max(lines, linesOf(row[c].Text, room(s, r, int(widths[c]))))
			}
		}
		height := lineHeight * lines
		if !p.wraps(s, r) && len(row) > 0 {
			height = titleHeight
		}
		if height > lineHeight {
			if err := p.file.SetRowHeight(s.Name, r+1, float64(min(height, mostHeight))); err != nil {
				return err
			}
		}
	}
	return nil
}

// room is how much of a column's width a text may take: a heading is bold and has a button beside it.
func room(s *Sheet, row, width int) int {
	if row == s.header() && !prose(s) {
		return width - 3
	}
	return width
}

// wraps tells whether the cells of a row show their text in several lines: titles do not.
func (p *writing) wraps(s *Sheet, row int) bool {
	if prose(s) {
		return row > 0
	}
	return row >= s.header()
}

// widths gives how wide columns are, in characters.
func (s *Sheet) widths() []float64 {
	if prose(s) {
		return []float64{proseWidth}
	}
	var out []float64
	for i := range s.headings() {
		out = append(out, s.width(i))
	}
	return out
}

// linesOf estimates how many lines a text takes in a column, broken between words as programs do.
func linesOf(text string, width int) int {
	n := 0
	for line := range strings.SplitSeq(text, "\n") {
		n++
		at := 0
		for _, word := range strings.Fields(line) {
			long := utf8.RuneCountInString(word)
			if at > 0 && at+1+long > width {
				n, at = n+1, 0
			}
			if at > 0 {
				at++
			}
			for at += long; at > width; at -= width { // a word that is longer than the line
				n++
			}
		}
	}
	return n
}

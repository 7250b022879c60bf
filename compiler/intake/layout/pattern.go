package layout

import (
	"strings"

	"ferrule/schema/word"
)

// pattern says which sheets a plan is about.
type pattern struct {
	text        string // as it stands under Sheet
	file, sheet string // folded; file is "" for any
}

// bookEnds are how the names of workbooks end.
var bookEnds = [...]string{".xlsx", ".xlsm", ".csv", ".tsv", ".ods", "*"}

func patternOf(text string) pattern {
	p := pattern{text: text, sheet: word.Fold(text)}
	if i := strings.IndexByte(p.sheet, '!'); i > 0 {
		for _, end := range bookEnds {
			if strings.HasSuffix(p.sheet[:i], end) {
				p.file, p.sheet = strings.TrimSpace(p.sheet[:i]), strings.TrimSpace(p.sheet[i+1:])
				break
			}
		}
	}
	return p
}

// exact tells whether the name of the sheet is written out.
func (p pattern) exact() bool { return !strings.Contains(p.sheet, "*") }

// about tells whether a sheet is meant.
func (p pattern) about(file, sheet string) bool {
	return glob(p.sheet, word.Fold(sheet)) && (p.file == "" || glob(p.file, word.Fold(file)))
}

// glob tells whether a text is a pattern with * for any run of letters. It takes time by the
// product of both lengths at most.
func glob(pattern, text string) bool {
	parts := strings.Split(pattern, "*")
	if len(parts) == 1 {
		return pattern == text
	}
	first, last := parts[0], parts[len(parts)-1]
	if !strings.HasPrefix(text, first) {
		return false
	}
	text = text[len(first):]
	for _, p := range parts[1 : len(parts)-1] {
		i := strings.Index(text, p)
		if i < 0 {
			return false
		}
		text = text[i+len(p):]
	}
	return len(text) >= len(last) && strings.HasSuffix(text, last)
}

package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"strings"
)

// A site is a place in a file together with one change of it. It is a change of the
// text, so that every other line stays where it is in what a failing test prints.
type site struct {
	File          string // an absolute path
	Line          int
	Operator      string
	Before, After string
	Start, End    int // bytes of the file that After replaces
}

// apply gives the text of the file with the site's change.
func (s *site) apply(text string) string { return text[:s.Start] + s.After + text[s.End:] }

// sites gives all changes that the operators know for a file, in the order of its text.
func sites(path, text string) ([]site, error) {
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, path, text, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	var out []site
	v := visitor{text: text, offset: func(p token.Pos) int { return fset.Position(p).Offset }}
	v.add = func(operator string, start, end int, after string) {
		out = append(out, site{path, 1 + strings.Count(text[:start], "\n"), operator, text[start:end], after, start, end})
	}
	ast.Inspect(file, v.visit)
	slices.SortStableFunc(out, func(a, b site) int { return a.Start - b.Start })
	return out, nil
}

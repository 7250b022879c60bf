// Package view shows people who keep sheets what is known of them, as HTML: findings beside the
// rows around their cells, coverage, and what is said at a place year by year. The desk shows it
// live, a report is one file of it.
//
// A page struct is all that a page says; the templates only lay it out, and html/template does
// all the escaping. What a reader is told by a colour is told by a sign and a word too.
package view

import (
	"embed"
	"fmt"
	"html/template"
	"io"
	"math/big"
	"strings"

	"ferrule/compiler/ask/yearmap"
	"ferrule/compiler/finding"
	"ferrule/out/visible"
)

//go:embed templates/*.tmpl
var files embed.FS

// Style is the style sheet of all pages.
//
//go:embed view.css
var Style []byte

// Templates are those that lay out the parts of pages: `findings`, `coverage`, `place`, `counts`. Whoever has
// pages of its own adds templates to a clone.
var Templates = template.Must(template.New("").Funcs(template.FuncMap{
	"sign":  sign,
	"shape": shape,
	"count": Count[int],
	"text":  visible.Text,
}).ParseFS(files, "templates/*.tmpl"))

// Count says how many: `1 error`, `2 errors`.
func Count[N int | string](n N, one string) string {
	s := fmt.Sprint(n)
	if s == "1" {
		return s + " " + one
	}
	return s + " " + one + "s"
}

// sign is what marks a severity for those who see no colours.
func sign(s finding.Severity) string { return [...]string{"·", "▲", "✖"}[s] }

// shape is what marks a state for those who see no colours.
func shape(s yearmap.State) string {
	return map[yearmap.State]string{yearmap.Fitted: "●", yearmap.None: "–", yearmap.Planned: "◇", yearmap.Ask: "?",
		yearmap.Conflict: "✖", yearmap.Unsettled: "!", yearmap.Gap: "○", yearmap.Away: "·"}[s]
}

// amount says how many vehicles there are.
func amount(configurations *big.Int, road *big.Rat) string {
	words := Count(configurations.String(), "configuration")
	if road != nil && road.Sign() > 0 {
		words += ", " + strings.TrimRight(strings.TrimRight(road.FloatString(2), "0"), ".") + " on the road"
	}
	return words
}

// Print lays a page out by one of the templates.
func Print(w io.Writer, t *template.Template, name string, page any) error {
	return t.ExecuteTemplate(w, name, page)
}

package guide

import (
	"iter"
	"slices"
)

// WriteSitemap is writeSitemap for pages below a base, for tests of very many.
func WriteSitemap(base string, pages []string, emit Emit) error {
	return (&site{base: base}).writeSitemap(pages, newDates("", nil), emit)
}

// Natural is natural, for a test of its order.
func Natural(a, b string) int { return natural(a, b) }

// ThemeFiles lists the files that a theme may hold.
func ThemeFiles() []string { return slices.Concat(templateFiles(), staticFiles()) }

// TemplatePages gives each page template with a page that says nothing, in a fixed order.
func TemplatePages() iter.Seq2[string, any] {
	return func(yield func(string, any) bool) {
		for _, p := range blankPages() {
			if !yield(p.template(), p) {
				return
			}
		}
	}
}

// ScriptWords is scriptWords, for tests of what scripts show.
func ScriptWords() []string { return scriptWords() }

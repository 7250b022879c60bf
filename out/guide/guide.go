// Package guide makes the pages that workshops, counters and owners read: an index, a
// page for each platform and each part, the A to Z of all numbers, and what goes with
// them: style sheet, scripts, search index, sitemap.
//
// The pages stand alone: no inline script or style, nothing from another host. They say
// everything without a script; that of a platform's page only asks, one at a time, the
// questions that the page holds. They hold what the catalogue makes public and nothing
// else: no cells, no findings, no counts, no internal notes. What is not settled is never
// shown as a fit.
//
// The way of the data: a site is the catalogue with every address and every
// cross-reference worked out once; a page struct (index.go, platform.go, part.go …) is
// all that one page says, in order; the templates only lay it out. html/template does
// all the escaping, so no page struct holds markup. A Theme has templates of its own.
//
// Guides come one at a time and are not kept, so that memory does not grow with the
// number of platforms.
package guide

import (
	"embed"
	"fmt"

	"ferrule/compiler/picture"
	"ferrule/out/address"
	"ferrule/out/news"
	"ferrule/out/tongue"
)

// Options of a set of pages. What else they need comes from the catalogue's settings;
// nothing comes from the clock, so that the same catalogue gives the same bytes.
type Options struct {
	Draft     bool          // every page says that it must not be used, and asks not to be indexed
	Fragment  bool          // pages without the frame, for a frame of somebody else's
	Theme     *Theme        // nil: templates and style sheet as they are here
	Addresses *address.Book // nil: as names alone make them
	News      *news.News    // what has changed since an earlier release; nil: nothing is said of that
	Pictures  *picture.Set  // that pages may show; nil: none
	// Tongue gives the words of a language by its tag; nil: those of package tongue.
	Tongue func(tag string) *tongue.Tongue
	// Today is the day of the release, as an ISO date; "": no page says when it changed. Dated is
	// what the earlier release has recorded of its pages.
	Today string
	Dated []address.Dated
}

// Emit takes one finished file. The name is a slash path relative to the public
// folder; data is only valid during the call.
type Emit func(name string, data []byte) error

//go:embed templates/*.tmpl
var templates embed.FS

//go:embed style.css search.js finder.js filter.js line.js complaint.js icon.svg
var static embed.FS

// plain tells whether a text runs from left to right and nothing in it could change the
// direction of what follows, so that it needs no element of its own: letters of Latin,
// Greek and Cyrillic, digits, and the usual marks.
func plain(text string) bool {
	for _, r := range text {
		if r >= 0x590 && !(r >= 0x2010 && r <= 0x2027) || r < 0x20 && r != '\n' && r != '\r' && r != '\t' {
			return false
		}
	}
	return true
}

// times says a quantity before what it counts.
func times(n int) string { return fmt.Sprintf("%d\u00a0×", n) }

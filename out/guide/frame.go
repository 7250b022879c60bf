package guide

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// frame is what every page has around its body.
type frame struct {
	Root      string // the way to the public folder: "" or "../"
	Title     string // of the browser's window
	Catalogue string
	Release   string
	Canonical string // "" where no base url is set
	Home      bool   // the page is the index
	Draft     bool
	Whom      whom
	Usual     []usual
}

// whom to ask: the catalogue's settings, either of which may be blank.
type whom struct{ Publisher, Contact string }

// frame gives the frame of the page at a path relative to the public folder.
func (s *site) frame(path, title string) frame {
	set := s.cat.Settings
	f := frame{
		Catalogue: set.Title, Release: set.Release,
		Draft: s.draft, Whom: s.whom(), Usual: usualCautions(),
		Home: path == s.indexFile(),
	}
	if f.Catalogue == "" {
		f.Catalogue = "Fitment guides"
	}
	f.Title = s.windowTitle(title, f.Catalogue)
	f.Root = strings.Repeat("../", strings.Count(path, "/"))
	if s.base != "" {
		f.Canonical = s.base + path
	}
	return f
}

func (s *site) whom() whom {
	return whom{Publisher: s.cat.Settings.Publisher, Contact: s.cat.Settings.Contact}
}

// titleAtMost is how many letters of a title browsers and search pages show, about.
const titleAtMost = 70

// windowTitle names the page and, where there is room, the catalogue.
func (s *site) windowTitle(page, catalogue string) string {
	title := plainTitle(page)
	if s.draft {
		title = strings.TrimSpace("Draft: " + title)
	}
	both := title + " – " + plainTitle(catalogue)
	switch {
	case title == "":
		title = plainTitle(catalogue)
	case utf8.RuneCountInString(both) <= titleAtMost:
		title = both
	}
	if r := []rune(title); len(r) > titleAtMost {
		title = string(r[:titleAtMost-1]) + "…"
	}
	return title
}

// plainTitle makes text fit for a title, which has no markup to keep the direction
// of one text from reaching into the next: marks of direction go, and so do line
// breaks.
func plainTitle(text string) string {
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool {
		return unicode.IsSpace(r) || unicode.Is(unicode.Bidi_Control, r)
	}), " ")
}

// link is a text with the address that it leads to, "" for none.
type link struct{ Text, Href string }

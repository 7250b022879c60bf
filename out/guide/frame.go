package guide

import (
	"strings"
	"unicode"
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
		Title: windowTitle(title), Catalogue: set.Title, Release: set.Release,
		Draft: s.draft, Whom: s.whom(), Usual: usualCautions(),
		Home: path == s.indexFile(),
	}
	if f.Catalogue == "" {
		f.Catalogue = "Fitment guides"
	}
	if f.Title == "" {
		f.Title = windowTitle(f.Catalogue)
	} else {
		f.Title += " – " + windowTitle(f.Catalogue)
	}
	if s.draft {
		f.Title = "Draft: " + f.Title
	}
	f.Root = strings.Repeat("../", strings.Count(path, "/"))
	if s.base != "" {
		f.Canonical = s.base + path
	}
	return f
}

func (s *site) whom() whom {
	return whom{Publisher: s.cat.Settings.Publisher, Contact: s.cat.Settings.Contact}
}

// windowTitle makes text fit for a title, which has no markup to keep the direction
// of one text from reaching into the next: marks of direction go, and so do line
// breaks.
func windowTitle(text string) string {
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool {
		return unicode.IsSpace(r) || unicode.Is(unicode.Bidi_Control, r)
	}), " ")
}

// link is a text with the address that it leads to, "" for none.
type link struct{ Text, Href string }

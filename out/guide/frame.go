package guide

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// frame is what every page has around its body.
type frame struct {
	Root        string      // the way to the pages of the language: "" or "../"
	Shared      string      // the way to the public folder, where style, scripts, pictures and data are; Root but for pages of a further language
	Lang        string      // the tag of the language of the page
	Folder      string      // of the pages of the language, below the public folder; "" for that of the workbooks
	Words       string      // what scripts read their words from, relative to Root; "" where they speak English
	Languages   []alternate // the page in each language; none where there is one language
	Title       string      // of the browser's window
	Heading     string      // the title without the catalogue's, for whoever shows a link to the page
	Description string      // one line for search pages; may be ""
	Catalogue   string
	Own         string // the catalogue's title as the workbook has it
	SiteName    string // the catalogue's title for whoever shows a link to the page
	Release     string
	Canonical   string      // address of the page on the web; "" where no base url is set, and in drafts
	Reads       string      // what Script needs on this page; "" for nothing
	Script      string      // what the page runs besides the search, relative to the public folder; "" for nothing
	Feed        string      // of changes, relative to the public folder; "" where there is none
	Image       *shareImage // for whoever shows a link to the page; nil: none
	Data        string      // the page's data as JSON, relative to the public folder; "" where there are none
	Home        bool        // the page is the index
	AToZ        bool        // the page is the first of the A to Z
	Draft       bool
	NoIndex     bool   // search engines are asked to leave the page out
	Fragment    bool   // neither frame nor head is wanted
	Refresh     string // the page that stands in this one's place now; "" for all but a few
	Whom        whom
	Usual       []usual // cautions that stand on every page

	path string // of the page, relative to the public folder
}

// whom to ask: the catalogue's settings, either of which may be blank.
type whom struct{ Publisher, Contact string }

// frame gives the frame of the page at a path relative to the public folder.
func (s *site) frame(path, title string) frame {
	set := s.cat.Settings
	f := frame{
		Catalogue: s.tr(set.Title), Own: set.Title, Release: set.Release,
		Draft: s.draft, NoIndex: s.draft, Fragment: s.fragment, Whom: s.whom(), Usual: s.usualCautions(),
		Home: path == s.indexFile(), AToZ: path == s.aToZFile(), path: s.folder + path,
		Lang: s.tongue.Tag(), Folder: s.folder, Words: s.scripts, Languages: s.alternates(path),
	}
	if f.Catalogue == "" {
		f.Catalogue = s.tongue.Say("Fitment guides")
	}
	f.SiteName = plainTitle(f.Catalogue)
	f.Title = s.windowTitle(title, f.Catalogue)
	if f.Heading = shortened(plainTitle(title), titleAtMost); f.Heading == "" {
		f.Heading = f.Title
	}
	f.Root = strings.Repeat("../", strings.Count(path, "/"))
	f.Shared = strings.Repeat("../", strings.Count(f.path, "/"))
	if s.hasFeed() {
		f.Feed = feedFile
	}
	if s.base != "" && !s.draft {
		f.Canonical = s.base + f.path
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
		title = strings.TrimSpace(s.tongue.Say("Draft: %s", title))
	}
	both := title + " – " + plainTitle(catalogue)
	switch {
	case title == "":
		title = plainTitle(catalogue)
	case utf8.RuneCountInString(both) <= titleAtMost:
		title = both
	}
	return shortened(title, titleAtMost)
}

// shortened cuts what is longer than a number of letters.
func shortened(text string, letters int) string {
	if r := []rune(text); len(r) > letters {
		return string(r[:letters-1]) + "…"
	}
	return text
}

// descriptionAtMost is how many letters of a description search pages show, about.
const descriptionAtMost = 160

// describe sets the line for search pages.
func (f *frame) describe(text string) { f.Description = shortened(plainTitle(text), descriptionAtMost) }

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

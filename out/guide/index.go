package guide

import (
	"strings"

	"ferrule/compiler/model"
	"ferrule/out/slug"
)

// indexPage is where a reader starts.
type indexPage struct {
	frame
	Makers []maker // platforms, by the maker of the chassis
	Full   bool    // there is room for more than the names
	Since  string  // what the earlier release was called, of which Changes tells; "" for no name
	// Changes is the page that says what has changed; "" where that is not known.
	Changes string
}

// maker is a group of platforms.
type maker struct {
	Name      string // "" for platforms of which none is named
	Anchor    string // on the A to Z
	Platforms []platformEntry
}

type platformEntry struct {
	Name, Href, Years, Summary, Tell string
}

// fullAtMost is how many platforms the index describes; of more it lists the names.
const fullAtMost = 100

func (s *site) index() *indexPage {
	p := &indexPage{frame: s.frame(s.indexFile(), ""), Makers: s.makers, Full: len(s.cat.Platforms) <= fullAtMost}
	if s.news != nil {
		p.Since, p.Changes = s.news.Since, changesFile
	}
	p.Data = "catalogue.json"
	p.describe("Which part belongs where on which chassis: fitment guides, parts, and other numbers. " + s.cat.Settings.Title)
	return p
}

// makersOf groups the platforms, makers in the order of their first platform; those of
// no maker come last.
func (s *site) makersOf() []maker {
	var names []string
	of := map[string][]platformEntry{}
	for _, pl := range s.cat.Platforms {
		if of[pl.Maker] == nil && pl.Maker != "" {
			names = append(names, pl.Maker)
		}
		of[pl.Maker] = append(of[pl.Maker], platformEntry{
			Name: pl.Name, Href: s.platformFiles[pl], Years: yearWords(pl.Years), Summary: pl.Summary, Tell: pl.Tell,
		})
	}
	var out []maker
	for i, file := range slug.Names(names) {
		out = append(out, maker{Name: names[i], Anchor: "maker-" + strings.ToLower(file), Platforms: of[names[i]]})
	}
	if rest := of[""]; rest != nil {
		out = append(out, maker{Anchor: "makers", Platforms: rest})
	}
	return out
}

// partName is how a part is called where there is room for one line.
func partName(p *model.Part) string {
	return strings.TrimSpace(p.Number + " " + p.Name)
}

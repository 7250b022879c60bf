package guide

import (
	"strings"

	"ferrule/compiler/model"
)

// indexPage is where a reader starts.
type indexPage struct {
	frame
	Makers []maker // platforms, by the maker of the chassis
	Jumps  []link  // to the makers, no text to those of no name; none where there are few platforms
	Filter bool    // there are so many platforms that a field to narrow the list is of use
	Full   bool    // there is room for more than the names
	Since  string  // what the earlier release was called, of which Changes tells; "" for no name
	// Changes is the page that says what has changed; "" where that is not known.
	Changes string
}

// fullAtMost is how many platforms the index describes; of more it lists the names.
const fullAtMost = 100

func (s *site) index() *indexPage {
	p := &indexPage{frame: s.frame(s.indexFile(), ""), Makers: s.makers, Full: len(s.cat.Platforms) <= fullAtMost, Filter: s.manyPlatforms()}
	if p.Filter {
		p.Jumps, p.Script = jumps(s.makers), filterScript
	}
	if s.news != nil {
		p.Since, p.Changes = s.news.Since, changesFile
	}
	p.Data = "catalogue.json"
	p.describe(s.tongue.Say("Which part belongs where on which chassis: fitment guides, parts, and other numbers.") + " " + s.tr(s.cat.Settings.Title))
	return p
}

// partName is how a part is called where there is room for one line.
func (e *edition) partName(p *model.Part) string {
	return strings.TrimSpace(p.Number + " " + e.tr(p.Name))
}

package guide

import (
	"slices"

	"ferrule/compiler/model"
)

// caution is a text beside a part or a place.
type caution struct {
	Level string   // danger, warning, notice or note
	Of    []string // the parts that it is about; nil where it is about all of the row
	Text  string
	// carriers is how many of the row's alternatives hold a part that the text is
	// about, last the newest of them.
	carriers, last int
}

// rank is by which levels are ordered where they are printed.
func rank(level string) int { return slices.Index(model.Levels(), level) }

// cautions collects texts, each once however many cells and parts carry it.
type cautions []caution

// add takes texts of a row as they stand in a workbook.
func (c *cautions) add(notes []model.Note) {
	for _, n := range notes {
		if k, ok := read(n, "note"); ok && c.find(k) == nil {
			*c = append(*c, k)
		}
	}
}

// addPart adds what the part's own row says and, for a kit, what its components' rows
// say. alternative numbers the choices of a row. A text in a Cautions column that names
// no level is taken for a warning: better heeded once too often.
func (c *cautions) addPart(p *model.Part, alternative int) {
	p.Within(func(p *model.Part) {
		for _, n := range p.Cautions {
			k, ok := read(n, "warning")
			if !ok {
				continue
			}
			known := c.find(k)
			if known == nil {
				k.last = -1
				k.Of = []string{p.Number}
				*c = append(*c, k)
				known = &(*c)[len(*c)-1]
			}
			if known.Of == nil {
				continue
			}
			if known.last != alternative {
				known.carriers, known.last = known.carriers+1, alternative
			}
			if !slices.Contains(known.Of, p.Number) {
				known.Of = append(known.Of, p.Number)
			}
		}
	})
}

// read gives the text of a note; level is that of a text which is not from the
// Cautions sheet.
func read(n model.Note, level string) (caution, bool) {
	text := n.Text
	if n.Caution != nil {
		text, level = n.Caution.Text, n.Caution.Level
	}
	if rank(level) < 0 {
		level = "note"
	}
	return caution{Level: level, Text: text}, text != ""
}

func (c cautions) find(k caution) *caution {
	for i := range c {
		if c[i].Level == k.Level && c[i].Text == k.Text {
			return &c[i]
		}
	}
	return nil
}

// sorted gives the gravest first, otherwise in the order in which they came.
func (c cautions) sorted() cautions {
	slices.SortStableFunc(c, func(a, b caution) int { return rank(a.Level) - rank(b.Level) })
	return c
}

// Open gives what stands open on a screen.
func (c cautions) Open() cautions { return c[:c.graver()] }

// Folded gives what a screen shows when asked, and paper always.
func (c cautions) Folded() cautions { return c[c.graver():] }

// graver counts dangers and warnings, which stand first.
func (c cautions) graver() int {
	for i := range c {
		if rank(c[i].Level) > rank("warning") {
			return i
		}
	}
	return len(c)
}

// shared takes out of the rows of a place what is said of everything that they offer,
// so that it is printed once, above them.
func shared(rows []row) cautions {
	var offers []*fit
	for i := range rows {
		if rows[i].Fit.Kind == "fitted" {
			offers = append(offers, &rows[i].Fit)
		}
	}
	if len(offers) < 2 {
		return nil
	}
	var out cautions
	for _, c := range offers[0].Cautions {
		if !slices.ContainsFunc(offers, func(f *fit) bool { return !f.saysOfAll(c) }) {
			out = append(out, caution{Level: c.Level, Text: c.Text})
		}
	}
	for _, f := range offers {
		f.Cautions = slices.DeleteFunc(f.Cautions, func(c caution) bool { return out.find(c) != nil })
	}
	return out
}

// saysOfAll tells whether the text stands beside each choice of the row.
func (f *fit) saysOfAll(c caution) bool {
	k := f.Cautions.find(c)
	return k != nil && (k.Of == nil || k.carriers == len(f.Choices))
}

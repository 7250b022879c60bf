package guide

import (
	"slices"

	"ferrule/compiler/model"
)

// caution is a text beside a part or a place.
type caution struct {
	Level string   // danger, warning, notice or note
	Of    []string // the parts that it is about; nil where it is about the row
	Text  string
}

// levels in the order in which they are printed.
var levels = [...]string{"danger", "warning", "notice", "note"}

func rank(level string) int { return slices.Index(levels[:], level) }

// cautions collects texts, each once however many cells and parts carry it.
type cautions []caution

// add takes texts as they stand in a workbook: level is that of a text which is not
// from the Cautions sheet.
func (c *cautions) add(notes []model.Note, level, of string) {
	for _, n := range notes {
		text, at := n.Text, level
		if n.Caution != nil {
			text, at = n.Caution.Text, n.Caution.Level
		}
		if text == "" {
			continue
		}
		if rank(at) < 0 {
			at = "note"
		}
		i := slices.IndexFunc(*c, func(o caution) bool {
			return o.Level == at && o.Text == text && (o.Of == nil) == (of == "")
		})
		if i < 0 {
			i = len(*c)
			*c = append(*c, caution{Level: at, Text: text})
		}
		if of != "" && !slices.Contains((*c)[i].Of, of) {
			(*c)[i].Of = append((*c)[i].Of, of)
		}
	}
}

// addPart adds what the part's own row says and, for a kit, what its components' rows
// say; on the part's own page its own cautions need not name it. A text in a Cautions column that names no level is taken for a warning: better
// heeded once too often.
func (c *cautions) addPart(p *model.Part, own bool) {
	p.Within(func(q *model.Part) {
		of := q.Number
		if own && q == p {
			of = ""
		}
		c.add(q.Cautions, "warning", of)
	})
}

// sorted gives the gravest first, otherwise in the order in which they came.
func (c cautions) sorted() []caution {
	slices.SortStableFunc(c, func(a, b caution) int { return rank(a.Level) - rank(b.Level) })
	return c
}

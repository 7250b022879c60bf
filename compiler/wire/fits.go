package wire

import (
	"slices"
	"strings"

	"ferrule/compiler/model"
	"ferrule/schema"
)

// Item is a part with how many of it. Quantity is left out where it is the
// position's.
type Item struct {
	Part     string `json:"part"`               // its number
	Quantity int    `json:"quantity,omitempty"` // 0: as many as the position takes
}

// Alternatives gives what may be fitted, in order of preference.
func Alternatives(in []model.Alternative) [][]Item {
	var out [][]Item
	for _, a := range in {
		items := make([]Item, len(a))
		for i, it := range a {
			items[i] = Item{it.Part.Number, it.Quantity}
		}
		out = append(out, items)
	}
	return out
}

// Fits is what a cell says.
type Fits struct {
	Outcome      string   `json:"outcome"`                // fitted, none, planned or ask
	Alternatives [][]Item `json:"alternatives,omitempty"` // in order of preference
	With         string   `json:"with,omitempty"`         // the position whose item serves this one
	Text         string   `json:"text,omitempty"`         // the reason, the question, or what is planned
}

// FitsOf gives nil for a cell that says nothing.
func FitsOf(f *model.Fits) *Fits {
	if f == nil {
		return nil
	}
	out := &Fits{f.Outcome.String(), Alternatives(f.Alternatives), "", f.Text}
	if f.With != nil {
		out.With = f.With.Name
	}
	return out
}

// Caution is a text that guides print, with how much it matters: danger, warning,
// notice or note.
type Caution struct {
	Level string `json:"level"` // danger, warning, notice or note
	Text  string `json:"text"`  // as it is printed
}

// split parts plain notes from cautions, each once.
func split(notes []model.Note) (texts []string, cautions []Caution) {
	for _, n := range notes {
		if n.Caution == nil {
			texts = appendNew(texts, n.Text)
		} else {
			cautions = appendNew(cautions, Caution{Level(n.Caution), n.Caution.Text})
		}
	}
	return texts, cautions
}

// CautionsOf gives notes that stand where only cautions do. Plain text there is taken
// for a warning: better heeded once too often.
func CautionsOf(notes []model.Note) []Caution {
	var out []Caution
	for _, n := range notes {
		c := Caution{"warning", n.Text}
		if n.Caution != nil {
			c = Caution{Level(n.Caution), n.Caution.Text}
		}
		out = appendNew(out, c)
	}
	return out
}

// Level of a caution: `note` where none is stated, `warning` where it is no level, a
// finding that a draft may hold.
func Level(c *model.Caution) string {
	switch {
	case c.Level == "":
		return "note"
	case oneOf(c.Level, schema.Cautions, "Level") == "":
		return "warning"
	}
	return c.Level
}

// oneOf gives the word if it is one of those that a column may hold, "" otherwise: a
// draft holds what a finding says is wrong, and its files are still of their form.
func oneOf(word, kind, column string) string {
	if slices.Contains(schema.Words(kind, column), word) {
		return word
	}
	return ""
}

func appendNew[T comparable](list []T, items ...T) []T {
	for _, it := range items {
		if !slices.Contains(list, it) {
			list = append(list, it)
		}
	}
	return list
}

// joined gives several texts as one.
func joined(texts []string) string { return strings.Join(texts, "; ") }

// PartNumber gives "" for no part.
func PartNumber(p *model.Part) string {
	if p == nil {
		return ""
	}
	return p.Number
}

// PositionName gives "" for no position.
func PositionName(p *model.Position) string {
	if p == nil {
		return ""
	}
	return p.Name
}

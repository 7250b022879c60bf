package data

import (
	"slices"
	"strings"

	"ferrule/compiler/model"
	"ferrule/schema"
)

// item is a part with how many of it. Quantity is left out where it is the
// position's.
type item struct {
	Part     string `json:"part"`
	Quantity int    `json:"quantity,omitempty"`
}

// alternatives gives what may be fitted, in order of preference.
func alternatives(in []model.Alternative) [][]item {
	var out [][]item
	for _, a := range in {
		items := make([]item, len(a))
		for i, it := range a {
			items[i] = item{it.Part.Number, it.Quantity}
		}
		out = append(out, items)
	}
	return out
}

// fits is what a cell says.
type fits struct {
	Outcome      string   `json:"outcome"`
	Alternatives [][]item `json:"alternatives,omitempty"`
	With         string   `json:"with,omitempty"`
	Text         string   `json:"text,omitempty"`
}

func fitsOf(f *model.Fits) *fits {
	if f == nil {
		return nil
	}
	out := &fits{f.Outcome.String(), alternatives(f.Alternatives), "", f.Text}
	if f.With != nil {
		out.With = f.With.Name
	}
	return out
}

// publicFits tells nothing of planned work but that it is planned.
func publicFits(f *model.Fits) *fits {
	out := fitsOf(f)
	if f != nil && f.Outcome == model.Planned {
		out.Text = ""
	}
	return out
}

// caution is a text that guides print, with how much it matters: danger, warning,
// notice or note.
type caution struct {
	Level string `json:"level"`
	Text  string `json:"text"`
}

// split parts plain notes from cautions, each once.
func split(notes []model.Note) (texts []string, cautions []caution) {
	for _, n := range notes {
		if n.Caution == nil {
			texts = appendNew(texts, n.Text)
		} else {
			cautions = appendNew(cautions, caution{level(n.Caution), n.Caution.Text})
		}
	}
	return texts, cautions
}

// cautionsOf gives notes that stand where only cautions do. Plain text there is taken
// for a warning: better heeded once too often.
func cautionsOf(notes []model.Note) []caution {
	var out []caution
	for _, n := range notes {
		c := caution{"warning", n.Text}
		if n.Caution != nil {
			c = caution{level(n.Caution), n.Caution.Text}
		}
		out = appendNew(out, c)
	}
	return out
}

// level of a caution: `note` where none is stated, `warning` where it is no level, a
// finding that a draft may hold.
func level(c *model.Caution) string {
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

func partNumber(p *model.Part) string {
	if p == nil {
		return ""
	}
	return p.Number
}

func positionName(p *model.Position) string {
	if p == nil {
		return ""
	}
	return p.Name
}

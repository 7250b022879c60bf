package propose

import (
	"slices"
	"strings"

	"ferrule/compiler/propose/shape"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// facts is what sheets say of parts, so that one part is never declared in two ways.
type facts struct {
	says map[string]string // by folded number
	at   map[string]cell.Pos
	read map[string]bool // declared by a sheet that is read as parts
}

// numbers gives the part numbers of a cell.
func numbers(text string) []string {
	if _, parts := shape.Separate(text); len(parts) > 1 {
		return parts
	}
	base, _ := shape.Sign(text)
	if text = trimmed(text); text == "" {
		return nil
	}
	if shape.ClassOf(base) == shape.Code {
		return []string{trimmed(base)}
	}
	return []string{text}
}

func (f *facts) note(number string) {
	if f.read == nil {
		f.read = map[string]bool{}
	}
	f.read[word.Fold(number)] = true
}

// aboutPart gives the columns that say something of the part itself.
func (r *reading) aboutPart() []*column {
	var out []*column
	for _, c := range r.all {
		if c.Filled > 0 && (c.role == Name || c.role == Family || c.role == Property || c.role == Replaced) {
			out = append(out, c)
		}
	}
	return out
}

// partColumn gives the column of Parts that a column is read into.
func (r *reading) partColumn(c *column) string {
	switch c.role {
	case Name, Family:
		return titles[c.role]
	case Replaced:
		return "Replaced by"
	}
	if known, ok := schema.Find(schema.Parts, c.name); ok {
		return known.Name
	}
	return trimmed(c.Head())
}

// knownParts tells whether the catalogue has most of the parts already.
func (r *reading) knownParts(c *column) bool { return r.b.any(AsPart) && r.b.mostly(c, AsPart) }

// agree tells whether every part is said the same of in all its rows, here and on sheets before.
func (r *reading) agree(c *column, about []*column) bool {
	f := &r.b.parts
	if f.says == nil {
		f.says, f.at = map[string]string{}, map[string]cell.Pos{}
	}
	here := map[string]string{}
	for row := range r.t.Each {
		var says []string
		for _, a := range about {
			says = append(says, r.partColumn(a)+"="+word.Fold(row.At(a.Col)))
		}
		slices.Sort(says)
		for _, number := range numbers(row.At(c.Col)) {
			key, text := word.Fold(number), strings.Join(says, "\x00")
			before, ok := here[key]
			if !ok {
				before, ok = f.says[key]
			}
			if ok && before != text {
				r.disagree(number, cell.Pos{Row: row.Number, Col: c.Col})
				return false
			}
			here[key] = text
		}
	}
	for key, text := range here {
		f.says[key] = text
	}
	return true
}

func (r *reading) disagree(number string, at cell.Pos) {
	r.remark([]cell.Pos{at}, number, "the sheets say different things of this part in different rows, so they cannot all be read as its row of Parts; the draft has what the first says",
		"one name for one number in the sheets, or the right one in the drafted Parts")
}

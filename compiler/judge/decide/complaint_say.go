package decide

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// Gathered parts the rows of complaints into complaints, as they stand.
func Gathered(uses []ComplaintUse) [][]ComplaintUse {
	var out [][]ComplaintUse
	for i, u := range uses {
		if i > 0 && word.Fold(uses[i-1].Row.Name) == word.Fold(u.Row.Name) {
			out[len(out)-1] = append(out[len(out)-1], u)
			continue
		}
		out = append(out, []ComplaintUse{u})
	}
	return out
}

// Text is something that is said of some vehicles.
type Text struct {
	Text  string
	Where []model.Box // empty: all of the platform
}

// CheckFirst gives what the rows of a complaint say to look at first, each text once.
func CheckFirst(list []ComplaintUse) []Text {
	var out []Text
	for _, u := range list {
		if u.Row.Check == "" {
			continue
		}
		i := slices.IndexFunc(out, func(t Text) bool { return t.Text == u.Row.Check })
		switch {
		case i < 0:
			out = append(out, Text{u.Row.Check, u.Where})
		case len(out[i].Where) == 0 || len(u.Where) == 0:
			out[i].Where = nil
		default:
			out[i].Where = slices.Concat(out[i].Where, u.Where)
		}
	}
	return out
}

package bind

import (
	"regexp"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// placeOf reads a Position cell: nil is any; false says that nothing declares the name.
func (b *binder) placeOf(r row) (*model.Position, bool) {
	name, at := r.name("Position"), r.at("Position")
	if name == "" || word.Fold(name) == "any" {
		return nil, true
	}
	p, ok := b.lexicon.Positions.Find(name)
	switch {
	case ok:
		return p, true
	case b.families.Has(name):
		b.fail(finding.ReferenceUnknown, at, "no position is called %q, which is a family of parts; %s", name, familyAdvice(r))
	case !b.several(name, "position", b.isPosition, at):
		b.unknown(finding.ReferenceUnknown, schema.Positions, "position", name, &b.lexicon.Positions, at)
	}
	return nil, false
}

// familyAdvice says what to do with a family under Position.
func familyAdvice(r row) string {
	if r.t.Kind == schema.Complaints {
		return "write it under Family"
	}
	return "name the position"
}

// familyOf reads a Family cell: "" is any; false says that no part is of it.
func (b *binder) familyOf(r row) (string, bool) {
	name, at := r.name("Family"), r.at("Family")
	if name == "" || word.Fold(name) == "any" {
		return "", true
	}
	switch {
	case b.families.Has(name):
		return name, true
	case b.isPosition(name):
		b.fail(finding.ReferenceUnknown, at, "no family is called %q, which is a position; write it under Position", name)
	case !b.several(name, "family", b.families.Has, at):
		b.unknown(finding.ReferenceUnknown, schema.Parts, "family", name, &b.families, at)
	}
	return name, false
}

func (b *binder) isPosition(name string) bool {
	_, ok := b.lexicon.Positions.Find(name)
	return ok
}

// between parts what people write as a list where one name is taken.
var between = regexp.MustCompile(`(?i)\s*[,;/\n+&]\s*|\s+(?:or|and)\s+`)

// several tells of a cell that says more or less than one name where one is taken; false where it does not.
func (b *binder) several(name, what string, known func(string) bool, at cell.Place) bool {
	if b.quiet {
		return false
	}
	fold := word.Fold(name)
	parts := between.Split(name, -1)
	switch not, without := strings.CutPrefix(fold, "not "); {
	case slices.Contains([]string{"all", "every", "each", "*"}, fold):
		b.fail(finding.ReferenceUnknown, at, "no %s is called %q; write any, or leave the cell blank, where every %s is meant", what, name, what)
	case without && known(not):
		b.fail(finding.ReferenceUnknown, at, "%q leaves a %s out, and a row is about one; write a row for each that is meant", name, what)
	case len(parts) > 1 && !slices.ContainsFunc(parts, func(p string) bool { return !known(p) }):
		b.fail(finding.ReferenceUnknown, at, "%q names %d, and a row is about one %s; write a row for each", name, len(parts), what)
	default:
		return false
	}
	return true
}

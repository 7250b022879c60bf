package bind

import (
	"fmt"
	"math/big"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/measure"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// unusual reports a size that no table has.
func (b *binder) unusual(at cell.Place, size measure.Size) {
	message := size.Text + " is in no table of nominal sizes" + b.near(size)
	if rows := b.cat.Sizes.Of(size); len(rows) > 0 {
		message = fmt.Sprintf("no table has a tube with the outside diameter and wall of %s; of that diameter they have %s", size.Text, walls(rows))
	}
	b.Report(&finding.Finding{Code: finding.SizeUnusual, Severity: finding.Warning, Message: message, Cells: finding.At(at),
		Fix: "write the nominal size that is meant; one that does exist can be added to a Sizes sheet"})
}

// near names the nominal sizes near one, and the same one of the other kind.
func (b *binder) near(size measure.Size) string {
	hint := ""
	var near []string
	for _, s := range b.cat.Sizes.Near(size) {
		near = append(near, s.String())
	}
	if len(near) > 0 {
		hint = "; nominal sizes near it are " + word.List(near, "and")
	}
	other := size.Bare()
	other.Line = measure.Hose
	if size.Line == measure.Hose {
		other.Line = measure.Tube
	}
	if b.cat.Sizes.Has(other) {
		hint += fmt.Sprintf("; %s is one, by its %s diameter", other, other.Line.Named())
	}
	return hint
}

// walls names the walls that the tables have for one diameter, each with its source.
func walls(rows []measure.Row) string {
	var out []string
	for _, r := range rows {
		words := ""
		switch {
		case r.Least != nil:
			words = fmt.Sprintf("any wall that leaves at least %s inside", length(r.Least, r.Size.Unit))
		case r.Size.Wall != nil:
			words = fmt.Sprintf("a wall of %s", length(r.Size.WallMM(), r.Size.Unit))
		}
		if words += " (" + r.Reference() + ")"; !slices.Contains(out, words) {
			out = append(out, words)
		}
	}
	return word.List(out, "and")
}

// length writes millimetres in a unit.
func length(mm *big.Rat, u measure.Unit) string {
	return measure.Decimal(measure.Convert(mm, measure.Millimetre, u), 4) + " " + u.String()
}

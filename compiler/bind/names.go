package bind

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/sheets/cell"
)

// missing says of a name that it is none of these.
type missing interface {
	Missed(what, name string) string
}

// unknown reports a name that nothing declares. Where the whole kind of sheet that
// declares such names is missing, it is a consequence of that and only counted.
func (b *binder) unknown(code finding.Code, kind, what, name string, among missing, at cell.Place) {
	if b.quiet || b.owed(code, kind, name) {
		return
	}
	if b.nameless(kind) {
		b.absent[kind]++
		return
	}
	b.fail(code, at, "%s", among.Missed(what, name))
}

// nameless tells whether nothing can be declared, since the kind of sheet that would is
// missing or has no header that can be read.
func (b *binder) nameless(kind string) bool { return len(b.kinds[kind]) == 0 || b.unheaded(kind) }

func (b *binder) unheaded(kind string) bool {
	for _, t := range b.kinds[kind] {
		if t.Headed {
			return false
		}
	}
	return true
}

// declares names the sheets without which other sheets mean nothing, with what they
// declare. Traits and Parts are missed only where a name would be theirs: a catalogue
// can do with model years alone, and a first one with no part.
var declares = []struct {
	kind, what string
	needed     bool
}{
	{schema.Platforms, "chassis platforms", true},
	{schema.Traits, schema.Traits, false},
	{schema.Vehicles, schema.Vehicles, true},
	{schema.Positions, schema.Positions, true},
	{schema.Parts, "part numbers", false},
}

// missing reports kinds of sheet that a catalogue cannot do without, with how many
// names could not be found because of each. It tells whether anything about vehicles
// would only repeat that.
func (b *binder) missing() (headless bool) {
	for _, d := range declares {
		n := b.absent[d.kind]
		follows := ""
		if n > 0 {
			follows = fmt.Sprintf("; %d names in other sheets cannot be found because of it", n)
			if n == 1 {
				follows = "; one name in another sheet cannot be found because of it"
			}
		}
		headless = headless || d.kind != schema.Parts && (n > 0 || d.needed && len(b.kinds[d.kind]) == 0 || b.lost(d.kind))
		switch {
		case b.owing[d.kind] != nil && len(b.kinds[d.kind]) == 0:
			b.owing[d.kind][""].Owe(finding.SheetMissing, 1)
		case len(b.kinds[d.kind]) == 0 && (d.needed || n > 0):
			b.missed(cell.Place{}, fmt.Sprintf("there is no sheet %s, so the catalogue has no %s", schema.Title(d.kind), d.what), follows)
		case n > 0:
			b.missed(cell.Place{Sheet: b.kinds[d.kind][0].Sheet},
				fmt.Sprintf("the sheet %s has no header that can be read, so the catalogue has no %s", schema.Title(d.kind), d.what), follows)
		}
	}
	if n := b.absent[schema.Cautions]; n > 0 {
		b.missed(cell.Place{}, "there is no sheet Cautions", fmt.Sprintf(", and %d cells name cautions", n))
	}
	return headless || b.headless || b.lost(schema.Fitment)
}

// lost tells whether a sheet of the kind has rows under no header that can be read:
// what they would say is missing everywhere, and the header has been told.
func (b *binder) lost(kind string) bool {
	return slices.ContainsFunc(b.kinds[kind], func(t *table.Table) bool { return !t.Headed && len(t.Records) > 0 })
}

// missed reports a sheet that is missing, with what follows from it.
func (b *binder) missed(at cell.Place, what, follows string) {
	b.Report(&finding.Finding{Code: finding.SheetMissing, Severity: finding.Error, Message: what + follows, Constant: what, Cells: finding.At(at)})
}

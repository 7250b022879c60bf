// Package bind makes the catalogue of the records: names resolved, conditions, years,
// sizes and fitment cells parsed.
//
// Declarations (settings, platforms, traits, positions, parts, kits, cautions) are
// read before the sheets that use their names, whatever the order of the workbooks.
// Every cell that cannot be read is a finding that says what to write. What a column's
// schema already reports (a word that is none of a list, a number that is text) is
// passed over here without a second finding.
package bind

import (
	"fmt"

	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/bind/memo"
	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/compiler/owed"
	"ferrule/schema"
	"ferrule/sheets/cell"
)

// Input is what there is to bind.
type Input struct {
	Tables []*table.Table         // in the order of file and sheet
	Aside  []intake.Aside         // sheets that are not used, as they would read
	Codes  []finding.Code         // all that exist, for Accepted sheets
	Told   []*finding.Finding     // before anything is bound
	Report func(*finding.Finding) // told of each finding
	Owed   *owed.Ledger           // filled in: what was set aside, and what it might have said
}

// Catalogue binds the tables. It never fails: what cannot be bound is reported and
// left out. It takes the tables' records with it: they are gone when it is done, since
// the catalogue holds what they say.
func Catalogue(in Input) *model.Catalogue {
	b := &binder{
		Input: in, cat: &model.Catalogue{},
		kinds:    map[string][]*table.Table{},
		absent:   map[string]int{},
		suspects: map[cell.Place]*finding.Finding{},
		unstated: map[*model.Fact]bool{},
		aside:    map[*model.Platform]*finding.Finding{},
		misnamed: map[cell.Place][]*model.Position{},
		headings: map[cell.Place]*finding.Finding{},
	}
	b.Report = func(f *finding.Finding) {
		b.toBlame(f)
		in.Report(f)
	}
	if b.Owed == nil {
		b.Owed = &owed.Ledger{}
	}
	for _, t := range in.Tables {
		b.kinds[t.Kind] = append(b.kinds[t.Kind], t)
	}
	b.lexicon = lexicon.New(lexicon.Unknowable{Platforms: b.nameless(schema.Platforms), Parts: b.nameless(schema.Parts)})
	b.lacking()
	b.settings()
	b.formulas()
	b.nominalSizes()
	b.platforms()
	b.traits()
	b.headsTwice()
	b.positions()
	b.cautions()
	b.translations()
	b.partNumbers()
	b.kits()
	b.partRows()
	b.positionRows()
	b.vehicles()
	b.breaks()
	b.references()
	b.fitments()
	b.rules()
	b.facts()
	b.calculated()
	b.publicColumns()
	b.limits()
	b.complaints()
	b.inspections()
	b.oddAdvice()
	b.sharedWords()
	b.otherThings()
	b.acceptances()
	b.asideRows()
	b.cat.Undeclared = b.missing()
	for _, t := range in.Tables {
		t.Records = nil
	}
	for _, a := range in.Aside {
		a.Table.Records = nil
	}
	return b.cat
}

// binder holds what has been bound so far.
type binder struct {
	Input
	cat   *model.Catalogue
	kinds map[string][]*table.Table

	lexicon      *lexicon.Lexicon // what is declared so far, and what cells say by it
	cautionNames lexicon.Names[*model.Caution]
	families     lexicon.Names[struct{}]
	cells        shared[*model.Fits]          // fitment cells of which there was nothing to report
	conditions   []*shared[lexicon.Condition] // cells under a trait, per trait
	noteTexts    memo.Texts[[]model.Note]
	pools        struct {
		fitments pool[model.Fitment]
		cells    pool[model.FitCell]
		lists    pool[*model.FitCell]
		sets     pool[model.TraitSet]
	}
	heads map[*table.Table]map[string]bool // see has

	suspects map[cell.Place]*finding.Finding  // of headers that are probably conditions
	misnamed map[cell.Place][]*model.Position // headers that are probably one of these positions
	headings map[cell.Place]*finding.Finding  // what was told of them
	listed   struct{ public, internal columnList }
	fig      figures
	states   map[*model.FactRow][]*model.Fact     // what a Facts row states
	unstated map[*model.Fact]bool                 // of which nobody knows what they measure
	aside    map[*model.Platform]*finding.Finding // why a Vehicles row that is or may be about it was set aside
	first    *finding.Finding                     // the first error since the row at hand began
	merged   map[cell.Place]*finding.Finding      // what was told of merged cells
	covered  []*finding.Finding                   // for each number of a part that a merged cell covers, what was told of it
	laid     map[string]*finding.Finding          // numbers that nothing declares, and that are taken for those
	headless bool                                 // a kind of sheet is missing that names were looked for in
	quiet    bool                                 // what is bound is not used
	owing    map[string]map[string]*finding.Finding

	// absent counts, per kind of sheet that is missing, the names that could not be
	// found because of it: they are consequences and not told one by one.
	absent map[string]int
}

// sizes is how sizes are written.
func (b *binder) sizes() measure.Options { return b.lexicon.Sizes }

func (b *binder) say(code finding.Code, sev finding.Severity, at cell.Place, format string, args ...any) {
	b.Report(&finding.Finding{Code: code, Severity: sev, Message: fmt.Sprintf(format, args...), Cells: finding.At(at)})
}

func (b *binder) fail(code finding.Code, at cell.Place, format string, args ...any) {
	b.say(code, finding.Error, at, format, args...)
}

// each calls f for every record of a kind of sheet.
func (b *binder) each(kind string, f func(row)) {
	for _, t := range b.kinds[kind] {
		for i := range t.Records {
			f(row{t, &t.Records[i]})
		}
	}
}

// twice reports a name that rows declare differently.
func (b *binder) twice(what, name string, first, again cell.Place) {
	if first == again {
		b.mergedName(what, name, first)
		return
	}
	b.Report(&finding.Finding{Code: finding.DeclaredTwice, Severity: finding.Error,
		Message: fmt.Sprintf("%s %s is declared by two rows that differ; the first one holds", what, name),
		Cells:   finding.At(first, again),
		Fix:     "make the two rows say the same, or delete one"})
}

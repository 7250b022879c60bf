package bind

import (
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/compiler/owed"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// declaring gives the columns under which a kind of sheet declares names, and the kind
// under which they are looked up: kits are found like parts, values of traits like traits.
func declaring(kind string) (columns []string, as string) {
	as = kind
	for _, c := range schema.Columns(kind) {
		if by := c.Holds.DeclaredBy(); c.Declares && by != "" {
			columns, as = append(columns, c.Name), by
		}
	}
	return columns, as
}

// lacking remembers what the sheets that are not used declare, by kind and folded name.
func (b *binder) lacking() {
	b.owing = map[string]map[string]*finding.Finding{}
	for _, a := range b.Aside {
		columns, kind := declaring(a.Table.Kind)
		if b.owing[kind] == nil {
			b.owing[kind] = map[string]*finding.Finding{"": a.Cause}
		}
		for i := range a.Table.Records {
			r := row{a.Table, &a.Table.Records[i]}
			for _, c := range columns {
				if name := word.Fold(r.name(c)); name != "" && b.owing[kind][name] == nil {
					b.owing[kind][name] = a.Cause
				}
			}
		}
	}
}

// owedFigure counts a formula that cannot be read under what says that a sheet which
// declares one of its names is not used.
func (b *binder) owedFigure(text string) bool {
	folded := word.Fold(text)
	for _, a := range b.Aside {
		for _, name := range figureNames(a.Table) {
			if key := word.Fold(name); key != "" && strings.Contains(folded, key) {
				a.Cause.Owe(finding.FormulaMalformed, 1)
				return true
			}
		}
	}
	return false
}

// figureNames gives the properties and facts that a sheet declares.
func figureNames(t *table.Table) []string {
	var out []string
	switch further := schema.FurtherOf(t.Kind); {
	case further.Properties, further.Facts:
		for _, c := range t.Columns {
			if !c.Known {
				out = append(out, c.Name)
			}
		}
	case t.Kind == schema.Calculated:
		for i := range t.Records {
			out = append(out, row{t, &t.Records[i]}.name("Name"))
		}
	}
	return out
}

// owed counts a finding under the one that says why its name is not declared: the sheet
// that declares it is not used.
func (b *binder) owed(code finding.Code, kind, name string) bool {
	cause := b.owing[kind][word.Fold(name)]
	missing := len(b.kinds[kind]) == 0 || b.unheaded(kind)
	if cause == nil && missing {
		cause = b.owing[kind][""] // whatever the name is, the kind of sheet is missing because of it
	}
	if cause == nil {
		return false
	}
	b.headless = b.headless || missing && kind != schema.Parts && kind != schema.Cautions
	cause.Owe(code, 1)
	return true
}

// quietly binds what is not used: nothing is told of it.
func (b *binder) quietly(f func()) {
	report, owing := b.Report, b.owing
	b.Report, b.owing, b.quiet = func(*finding.Finding) {}, nil, true
	f()
	b.Report, b.owing, b.quiet = report, owing, false
}

// asideRows reads what the sheets that are not used would say of vehicles.
func (b *binder) asideRows() {
	for _, a := range b.Aside {
		switch a.Table.Kind {
		case schema.Fitment:
			b.quietly(func() { b.asideFitments(a) })
		case schema.Vehicles:
			b.quietly(func() { b.asideVehicles(a) })
		case schema.Kits:
			for i := range a.Table.Records {
				r := row{a.Table, &a.Table.Records[i]}
				if p, ok := b.part(r.name("Part")); ok {
					b.Owed.Offered(p, a.Cause)
				}
				if kit, ok := b.part(r.name("Kit")); ok {
					b.Owed.Hold(kit, a.Cause)
				}
			}
		case schema.Limits:
			b.Owed.Limits = a.Cause
		case schema.Accepted:
			b.quietly(func() { b.asideAcceptances(a) })
		}
		b.asideTraits(a)
	}
}

// asideTraits keeps that a sheet which is not used tells vehicles apart by traits.
func (b *binder) asideTraits(a intake.Aside) {
	for _, t := range b.traitAt(a.Table) {
		if t != nil && a.Table.Kind != schema.Vehicles {
			b.Owed.Named(t, a.Cause)
		}
	}
	if a.Table.Kind == schema.Fitment {
		b.Owed.Fitments = a.Cause
	}
}

// asideFitments keeps what the rows would say, so that a gap which they would fill is
// known to be there because of them.
func (b *binder) asideFitments(a intake.Aside) {
	cols := b.fitmentColumns(a.Table)
	for i := range a.Table.Records {
		r := row{a.Table, &a.Table.Records[i]}
		fr := &model.Fitment{Row: r.r.Row, When: b.when(r, cols.traits), At: r.first()}
		if cols.long {
			b.longCell(r, fr)
		} else {
			b.wideCells(r, fr, cols)
		}
		b.maybe(fr, a.Cause)
	}
}

func (b *binder) asideVehicles(a intake.Aside) {
	traits := b.traitAt(a.Table)
	for i := range a.Table.Records {
		w := b.when(row{a.Table, &a.Table.Records[i]}, traits)
		b.partial(w.Platforms, a.Cause)
	}
}

// asideAcceptances keeps what the rows would accept.
func (b *binder) asideAcceptances(a intake.Aside) {
	traits := b.traitAt(a.Table)
	for i := range a.Table.Records {
		if row := b.acceptance(row{a.Table, &a.Table.Records[i]}, traits); row != nil {
			b.Owed.Accept(row, a.Cause)
		}
	}
}

// maybe keeps what the cells of a row that was set aside might say.
func (b *binder) maybe(fr *model.Fitment, cause *finding.Finding) {
	if cause == nil {
		return
	}
	for _, c := range fr.Cells {
		b.Owed.Add(owed.Maybe{When: fr.When, Position: c.Position, Fits: c.Fits, Cause: cause})
	}
}

// unreadCell keeps that a cell which cannot be read may say anything, or what it probably
// means.
func (b *binder) unreadCell(fr *model.Fitment, p *model.Position, cause *finding.Finding) {
	if p != nil && cause != nil && !b.quiet {
		b.Owed.Add(owed.Maybe{When: fr.When, Position: p, Fits: b.meantFits(), Cause: cause})
	}
}

// meantCell keeps what a cell says under a heading that is not read, at each position that
// may be meant by it.
func (b *binder) meantCell(r row, fr *model.Fitment, f *table.Field, heading cell.Pos) {
	at := r.t.Place(heading)
	if f.Broken || len(b.misnamed[at]) == 0 {
		return
	}
	b.quietly(func() {
		fits := b.fits(f.Text, r.place(*f))
		for _, p := range b.misnamed[at] {
			b.Owed.Add(owed.Maybe{When: fr.When, Position: p, Fits: fits, Cause: b.headings[at]})
		}
	})
}

// toBlame remembers the first error since a row began.
func (b *binder) toBlame(f *finding.Finding) {
	if b.first == nil && f.Severity == finding.Error {
		b.first = f
	}
}

// deadFitment keeps what a row that was set aside might say. Where its platform is
// misspelt, it is about the platform that was meant.
func (b *binder) deadFitment(r row, fr *model.Fitment, cause *finding.Finding) {
	if f, ok := r.field("Platform"); ok && fr.When.Platforms != nil && len(fr.When.Platforms) == 0 {
		p, ok := b.platformNames.find(once(&b.nearPlatforms, f.Text, func() string { return word.Nearest(f.Text, b.platformNames.list) }))
		if !ok {
			return
		}
		meant := *fr
		meant.When.Platforms = []*model.Platform{p}
		fr = &meant
	}
	b.maybe(fr, cause)
}

// deadFacts keeps what a Facts row that was set aside would state; cause is what sets it
// aside, nil where nothing was told.
func (b *binder) deadFacts(fr *model.FactRow, cause *finding.Finding) {
	if cause == nil {
		return
	}
	states := map[*model.Fact]bool{}
	for _, f := range b.states[fr] {
		states[f] = true
	}
	b.Owed.State(owed.Fact{When: fr.When, Facts: states, Cause: cause})
}

// blame gives the finding that is to blame for a row: the first error that was told since
// the row began, or what was told of a cell of it before.
func (b *binder) blame(r row) *finding.Finding {
	if b.first != nil {
		return b.first
	}
	for i := range r.r.Fields {
		if f := &r.r.Fields[i]; f.Broken {
			return b.told(r.place(*f))
		}
	}
	return nil
}

// gathered are the codes of findings that tell of several cells at once.
var gathered = [...]finding.Code{finding.CellNumberMangled, finding.CellDateMangled, finding.HeaderDuplicate, finding.MarkUndeclared, finding.LayoutMalformed, finding.LayoutConflict}

// told gives the error that was told of a cell before anything was bound.
func (b *binder) told(at cell.Place) *finding.Finding {
	i := slices.IndexFunc(b.Told, func(f *finding.Finding) bool {
		if f.Severity != finding.Error || len(f.Cells) == 0 {
			return false
		}
		// Cells of a column that share a fault are told together, and so are two headings.
		return f.Cells[0].Place == at || slices.Contains(gathered[:], f.Code) && slices.ContainsFunc(f.Cells, func(c finding.Cell) bool { return c.Place == at })
	})
	if i < 0 {
		return nil
	}
	return b.Told[i]
}

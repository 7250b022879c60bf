package bind

import (
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// fitmentColumns is what the columns of one Fitment sheet mean.
type fitmentColumns struct {
	traits    []*model.Trait
	positions []*model.Position // wide form: the column says what fits there
	notes     []*model.Position // the column holds notes on that position's cells
	long      bool
	meant     [][]*model.Position // the column is not read, and was probably meant for one of them; nil for none
}

func (b *binder) fitments() {
	for _, t := range b.kinds[schema.Fitment] {
		cols := b.fitmentColumns(t)
		for i := range t.Records {
			b.fitmentRow(row{t, &t.Records[i]}, cols)
		}
	}
}

// noteSuffix ends the header of a column of notes on one position: `Front damper note`.
const noteSuffix = " note"

func (b *binder) fitmentColumns(t *table.Table) fitmentColumns {
	c := fitmentColumns{traits: b.traitAt(t), positions: make([]*model.Position, len(t.Columns)), notes: make([]*model.Position, len(t.Columns))}
	c.long = b.long(t)
	for i, col := range t.Columns {
		if col.Known || c.traits[i] != nil {
			continue
		}
		if p, ok := b.positionNames.find(col.Name); ok {
			if c.long {
				b.unknownHeader(t, col, "; the sheet has the columns Position and Fits, so every row names its position, and columns for positions belong on another sheet")
				continue
			}
			c.positions[i] = p
			continue
		}
		if name, ok := strings.CutSuffix(word.Fold(col.Name), noteSuffix); ok {
			if p, ok := b.positionNames.find(name); ok {
				c.notes[i] = p
				continue
			}
		}
		if t.Headed {
			b.unknownHeader(t, col, "")
		}
	}
	if !c.long {
		b.placesTwice(t, &c)
	}
	b.orphanNotes(t, c)
	for i, col := range t.Columns {
		if p := b.misnamed[t.Place(col.At)]; p != nil {
			if c.meant == nil {
				c.meant = make([][]*model.Position, len(t.Columns))
			}
			c.meant[i] = p
		}
	}
	return c
}

// long tells whether each row names its position. Position and Fits go together.
func (b *binder) long(t *table.Table) bool {
	var position, fits *table.Column
	for i := range t.Columns {
		switch c := &t.Columns[i]; c.Name {
		case "Position":
			position = c
		case "Fits":
			fits = c
		}
	}
	switch {
	case position != nil && fits == nil:
		b.fail(finding.ColumnMissing, t.Place(position.At), "the sheet has a column Position and none called Fits; a sheet with one position a row needs both")
	case position == nil && fits != nil:
		b.fail(finding.ColumnMissing, t.Place(fits.At), "the sheet has a column Fits and none called Position; a sheet with one position a row needs both")
	}
	return position != nil && fits != nil
}

// orphanNotes reports columns of notes on a position that the sheet has no column for.
func (b *binder) orphanNotes(t *table.Table, c fitmentColumns) {
	if c.long {
		return
	}
	for i, p := range c.notes {
		if p == nil {
			continue
		}
		found := false
		for _, q := range c.positions {
			found = found || q == p
		}
		if cause := b.misnamedIn(t, p); !found && cause != nil {
			cause.Owe(finding.HeaderUnknown, 1)
		} else if !found {
			b.fail(finding.HeaderUnknown, t.Place(t.Columns[i].At), "the column holds notes on %s, and the sheet has no column %s", p.Name, p.Name)
		}
	}
}

func (b *binder) fitmentRow(r row, cols fitmentColumns) {
	b.first = nil
	fr := b.pools.fitments.one()
	*fr = model.Fitment{Index: len(b.cat.Fitments), Row: r.r.Row, When: b.when(r, cols.traits), At: r.first()}
	if _, ok := r.field("Platform"); !ok && r.t.Headed {
		b.fail(finding.ConditionMalformed, r.at("Platform"), "Platform is blank; write any where every platform is meant")
	}
	cause := b.first
	fr.Precedence, _ = r.whole("Precedence")
	fr.Notes = model.NotesOf(slices.Concat(b.notes(r.text("Note")), b.cautionKeys(r, "Cautions"))...)
	if cols.long {
		b.longCell(r, fr)
	} else {
		b.wideCells(r, fr, cols)
	}
	for i, p := range cols.notes {
		if p != nil {
			b.cellNote(r, fr, i, p)
		}
	}
	if fr.When.SetAside {
		b.first = cause
		b.deadFitment(r, fr, b.blame(r))
	}
	b.cat.Fitments = append(b.cat.Fitments, fr)
}

func (b *binder) longCell(r row, fr *model.Fitment) {
	name := r.name("Position")
	f, ok := r.field("Fits")
	if name == "" || !ok {
		return // the schema says that the two go together
	}
	p, known := b.positionNames.find(name)
	if f.Broken && known {
		b.meant = nil
		b.unreadCell(fr, p, b.told(r.place(f)))
	}
	if f.Broken {
		return
	}
	if !known {
		b.unknown(finding.ReferenceUnknown, schema.Positions, "position", name, b.positionNames.list, r.at("Position"))
	}
	b.fitCell(r, fr, &f, p)
}

func (b *binder) wideCells(r row, fr *model.Fitment, cols fitmentColumns) {
	n := 0
	for i := range r.r.Fields {
		if cols.positions[r.r.Fields[i].Column] != nil {
			n++
		} else if cols.meant != nil && cols.meant[r.r.Fields[i].Column] != nil {
			b.meantCell(r, fr, &r.r.Fields[i], r.t.Columns[r.r.Fields[i].Column].At)
		}
	}
	for i := range r.t.Again {
		if f, filled := r.t.Again[i].Under(r.r.Row); filled {
			b.meantCell(r, fr, f, r.t.Again[i].At)
		}
	}
	if n == 0 {
		return
	}
	fr.Cells = b.pools.lists.take(n)[:0]
	for i := range r.r.Fields {
		f := &r.r.Fields[i]
		switch p := cols.positions[f.Column]; {
		case p == nil:
		case f.Broken:
			b.meant = nil
			b.unreadCell(fr, p, b.told(r.place(*f)))
		default:
			b.fitCell(r, fr, f, p)
		}
	}
}

// fitCell adds what a cell says; p is nil where the position is unknown, and then the
// cell is only read for its faults.
func (b *binder) fitCell(r row, fr *model.Fitment, f *table.Field, p *model.Position) {
	b.first, b.meant = nil, nil
	fits := b.cells.of(r.t, f, func() (*model.Fits, bool) {
		fits := b.fits(f.Text, r.place(*f))
		return fits, fits != nil && sound(fits)
	})
	if fits == nil || len(b.meant) > 0 {
		b.unreadCell(fr, p, b.first)
	}
	if fits == nil || p == nil {
		return
	}
	if fits.With == p {
		b.fail(finding.FitmentMalformed, r.place(*f), "the cell says with %s, which is its own position; name the position whose item supplies this place", p.Name)
		return
	}
	c := b.pools.cells.one()
	*c = model.FitCell{Row: fr, Position: p, Fits: fits, Notes: fr.Notes, At: r.place(*f)}
	fr.Cells = append(fr.Cells, c)
}

// cellNote adds a note that belongs to one cell of the row.
func (b *binder) cellNote(r row, fr *model.Fitment, column int, p *model.Position) {
	for _, f := range r.r.Fields {
		if int(f.Column) != column || f.Broken {
			continue
		}
		for _, c := range fr.Cells {
			if c.Position == p {
				c.Notes = model.NotesOf(slices.Concat(c.Notes.All(), b.notes(strings.TrimSpace(f.Text)))...)
				return
			}
		}
		if cause := b.misnamedIn(r.t, p); cause != nil {
			cause.Owe(finding.FitmentMalformed, 1)
			return
		}
		b.say(finding.FitmentMalformed, finding.Warning, r.place(f), "the note on %s prints nowhere, since the row says nothing at %s", p.Name, p.Name)
	}
}

package bind

import (
	"errors"
	"math/big"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets"
)

// nominalSizes reads the Sizes sheets: nominal sizes beside the built-in ones.
func (b *binder) nominalSizes() {
	b.headers(schema.Sizes)
	seen := map[string]*model.SizeRow{}
	var rows []measure.Row
	b.each(schema.Sizes, func(r row) {
		s, ok := b.nominalSize(r)
		if !ok {
			return
		}
		key := word.Fold(s.System) + "\x00" + s.Size.Key()
		if s.Size.Wall != nil {
			key += "\x00" + s.Size.WallMM().RatString()
		}
		if old, twice := seen[key]; twice {
			if old.Outside != s.Outside || old.Within != s.Within || old.Source != s.Source {
				b.twice("the size", s.System+" "+s.Size.Name(), old.At, s.At)
			}
			return
		}
		seen[key] = s
		b.cat.SizeRows = append(b.cat.SizeRows, s)
		own := s.Row
		if own.Source == "" {
			own.Source = r.first().String()
		}
		rows = append(rows, own)
	})
	b.cat.Sizes = measure.NewTable(rows...)
}

// dimensions are the other lengths of a Sizes row, in millimetres; nil where blank.
type dimensions struct{ outside, tolerance, wall *big.Rat }

// nominalSize reads a row. It reports false where the row cannot be used, which has been
// told.
func (b *binder) nominalSize(r row) (*model.SizeRow, bool) {
	s := &model.SizeRow{At: r.at("Nominal")}
	s.System, s.Source = r.name("System"), r.text("Source")
	nominal, ok1 := b.stated(r, "Nominal")
	outside, ok2 := b.stated(r, "Outside diameter")
	tolerance, ok3 := b.stated(r, "Tolerance")
	wall, ok4 := b.stated(r, "Wall")
	if !ok1 || !ok2 || !ok3 || !ok4 || s.System == "" || !nominal.Known() {
		return nil, false // a blank Nominal or System breaks the schema
	}
	s.Size, s.Tolerance = nominal, tolerance.MM()
	s.Outside, s.Within, s.Wall = sizeName(outside), sizeName(tolerance), sizeName(wall)
	f := dimensions{outside.MM(), tolerance.MM(), wall.MM()}
	if column, why := contradiction(s.Size, f); why != "" {
		b.fail(finding.SizeContradiction, r.at(column), "%s", why)
		return nil, false
	}
	if f.wall != nil && nominal.Line == measure.Tube {
		s.Size.Wall = measure.Convert(f.wall, measure.Millimetre, nominal.Unit)
	}
	if column, why := againstTables(s.Row); why != "" {
		b.fail(finding.SizeContradiction, r.at(column), "%s", why)
		return nil, false
	}
	return s, true
}

func sizeName(s measure.Size) string {
	if !s.Known() {
		return ""
	}
	return s.Name()
}

// stated reads a length of a Sizes row; a blank cell gives the size that is not known. It
// reports false for one that cannot be read, which has been told.
func (b *binder) stated(r row, column string) (measure.Size, bool) {
	f, ok := r.field(column)
	if !ok {
		return measure.Size{}, true
	}
	if f.Broken {
		return measure.Size{}, false
	}
	v := f
	if column == "Tolerance" && v.Kind == sheets.Text {
		v.Text = strings.TrimLeft(strings.TrimSpace(v.Text), "±+/-− ")
	}
	size, err := b.parseSize(v, r.t.Columns[f.Column].Unit)
	switch {
	case errors.Is(err, measure.ErrUnitless):
		b.fail(finding.SizeUnitless, r.place(f), "%s", err)
	case err != nil:
		b.fail(finding.SizeMalformed, r.place(f), "%s", err)
	}
	return size, err == nil
}

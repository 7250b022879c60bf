package intake

import (
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/line"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// relieve takes what looked as if a spreadsheet program had made it of something else for what it
// is, where the sheets of traits say that a column holds dates or serial numbers.
func (r *Reader) relieve() {
	x := onLine{kinds: lineTraits(r.Tables), at: map[cell.Place]bool{}}
	if len(x.kinds) == 0 {
		return
	}
	for _, t := range r.Tables {
		x.table(t)
	}
	r.found = slices.DeleteFunc(r.found, func(f *finding.Finding) bool {
		return (f.Code == finding.CellDateMangled || f.Code == finding.CellNumberMangled) && x.at[f.Cells[0].Place]
	})
}

// lineTraits gives the traits whose values stand on a line, names folded.
func lineTraits(tables []*table.Table) map[string]line.Kind {
	out := map[string]line.Kind{}
	for _, t := range tables {
		if t.Kind != schema.Traits {
			continue
		}
		for i := range t.Records {
			switch name := textUnder(t, &t.Records[i], "Trait"); textUnder(t, &t.Records[i], "Kind") {
			case model.Serial.String():
				out[name] = line.Serial
			case model.Date.String():
				out[name] = line.Date
			}
		}
	}
	return out
}

// textUnder gives what a record has under a column that the kind of sheet defines, folded.
func textUnder(t *table.Table, rec *table.Record, column string) string {
	for i := range rec.Fields {
		if c := &t.Columns[rec.Fields[i].Column]; c.Known && c.Name == column {
			return word.Fold(rec.Fields[i].Text)
		}
	}
	return ""
}

// onLine finds the cells of columns of dates and of serial numbers.
type onLine struct {
	kinds map[string]line.Kind
	at    map[cell.Place]bool // of those that are read as what they are
}

func (x *onLine) table(t *table.Table) {
	for i := range t.Records {
		rec := &t.Records[i]
		for k := range rec.Fields {
			f := &rec.Fields[k]
			if !f.OnLine {
				continue
			}
			kind, is := x.of(t, rec, &t.Columns[f.Column])
			if is && (f.Kind == sheets.Date) == (kind == line.Date) {
				f.Broken, f.Kind = false, sheets.Text
				x.at[t.Place(f.At)] = true
			}
		}
	}
}

// of gives what stands in a cell under a column.
func (x *onLine) of(t *table.Table, rec *table.Record, c *table.Column) (line.Kind, bool) {
	name := word.Fold(c.Name)
	if c.Known {
		own, _ := schema.Find(t.Kind, c.Name)
		if own.Holds != schema.HoldsValue {
			return 0, false
		}
		name = textUnder(t, rec, "Trait")
	} else if !schema.FurtherOf(t.Kind).Traits {
		return 0, false
	}
	kind, is := x.kinds[name]
	return kind, is
}

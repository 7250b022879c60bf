package compiler

import (
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/table"
	"ferrule/schema"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// validate holds every record against the schemas of its kind of sheet.
func validate(set *schema.Set, tables []*table.Table, report func(*finding.Finding)) {
	for _, t := range tables {
		if !t.Headed {
			continue // the header is reported, and every row would only repeat it
		}
		for i := range t.Records {
			record(set, t, &t.Records[i], report)
		}
	}
}

func record(set *schema.Set, t *table.Table, rec *table.Record, report func(*finding.Finding)) {
	var in schema.Row
	var broken []string
	for _, f := range rec.Fields {
		name := t.Columns[f.Column].Name
		if f.Broken {
			broken = append(broken, name)
			continue
		}
		in.Fields = append(in.Fields, schema.Field{Name: name, Value: value(f)})
	}
	for _, v := range set.Validate(t.Kind, in) {
		if slices.Contains(broken, v.Field) {
			continue // the cell has its own finding; that it is missing follows from it
		}
		report(&finding.Finding{Code: ValueInvalid, Severity: finding.Error, Message: v.Message,
			Cells: finding.At(where(t, rec, v.Field))})
	}
}

func value(f table.Field) any {
	switch f.Kind {
	case sheets.Number:
		return f.Number
	case sheets.Bool:
		return f.Number != 0
	}
	return strings.TrimSpace(f.Text)
}

// where gives the cell of a column in a record, also where it is blank; a violation
// of the whole record is at its first cell.
func where(t *table.Table, rec *table.Record, column string) cell.Place {
	for _, f := range rec.Fields {
		if t.Columns[f.Column].Name == column {
			return t.Place(f.At)
		}
	}
	for _, c := range t.Columns {
		if c.Name == column {
			return t.Place(cell.Pos{Row: rec.Row, Col: c.At.Col})
		}
	}
	return t.First(rec)
}

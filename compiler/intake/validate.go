package intake

import (
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// Schemas gives the schemas of the kinds of sheets, made stricter by those of the catalogue;
// what is wrong with one of these is told.
func Schemas(src *Sources, report func(*finding.Finding)) *schema.Set {
	set, problems := schema.New(src.Schemas)
	for _, p := range problems {
		report(&finding.Finding{Code: finding.SchemaInvalid, Severity: finding.Error, Message: p.Message,
			Cells: finding.At(cell.Place{Sheet: &cell.Sheet{File: p.File}})})
	}
	return set
}

// Validate holds every record against the schemas of its kind of sheet.
func Validate(set *schema.Set, tables []*table.Table, report func(*finding.Finding)) {
	for _, t := range tables {
		if !t.Headed {
			continue // the header is reported, and every row would only repeat it
		}
		v, values := validator(set, t)
		for i := range t.Records {
			record(v, values, t, &t.Records[i], report)
		}
	}
}

// validator makes what validates the records of a table, and room for one of them.
func validator(set *schema.Set, t *table.Table) (*schema.Validator, []schema.Value) {
	names := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		names[i] = c.Name
	}
	return set.Validator(t.Kind, names), make([]schema.Value, len(names))
}

// record validates one record; values is used anew for each.
func record(v *schema.Validator, values []schema.Value, t *table.Table, rec *table.Record, report func(*finding.Finding)) {
	clear(values)
	for i := range rec.Fields {
		if f := &rec.Fields[i]; !f.Broken {
			values[f.Column] = value(f)
		}
	}
	for _, broke := range v.Validate(values) {
		if broken(t, rec, broke.Field) {
			continue // the cell has its own finding; that it is missing follows from it
		}
		report(&finding.Finding{Code: finding.ValueInvalid, Severity: finding.Error, Message: broke.Message,
			Cells: finding.At(where(t, rec, broke.Field))})
	}
}

// broken tells whether the cell of a column cannot be read; without a column, whether any of the record.
func broken(t *table.Table, rec *table.Record, column string) bool {
	return slices.ContainsFunc(rec.Fields, func(f table.Field) bool { return f.Broken && (column == "" || t.Columns[f.Column].Name == column) })
}

func value(f *table.Field) schema.Value {
	switch f.Kind {
	case sheets.Number:
		return schema.Number(f.Number())
	case sheets.Bool:
		return schema.Bool(f.Text == "TRUE")
	}
	if f.Plain {
		return schema.Shared(f.Text, f.Shared)
	}
	return schema.Text(strings.TrimSpace(f.Text))
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
			return t.In(rec, &c)
		}
	}
	return t.First(rec)
}

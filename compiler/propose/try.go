package propose

import (
	"slices"

	"ferrule/compiler/intake/layout"
	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// maxPreview is how many rows a preview has.
const maxPreview = 5000

// try reads the workbook as is proposed, with the reader of catalogues: what comes of it is the preview,
// and what that reader finds fault with is told.
func (b *builder) try(book *sheets.Book) error {
	set := layout.New(b.rows(), b.fault)
	for i, info := range book.Sheets() {
		plan := set.For(b.file, info.Name)
		if plan == nil {
			continue
		}
		sheet := &cell.Sheet{File: b.file, Name: info.Name, Order: i}
		missing := 0
		tables, err := plan.Read(book, i, sheet, table.LayoutOf, func(f *table.Fault) {
			if f.What == table.Unclaimed || f.What == table.Undeclared {
				missing += f.Count + 1
			}
			b.fault(f)
		})
		if err != nil {
			return err
		}
		for _, t := range tables {
			b.preview(t)
		}
		b.claimed(info.Name, missing)
	}
	set.Ended(nil, func(string) bool { return false }, b.fault)
	return nil
}

// rows gives the proposed rows as those of a Layouts sheet, from its second row on.
func (b *builder) rows() []*layout.Row {
	at := &cell.Sheet{File: "the proposal", Name: schema.Title(schema.Layouts)}
	var out []*layout.Row
	for i, r := range b.out.Rules {
		place := func(col int32) cell.Place { return cell.Place{Sheet: at, Pos: cell.Pos{Row: int32(i + 2), Col: col}} }
		out = append(out, &layout.Row{Sheet: r.Sheet, Word: word.Fold(r.Word), Where: r.Where, As: r.As,
			SheetAt: place(1), WordAt: place(2), WhereAt: place(3), AsAt: place(4)})
	}
	return out
}

// claimed notes how many cells of a sheet are read or left out on purpose.
func (b *builder) claimed(sheet string, missing int) {
	for i := range b.out.Seen {
		if s := &b.out.Seen[i]; s.Sheet == sheet {
			s.Claimed = max(0, s.Filled-missing)
		}
	}
}

// fault keeps what the reader finds fault with.
func (b *builder) fault(f *table.Fault) {
	told := Told{Message: f.Message, Fix: f.Fix}
	for _, c := range f.Cells[:min(len(f.Cells), maxCells)] {
		if c.Sheet != nil && c.Pos.Row > 0 {
			told.Cells = append(told.Cells, At{c.Sheet.Name, c.Pos})
		}
	}
	b.out.Told = append(b.out.Told, told)
}

// preview adds the rows of a table to the preview of its kind.
func (b *builder) preview(t *table.Table) {
	i := slices.IndexFunc(b.out.Preview, func(p Preview) bool { return p.Kind == t.Kind })
	if i < 0 {
		i = len(b.out.Preview)
		b.out.Preview = append(b.out.Preview, Preview{Kind: t.Kind})
	}
	p := &b.out.Preview[i]
	at := make([]int, len(t.Columns))
	for k := range t.Columns {
		at[k] = p.column(t.Columns[k].Name)
	}
	for k := range t.Records {
		if b.shown == maxPreview {
			b.out.More += len(t.Records) - k
			return
		}
		b.shown++
		row := Row{Texts: make([]string, len(p.Columns))}
		for _, f := range t.Records[k].Fields {
			row.Texts[at[f.Column]] = f.Text
			if f.Broken {
				row.Texts[at[f.Column]] = "not read: " + f.Text
			}
			if place := t.Place(f.At); place.Sheet != nil && place.Pos.Row > 0 && !slices.Contains(row.From, At{place.Sheet.Name, place.Pos}) {
				row.From = append(row.From, At{place.Sheet.Name, place.Pos})
			}
		}
		p.Rows = append(p.Rows, row)
	}
}

// column gives the index of a column, which is added if there is none.
func (p *Preview) column(name string) int {
	i := slices.IndexFunc(p.Columns, func(c string) bool { return word.Fold(c) == word.Fold(name) })
	if i >= 0 {
		return i
	}
	p.Columns = append(p.Columns, name)
	for r := range p.Rows {
		p.Rows[r].Texts = append(p.Rows[r].Texts, "")
	}
	return len(p.Columns) - 1
}

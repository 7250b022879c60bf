package layout

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// kindLayout gives what a kind of sheet must look like.
func kindLayout(kind string) table.Layout {
	l := table.Layout{Kind: kind}
	for _, c := range schema.Columns(kind) {
		l.Known = append(l.Known, c.Name)
	}
	return l
}

// layoutRows makes rows of the sheet Chart, of three cells each.
func layoutRows(cells ...string) []*Row {
	layouts := &cell.Sheet{File: "c.xlsx", Name: "Layouts"}
	var out []*Row
	for c := range slices.Chunk(cells, 3) {
		at := func(col int32) cell.Place {
			return cell.Place{Sheet: layouts, Pos: cell.Pos{Row: int32(len(out) + 2), Col: col}}
		}
		c = append(c, "", "")
		out = append(out, &Row{Sheet: "Chart", Word: c[0], Where: c[1], As: c[2], SheetAt: at(1), WordAt: at(2), WhereAt: at(3), AsAt: at(4)})
	}
	return out
}

// readTexts reads rows of texts by a plan.
func readTexts(p *Plan, rows [][]string, merges []cell.Range, report func(*table.Fault)) ([]*table.Table, error) {
	known := &ahead{cells: map[cell.Pos]sheets.Value{}, legends: map[string]legend{}, merges: merges, done: true}
	sheet := &cell.Sheet{File: "c.xlsx", Name: "Chart"}
	r := &reader{Plan: p, sheet: sheet, kinds: kindLayout, report: report, ahead: known, merged: newMerged(merges), watch: table.NewWatch(sheet, false, report)}
	for _, piece := range p.pieces {
		for _, s := range piece.skips {
			if s.what == aRowText || s.what == rowNumbers || s.what == aCell {
				r.skips = append(r.skips, s)
			}
		}
		for _, h := range piece.is {
			if h.what == aCell && int(h.pos.Row) <= len(rows) && int(h.pos.Col) <= len(rows[h.pos.Row-1]) {
				known.cells[h.pos] = text(rows[h.pos.Row-1][h.pos.Col-1])
			}
		}
		r.gs = append(r.gs, newReading(r, piece))
	}
	for i, cells := range rows {
		in := &sheets.Row{Number: int32(i + 1)}
		for k, s := range cells {
			if s != "" {
				in.Cells = append(in.Cells, sheets.Cell{Col: int32(k + 1), Value: text(s)})
			}
		}
		if len(in.Cells) > 0 {
			r.row(in)
		}
		if err := r.whole(); err != nil {
			return nil, err
		}
	}
	out := r.end()
	return out, r.whole()
}

// FuzzLayout reads any small sheet by any rows of Layouts: no panic, no more records than are
// allowed, and fields in the order of their columns, each with a place. Every filled cell outside
// of what some row claims as a whole is told or stands in a record.
func FuzzLayout(f *testing.F) {
	f.Add("table\theader 1\tFitment\nis\tNumber\tPart\nacross\tH7 … H9\tPlatform\nis\t\"Damper\"\tPosition\nmark\tx\tthis row\nmark\tx\tor",
		"Number\tH7\tH9\nHD-10\tx\tx\nHD-20\tx\t\n", "")
	f.Add("table\theader 1-2\tFitment\nis\tPlace\tPosition\nacross\tH7 … H9\tPlatform / Years\nsay\tYears\tcentury = 1950\nsplit\tcells /\teach",
		"Place\tH7\t\tH9\n\t01-03\t04 up\tthru 07\nFront\tA/B\tC\tD\n", "A1:A2 B1:C1")
	f.Add("table\theader 1 until \"Total\"\tFitment\nis\tA\tPlatform, Years\ndown\tA\nsection\tmerged\tPosition\nis\tB\tFits\nskip\tC\nsay\tB\t= none: no",
		"A\tB\tC\nFront\nH7 2001\tx\ty\n\tz\nTotal\t3\n", "A2:C2")
	f.Add("table\theader 1\tParts\nacross\tP1 … P2\tPart\nis\tcolumn A\theads\nmark\t-\tnothing", "\tP1\tP2\nFamily\tD\tD\nMass (kg)\t1\t-\n", "")
	f.Add("table\tno header rows 1-9\tKits\nis\tcolumn A\tKit\nis\tcolumn B\tPart\nsplit\tcolumn B +\teach\nis\tcell C1\tQuantity", "K\tA+B\t2\n", "")
	f.Fuzz(func(t *testing.T, layouts, sheet, merges string) {
		if len(layouts) > 3000 || len(sheet) > 3000 || len(merges) > 100 {
			return
		}
		var cells []string
		for line := range strings.SplitSeq(layouts, "\n") {
			c := append(strings.Split(line, "\t"), "", "")
			cells = append(cells, strings.TrimSpace(c[0]), strings.TrimSpace(c[1]), strings.TrimSpace(c[2]))
		}
		var rows [][]string
		for line := range strings.SplitSeq(sheet, "\n") {
			rows = append(rows, strings.Split(line, "\t"))
		}
		var ranges []cell.Range
		for _, ref := range strings.Fields(merges) {
			r, ok := cell.ParseRange(ref)
			if !ok || slices.ContainsFunc(ranges, func(o cell.Range) bool { return meet(o, r) }) {
				return // the reader of workbooks refuses these
			}
			ranges = append(ranges, r)
		}
		told := map[cell.Pos]bool{}
		report := func(f *table.Fault) {
			require.NotEmpty(t, f.Message)
			require.NotEmpty(t, f.Cells)
			for _, c := range f.Cells {
				require.NotNil(t, c.Sheet)
				told[c.Pos] = true
			}
		}
		for _, p := range New(layoutRows(cells...), report).Plans {
			tables, err := readTexts(p, rows, ranges, report)
			if err != nil {
				continue
			}
			for _, tb := range tables {
				holdTable(t, tb)
			}
		}
	})
}

func meet(a, b cell.Range) bool {
	return a.From.Row <= b.To.Row && b.From.Row <= a.To.Row && a.From.Col <= b.To.Col && b.From.Col <= a.To.Col
}

func holdTable(t *testing.T, tb *table.Table) {
	t.Helper()
	for i := range tb.Records {
		r := &tb.Records[i]
		last := int32(-1)
		for k := range r.Fields {
			f := &r.Fields[k]
			require.Greater(t, f.Column, last, "the columns of a record")
			require.Less(t, int(f.Column), len(tb.Columns))
			last = f.Column
			assert.NotNil(t, tb.Place(f.At).Sheet)
		}
		assert.NotNil(t, tb.First(r).Sheet)
		for k := range tb.Columns {
			assert.NotNil(t, tb.In(r, &tb.Columns[k]).Sheet)
		}
	}
}

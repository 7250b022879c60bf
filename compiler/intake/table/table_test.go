package table

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/finding"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// sheet gives rows of text: a line is a row, | the next column.
func sheet(text string) []sheets.Row {
	var rows []sheets.Row
	for i, line := range strings.Split(text, "\n") {
		var cells []sheets.Cell
		for j, s := range strings.Split(line, "|") {
			if strings.TrimSpace(s) != "" {
				cells = append(cells, sheets.Cell{Col: int32(j + 1), Value: sheets.Value{Kind: sheets.Text, Text: s}})
			}
		}
		if len(cells) > 0 {
			rows = append(rows, sheets.Row{Number: int32(i + 1), Cells: cells})
		}
	}
	return rows
}

// read makes a table of rows with merged ranges.
func read(rows []sheets.Row, merges []cell.Range) (*Table, []*finding.Finding) {
	var told []*finding.Finding
	layout := Layout{Kind: "kits", Required: []string{"Kit", "Part"}, Known: []string{"Kit", "Part", "Quantity"}}
	begin := func(t *Table) func(*Record) {
		return func(rec *Record) { t.Records = append(t.Records, Record{rec.Row, slices.Clone(rec.Fields)}) }
	}
	r := newReader(&cell.Sheet{File: "c.xlsx", Name: "Kits"}, layout, merges, begin, func(f *finding.Finding) { told = append(told, f) })
	for i := range rows {
		r.row(&rows[i])
	}
	return r.end(sheets.Info{}, &sheets.Trailer{Merges: merges}), told
}

func ranges(t require.TestingT, names ...string) []cell.Range {
	var out []cell.Range
	for _, n := range names {
		from, to, _ := strings.Cut(n, ":")
		a, ok := cell.Parse(from)
		require.True(t, ok)
		b, ok := cell.Parse(to)
		require.True(t, ok)
		out = append(out, cell.Range{From: a, To: b})
	}
	return out
}

// said writes a finding as its code and place.
func said(fs []*finding.Finding) []string {
	out := []string{}
	for _, f := range fs {
		out = append(out, fmt.Sprint(f.Code, " ", f.Cells[0].Pos))
	}
	return out
}

func TestHeader(t *testing.T) {
	for name, c := range map[string]struct {
		text    string
		merges  []string
		columns string // name and place of each column
		headed  bool
		records int
		told    []string
	}{
		"first row":             {"Kit|Part\nK|D", nil, "Kit A1, Part B1", true, 1, nil},
		"any order and case":    {"part|| KIT \nD||K", nil, "Part A1, Kit C1", true, 1, nil},
		"under a title":         {"Kits\n\nas of spring\nKit|Part\nK|D", nil, "Kit A4, Part B4", true, 1, nil},
		"a title that has one":  {"Kit\nKit|Part\nK|D", nil, "Kit A2, Part B2", true, 1, nil},
		"the first of two":      {"Kit|Part\nKit|Part\nK|D", nil, "Kit A1, Part B1", true, 2, nil},
		"row 20":                {strings.Repeat("\n", 19) + "Kit|Part\nK|D", nil, "Kit A20, Part B20", true, 1, nil},
		"row 20 under a title":  {"Kit" + strings.Repeat("\n", 19) + "Kit|Part\nK|D", nil, "Kit A20, Part B20", true, 1, nil},
		"row 21 under a title":  {"Kit" + strings.Repeat("\n", 20) + "Kit|Part", nil, "Kit A1", false, 1, []string{"column-missing A21"}},
		"no row":                {"", nil, "", false, 0, []string{"column-missing "}},
		"white space":           {"Kit|Part|   \nK|D|x", nil, "Kit A1, Part B1", true, 1, []string{"header-blank C2"}},
		"a unit":                {"Kit [mm]|Part", nil, "Kit A1, Part B1", true, 0, nil},
		"merged over a column":  {"Kit|Part||\nK|D", []string{"B1:C1"}, "Kit A1, Part B1", true, 1, []string{"header-duplicate B1"}},
		"merged over two rows":  {"Kit|\n|Part\nK|D", []string{"A1:A2"}, "Kit A2, Part B2", true, 1, nil},
		"a title over all":      {"Kits||\nKit|Part\nK|D", []string{"A1:C1"}, "Kit A2, Part B2", true, 1, nil},
		"a name twice":          {"Kit|Part|part |KIT\nK|D|E|L", nil, "Kit A1, Part B1", true, 1, []string{"header-duplicate B1", "header-duplicate A1"}},
		"values without header": {"Kit|Part||Quantity\nK|D|x|2\nK|D|y|", nil, "Kit A1, Part B1, Quantity D1", true, 2, []string{"header-blank C2"}},
	} {
		t.Run(name, func(t *testing.T) {
			got, told := read(sheet(c.text), ranges(t, c.merges...))
			var columns []string
			for _, col := range got.Columns {
				columns = append(columns, col.Name+" "+col.At.String())
			}
			assert.Equal(t, c.columns, strings.Join(columns, ", "))
			assert.Equal(t, c.headed, got.Headed)
			assert.Len(t, got.Records, c.records)
			assert.ElementsMatch(t, c.told, said(told))
		})
	}
}

func TestHeaderSaysWhatIsMissing(t *testing.T) {
	for text, says := range map[string]string{
		"Kit|Quantity":    `no column "Part"`,
		"Set|Teil":        `no column "Kit", "Part"`,
		"Kit|Prat":        `no column "Part" \(B1 says "Prat": did you mean Part\?\)`,
		"Title\nKit|Prat": `no column "Kit", "Part"`,
		"":                `the sheet is empty; write a header with "Kit", "Part"`,
	} {
		_, told := read(sheet(text), nil)
		require.NotEmpty(t, told, "%q", text)
		assert.Equal(t, finding.ColumnMissing, told[0].Code)
		assert.Regexp(t, says, told[0].Message, "%q", text)
	}
}

func TestUnitOfHeader(t *testing.T) {
	for text, want := range map[string][2]string{
		"Length":               {"Length", ""},
		" Extended  length ":   {"Extended length", ""},
		"Length [mm]":          {"Length", "mm"},
		"Length[ mm ]":         {"Length", "mm"},
		"Length [of eye] [in]": {"Length [of eye]", "in"},
		"Length [mm] free":     {"Length [mm] free", ""},
		"[mm]":                 {"[mm]", ""},
		"Length []":            {"Length", ""},
	} {
		name, unit := header(text)
		assert.Equal(t, want, [2]string{name, unit}, "%q", text)
	}
}

// values writes the records as their fields with the cells that these came from.
func values(t *Table) string {
	var out []string
	for _, rec := range t.Records {
		var fields []string
		for _, f := range rec.Fields {
			fields = append(fields, fmt.Sprintf("%s %s %s", t.Columns[f.Column].Name, f.Text, f.At))
		}
		out = append(out, fmt.Sprintf("%d: %s", rec.Row, strings.Join(fields, ", ")))
	}
	return strings.Join(out, "\n")
}

func TestMerges(t *testing.T) {
	for name, c := range map[string]struct {
		text   string
		merges []string
		want   string
		told   []string
	}{
		"down":               {"Kit|Part\nK|D\n|E\n|F", []string{"A2:A3"}, "2: Kit K A2, Part D B2\n3: Kit K A2, Part E B3\n4: Part F B4", nil},
		"across":             {"Kit|Part|Quantity\nK|D|\nL|E|3", []string{"B2:C2"}, "2: Kit K A2, Part D B2, Quantity D B2\n3: Kit L A3, Part E B3, Quantity 3 C3", nil},
		"a block":            {"Kit|Part|Quantity\nK||2\n||3", []string{"A2:B3"}, "2: Kit K A2, Part K A2, Quantity 2 C2\n3: Kit K A2, Part K A2, Quantity 3 C3", nil},
		"over an empty row":  {"Kit|Part\nK|D\n\n|E", []string{"A2:A4"}, "2: Kit K A2, Part D B2\n3: Kit K A2\n4: Kit K A2, Part E B4", nil},
		"of nothing":         {"Kit|Part\n|D\n|E", []string{"A2:A3"}, "2: Part D B2\n3: Part E B3", nil},
		"over a value":       {"Kit|Part\nK|D\nL|E", []string{"A2:A3"}, "2: Kit K A2, Part D B2\n3: Kit K A2, Part E B3", []string{"cell-covered A3"}},
		"over the only one":  {"Kit|Part\nK|D\nL|", []string{"A2:A3"}, "2: Kit K A2, Part D B2\n3: Kit K A2", []string{"cell-covered A3"}},
		"beside the columns": {"Kit|Part\nK|D|x\nL|E", []string{"C2:C3"}, "2: Kit K A2, Part D B2\n3: Kit L A3, Part E B3", []string{"header-blank C2"}},
		"from the header":    {"Kit|Part\nK|D\n|E", []string{"A1:A3"}, "2: Kit K A2, Part D B2\n3: Part E B3", nil},
	} {
		t.Run(name, func(t *testing.T) {
			got, told := read(sheet(c.text), ranges(t, c.merges...))
			assert.Equal(t, c.want, values(got))
			assert.ElementsMatch(t, c.told, said(told))
		})
	}
}

// TestMergesAgainstEachCell asks of each cell by itself which merged range covers it.
func TestMergesAgainstEachCell(t *testing.T) {
	const rows, cols = 8, 3
	rapid.Check(t, func(t *rapid.T) {
		var grid [rows + 2][cols + 1]string // from row 2 and column 1
		lines := []string{"Kit|Part|Quantity"}
		for r := 2; r < rows+2; r++ {
			for c := 1; c <= cols; c++ {
				if rapid.Bool().Draw(t, "filled") {
					grid[r][c] = fmt.Sprintf("v%d%d", r, c)
				}
			}
			lines = append(lines, strings.Join(grid[r][1:], "|"))
		}
		var merges []cell.Range
		var first [rows + 2][cols + 1]cell.Pos
		for range rapid.IntRange(0, 4).Draw(t, "merges") {
			m := cell.Range{From: cell.Pos{Row: rapid.Int32Range(2, rows+1).Draw(t, "row"), Col: rapid.Int32Range(1, cols).Draw(t, "col")}}
			m.To = cell.Pos{Row: rapid.Int32Range(m.From.Row, rows+1).Draw(t, "last row"), Col: rapid.Int32Range(m.From.Col, cols).Draw(t, "last col")}
			if slices.ContainsFunc(merges, func(o cell.Range) bool {
				return m.From.Row <= o.To.Row && o.From.Row <= m.To.Row && m.From.Col <= o.To.Col && o.From.Col <= m.To.Col
			}) {
				continue // ranges do not overlap
			}
			merges = append(merges, m)
			for r := m.From.Row; r <= m.To.Row; r++ {
				for c := m.From.Col; c <= m.To.Col; c++ {
					first[r][c] = m.From
				}
			}
		}
		rapid.SampledFrom([]func(){func() {}, func() { slices.Reverse(merges) }}).Draw(t, "order")()

		got, told := read(sheet(strings.Join(lines, "\n")), merges)
		var want []string
		hidden := 0
		for row := int32(2); row < rows+2; row++ {
			var fields []string
			for col := int32(1); col <= cols; col++ {
				at := cell.Pos{Row: row, Col: col}
				from := first[row][col]
				if from == (cell.Pos{}) {
					from = at
				}
				if from != at && grid[row][col] != "" {
					hidden++
				}
				if v := grid[from.Row][from.Col]; v != "" {
					fields = append(fields, fmt.Sprintf("%s %s %s", [...]string{"", "Kit", "Part", "Quantity"}[col], v, from))
				}
			}
			if len(fields) > 0 {
				want = append(want, fmt.Sprintf("%d: %s", row, strings.Join(fields, ", ")))
			}
		}
		require.Equal(t, strings.Join(want, "\n"), values(got))
		require.Len(t, told, hidden, "%v", said(told))
	})
}

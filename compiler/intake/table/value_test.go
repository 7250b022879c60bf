package table

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// judged gives the faults of one value under a column.
func judged(t require.TestingT, kind string, c Column, v sheets.Value) []*Fault {
	var told []*Fault
	at := cell.Pos{Row: 2, Col: 1}
	fresh := func() *reader {
		told = nil
		r := newReader(&cell.Sheet{}, Layout{Kind: kind}, nil, nil, func(f *Fault) { told = append(told, f) })
		r.table, r.cols = &Table{Columns: []Column{c}}, &columns{}
		return r
	}
	r := fresh()
	r.noticeText(&v)
	r.judge(0, v, at) // past the shortcut
	r.end(sheets.Info{}, &sheets.Trailer{})
	slow := len(told)
	r = fresh()
	r.field(0, &v, at)
	r.end(sheets.Info{}, &sheets.Trailer{})
	require.Len(t, told, slow, "the shortcut passed over %+v", v)
	return told
}

func TestWhatToTypeInstead(t *testing.T) {
	text := func(s string) sheets.Value { return sheets.Value{Kind: sheets.Text, Text: s} }
	number := func(f float64, s, format string) sheets.Value {
		return sheets.Value{Kind: sheets.Number, Number: f, Text: s, Format: format}
	}
	date := func(serial float64, s, format string) sheets.Value {
		return sheets.Value{Kind: sheets.Date, Number: serial, Text: s, Format: format}
	}
	part, line, inch := Column{Name: "Part", Known: true}, Column{Name: "Line size", Known: true}, Column{Name: "Line size", Known: true, Unit: "in"}
	years := Column{Name: "Years", Known: true}
	further, weight := Column{Name: "Bore"}, Column{Name: "Mass", Unit: "kg"}
	for _, c := range []struct {
		kind  string
		in    Column
		value sheets.Value
		what  What // 0 for none
		fix   string
	}{
		{"parts", line, date(45293, "2024-01-02", "d-mmm"), DateMangled, "type 1/2 in$"},
		{"parts", inch, date(45293, "2024-01-02", "d-mmm"), DateMangled, "type 1/2$"},
		{"parts", line, text("2-Jan"), DateMangled, "type 1/2 in$"},
		{"parts", line, text("May-32"), DateMangled, "type 5/32 in$"},
		{"parts", line, text("2024-01-02 00:00:00"), DateMangled, "type 1/2 in$"},
		{"parts", line, text("Marker-12"), 0, ""},
		{"fitment", years, text("Jul-12"), DateMangled, "type 2007-2012$"},
		{"fitment", years, text("Jul-2012"), 0, ""}, // a month that someone wrote; whoever reads years tells of it
		{"parts", part, text("MAR-12"), 0, ""},
		{"parts", part, date(45293, "2024-01-02", "d-mmm"), DateMangled, "type 1-2 or 2-1 or JAN-2 or 45293$"},
		{"parts", weight, date(12.5, "1900-01-12T12:00:00", "d-mmm"), DateMangled, "to General, then type 12.5$"},
		{"parts", weight, date(0.5, "12:00:00", "h:mm"), DateMangled, "type 0.5$"},
		{"parts", part, number(417, "417", "00000"), NumberMangled, "type 00417"},
		{"parts", part, number(1.2e6, "1200000", "0.00E+00"), NumberMangled, "12E5"},
		{"parts", part, number(123, "123", "0.00E+00"), NumberMangled, "type the value again: 123,"},
		{"parts", part, number(0.5, "0.5", "0.00E+00"), NumberMangled, "type the value again: 0.5,"},
		{"parts", part, number(1234567890123450, "1234567890123450", ""), NumberMangled, "again$"},
		{"parts", part, number(1e21, "1e+21", ""), NumberMangled, "again$"},
		{"parts", part, number(123456789012, "123456789012", ""), 0, ""},
		{"parts", part, number(1200, "1200", "#,##0"), ShownOtherwise, "type 1200, or 1,200"},
		{"parts", line, number(0.3125, "0.3125", "# ?/?"), ShownOtherwise, "type 5/16 in, or 1/3"},
		{"parts", inch, number(1.3125, "1.3125", "# ?/?"), ShownOtherwise, "type 1 5/16, or 1 1/3"},
		{"parts", further, number(0.3125, "0.3125", "# ?/?"), ShownOtherwise, "type 5/16 in, or 1/3"},
		{"parts", further, number(612.44, "612.44", "0.0"), 0, ""},
		{"parts", weight, number(0.5, "0.5", "0%"), NumberMangled, "General and type 0.5, or 50 if"},
		{"parts", weight, number(12, "12", `0" kg"`), 0, ""},
		{"parts", further, number(12, "12", `0" mm"`), NumberMangled, `type 12 mm, or write \[mm\] behind the column's header`},
		{"parts", further, number(0.5, "0.5", "0%"), ShownOtherwise, "type 1/2 in, or 50 if"},
		{"parts", weight, number(12, "12", `0" lb"`), NumberMangled, "type 12 lb, or to General if 12 kg is meant"},
		{"parts", weight, number(12, "12", `0"lbs"`), NumberMangled, "type 12 lb"},
		{"parts", weight, number(12, "12", `General" lb"`), NumberMangled, "type 12 lb"},
		{"parts", weight, number(12, "12", `[>100]0" kg";0" lb"`), NumberMangled, "type 12 lb"},
		{"parts", weight, number(12, "12", `0[$ lb]`), NumberMangled, "type 12 lb"},
		{"parts", weight, number(12, "12", `[$EUR-407] 0`), 0, ""},
		{"parts", weight, number(12, "12", `0" pcs"`), NumberMangled, "type 12 pcs, or to General if 12 kg is meant"},
		{"parts", weight, number(12, "12", `0" max"`), ShownOtherwise, "type 12, or 12 max"},
		{"parts", weight, number(1500, "1500", "0.0,"), NumberMangled, "type 1500, or 1.5 if"},
		{"parts", weight, number(1500000, "1500000", `0.0,,"M"`), NumberMangled, "type 1500000"},
		{"parts", further, number(1500, "1500", "0,"), NumberMangled, "type 1500, or 2 if"},
		{"parts", inch, number(5, "5", "0'"), NumberMangled, "type 5 ft, or to General if 5 in is meant"},
		{"parts", inch, number(5, "5", `0\"`), 0, ""},
		{"parts", Column{Name: "Share", Unit: "%"}, number(0.4, "0.4", "0%"), NumberMangled, "type 0.4, or 40 if"},
		{"parts", Column{Name: "Line size", Unit: "mm", Known: true}, number(8, "8", `0" mm"`), 0, ""},
		{"parts", Column{Name: "Line size", Unit: "mm", Known: true}, number(8.4, "8.4", `0" mm"`), ShownOtherwise, "type 8.4, or 8 mm"},
		{"parts", Column{Name: "Line size", Unit: "mm", Known: true}, number(0.25, "0.25", `0.00" in"`), NumberMangled, "type 0.25 in, or to General if 0.25 mm is meant"},
		{"facts", weight, number(12, "12", `0" lb"`), NumberMangled, "type 12 lb"},
		{"kits", Column{Name: "Quantity", Known: true}, number(2, "2", `0" pcs"`), 0, ""},
		{"kits", Column{Name: "Quantity", Known: true}, number(2, "2", `0" m"`), NumberMangled, "type 2 m"},
		{"parts", weight, number(0, "0", ";;;"), 0, ""},
		{"kits", Column{Name: "Quantity", Known: true}, number(2, "2", "00"), 0, ""},
		{"fitment", Column{Name: "Damper"}, number(417, "417", "00000"), NumberMangled, "type 00417"},
		{"fitment", Column{Name: "Years", Known: true}, number(2012, "2012", "#,##0"), 0, ""},
		{"fitment", Column{Name: "Damper note"}, date(45293, "2024-01-02", "yyyy-mm-dd"), 0, ""},
		{"accepted", Column{Name: "Until", Known: true}, date(45293, "2024-01-02", "d-mmm"), 0, ""},
		{"settings", Column{Name: "Value", Known: true}, date(45293, "2024-01-02", "d mmm yyyy"), 0, ""},
		{"parts", part, text("НD-25"), Lookalike, "type HD-25$"},
		{"parts", part, text("1.23E+11"), NumberMangled, "whole number again$"},
		{"parts", part, text("=B2"), FormulaStale, "type the formula again"},
		{"parts", Column{Name: "Summary", Known: true}, text("chоck"), Lookalike, "type chock$"},
		{"parts", Column{Name: "Summary", Known: true}, text("cho\u00adck"), Lookalike, "type chock$"},
		{"parts", Column{Name: "Summary", Known: true}, text("a cho\u00adck"), 0, ""},
		{"parts", part, sheets.Value{Kind: sheets.Bool, Text: "TRUE", Number: 1}, TruthValue, "type TRUE"},
	} {
		told := judged(t, c.kind, c.in, c.value)
		if c.what == 0 {
			assert.Empty(t, told, "%s %+v", c.in.Name, c.value)
			continue
		}
		require.Len(t, told, 1, "%s %+v", c.in.Name, c.value)
		assert.Equal(t, c.what, told[0].What, "%s %+v", c.in.Name, c.value)
		assert.Regexp(t, c.fix, told[0].Fix, "%s %+v", c.in.Name, c.value)
	}
}

// TestEveryValueIsJudged holds that no value is too odd to be judged, and that the
// shortcut for plain values passes over none that there is something to say of.
func TestEveryValueIsJudged(t *testing.T) {
	forms := rapid.SampledFrom([]string{"HD-25", "2-Jan", "May-32", "=A1", "1.5E+10", "2012-05-01", "2007-2012", "2 x D-1", " ", "-", "0", "٣", "1/2\u00a0in", "Jan", "9999-99-99", "32-Dec"})
	rapid.Check(t, func(t *rapid.T) {
		v := sheets.Value{Kind: sheets.Kind(rapid.IntRange(int(sheets.Blank), int(sheets.Error)).Draw(t, "kind"))}
		v.Text = rapid.OneOf(forms, rapid.String()).Draw(t, "text")
		v.Format = rapid.SampledFrom([]string{"", "0", "00", "# ?/?", "d-mmm", "mm-dd-yy", "yyyy", ";;;", "0%"}).Draw(t, "format")
		if v.Kind == sheets.Number {
			v.Number = float64(rapid.IntRange(-9, 9).Draw(t, "eighths")) / 8
			v.Text = strconv.FormatFloat(v.Number, 'f', -1, 64)
		}
		c := Column{Name: rapid.SampledFrom([]string{"Part", "Line size", "Years", "Note", "Quantity", "Until", "Value", "Bore"}).Draw(t, "column")}
		c.Known = c.Name != "Bore"
		for _, f := range judged(t, rapid.SampledFrom([]string{"parts", "fitment", "traits", "settings", "facts"}).Draw(t, "sheet"), c, v) {
			assert.NotEmpty(t, f.Message)
			assert.NotEmpty(t, f.Fix)
		}
	})
}

// BenchmarkField measures the values that most cells hold: a sheet of a million rows has
// ten million of them.
func BenchmarkField(b *testing.B) {
	r := newReader(&cell.Sheet{}, Layout{Kind: "fitment"}, nil, nil, func(*Fault) {})
	r.table = &Table{Columns: []Column{{Name: "Damper"}, {Name: "Years", Known: true}}}
	for name, v := range map[string]sheets.Value{
		"part":   {Kind: sheets.Text, Text: "HD-20 or HD-21"},
		"years":  {Kind: sheets.Text, Text: "2007-2012"},
		"number": {Kind: sheets.Number, Number: 2007, Text: "2007"},
		"dash":   {Kind: sheets.Text, Text: "2007–2012"},
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				r.field(1, &v, cell.Pos{Row: 2, Col: 1})
			}
		})
	}
}

package layout

import (
	"archive/zip"
	"bufio"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/intake/table"
	"ferrule/compiler/tidy/yardstick"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// The grid of BenchmarkGrid: parts down, vehicles across, every place marked.
const (
	gridParts    = 5000
	gridVehicles = 400
)

// BenchmarkGrid reads a grid of 5,000 x 400 marks, each a record, beside F: inflating it and
// scanning it for cells.
func BenchmarkGrid(b *testing.B) {
	name := writeGrid(b)
	var wrong []*table.Fault
	report := func(f *table.Fault) { wrong = append(wrong, f) }
	rows := layoutRows("table", "header 1", "Fitment", "is", "Number", "Part", "is", `"Front damper"`, "Position",
		"across", "V1 … V400", "Platform", "mark", "x", "this row", "mark", "x", "or")
	rows = append(rows[:len(rows)-1], layoutRows("say", "Position", "Front damper = Damper")...)
	rows[2].Where = "Place"
	plan := New(rows, report).Plans[0]
	require.Empty(b, wrong)
	cpu := yardstick.Least{}
	turn := func(of string, do func()) {
		runtime.GC()
		before := yardstick.ProcessorTime()
		do()
		cpu.Keep(of, yardstick.ProcessorTime()-before)
	}
	for b.Loop() {
		turn("F", func() { yardstick.InflateAndScan(b, name) })
		turn("grid", func() {
			book, err := sheets.Open(name)
			require.NoError(b, err)
			book.Workers = 1
			tables, err := plan.Read(book, 0, &cell.Sheet{Name: "Chart"}, kindLayout, report)
			require.NoError(b, err)
			require.Empty(b, wrong)
			require.Len(b, tables[0].Records, gridParts*gridVehicles)
			require.NoError(b, book.Close())
		})
	}
	b.ReportMetric(float64(cpu["F"].Microseconds())/1000, "F-ms")
	b.ReportMetric(float64(cpu["grid"])/float64(cpu["F"]), "grid-cpu/F")
}

// writeGrid writes the grid as spreadsheet programs write it, with shared texts.
func writeGrid(b *testing.B) string {
	name := filepath.Join(b.TempDir(), "grid.xlsx")
	file, err := os.Create(name)
	require.NoError(b, err)
	z := zip.NewWriter(file)
	part := func(name string, write func(io.Writer)) {
		w, err := z.Create(name)
		require.NoError(b, err)
		buffered := bufio.NewWriter(w)
		fmt.Fprint(buffered, `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>`+"\n")
		write(buffered)
		require.NoError(b, buffered.Flush())
	}
	texts := func(text string) func(io.Writer) { return func(w io.Writer) { fmt.Fprint(w, text) } }
	const rel = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	part("[Content_Types].xml", texts(`<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/><Override PartName="/xl/sharedStrings.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"/></Types>`))
	part("_rels/.rels", texts(`<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="`+rel+`/officeDocument" Target="xl/workbook.xml"/></Relationships>`))
	part("xl/workbook.xml", texts(`<workbook xmlns="`+main+`" xmlns:r="`+rel+`"><sheets><sheet name="Chart" sheetId="1" r:id="rId1"/></sheets></workbook>`))
	part("xl/_rels/workbook.xml.rels", texts(`<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="`+rel+`/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="`+rel+`/sharedStrings" Target="sharedStrings.xml"/></Relationships>`))
	part("xl/sharedStrings.xml", func(w io.Writer) {
		fmt.Fprintf(w, `<sst xmlns="%s"><si><t>x</t></si><si><t>Number</t></si><si><t>Place</t></si>`, main)
		for i := range gridVehicles {
			fmt.Fprintf(w, `<si><t>V%d</t></si>`, i+1)
		}
		for i := range gridParts {
			fmt.Fprintf(w, `<si><t>HD-%d</t></si><si><t>Place %d</t></si>`, i, i)
		}
		fmt.Fprint(w, `</sst>`)
	})
	part("xl/worksheets/sheet1.xml", func(w io.Writer) {
		fmt.Fprintf(w, `<worksheet xmlns="%s"><sheetData><row r="1"><c r="A1" t="s"><v>1</v></c><c r="B1" t="s"><v>2</v></c>`, main)
		for i := range gridVehicles {
			fmt.Fprintf(w, `<c r="%s1" t="s"><v>%d</v></c>`, cell.Column(int32(i+3)), i+3)
		}
		for r := range gridParts {
			fmt.Fprintf(w, `</row><row r="%d"><c r="A%[1]d" t="s"><v>%d</v></c><c r="B%[1]d" t="s"><v>%d</v></c>`, r+2, 3+gridVehicles+2*r, 4+gridVehicles+2*r)
			for i := range gridVehicles {
				fmt.Fprintf(w, `<c r="%s%d" t="s"><v>0</v></c>`, cell.Column(int32(i+3)), r+2)
			}
		}
		fmt.Fprint(w, `</row></sheetData></worksheet>`)
	})
	require.NoError(b, z.Close())
	require.NoError(b, file.Close())
	return name
}

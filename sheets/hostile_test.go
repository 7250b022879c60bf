package sheets_test

import (
	"archive/zip"
	"ferrule/compiler/tidy/yardstick"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

//go:generate go run ../cmd/samples/hostile -o ../testdata/hostile

const hostileDir = "../testdata/hostile"

// reading is a fault, or how many cells are read and the text of one of them.
type reading struct {
	fault string
	cells int
	at    string
	text  string
}

// hostile says what is read of each workbook in testdata/hostile.
func hostile() map[string]reading {
	return map[string]reading{
		"attribute-long":             {fault: "a tag or a text of more than 1 MiB"},
		"attributes-many":            {fault: "<row> has more than 256 attributes"},
		"bomb-declared":              {fault: "unpacks to more than 300 times its size"},
		"bomb-overlapping":           {fault: "two of its parts lie over each other"},
		"bomb-undeclared":            {fault: "its data is longer than the list of parts says"},
		"byte-flipped":               {fault: "its data cannot be unpacked"},
		"cell-beyond":                {fault: `a cell of row 2 has the name "XFE2"`},
		"cell-of-another-row":        {fault: "cell A3: the cell is stored in row 2"},
		"cell-twice":                 {fault: "cell A2: the cell is stored after cell A2"},
		"cells-out-of-order":         {fault: "cell A2: the cell is stored after cell B2"},
		"checksum-wrong":             {fault: "does not agree with its checksum"},
		"checksum-zero":              {fault: "does not agree with its checksum"},
		"comma-separated":            {fault: `a text file \(CSV or the like\)`},
		"comment-long":               {fault: "a tag or a text of more than 1 MiB"},
		"control-characters":         {fault: `illegal character code U\+0001`},
		"control-characters-escaped": {cells: 1, at: "A1", text: "a\x01b\rc\td"},
		"cut-off":                    {fault: "the workbook is cut off or damaged"},
		"dates-1904":                 {cells: 6, at: "B3", text: "2028-01-03"},
		"dimension-disagrees":        {cells: 6, at: "B3", text: "2024-01-02"},
		"empty":                      {fault: "the file is empty"},
		"encrypted":                  {fault: "encrypted with a password"},
		"entities-of-entities":       {fault: "its XML has a DOCTYPE"},
		"entity-beyond":              {fault: "invalid character entity &#x110000;"},
		"entity-of-zero":             {fault: `illegal character code U\+0000`},
		"entity-outside":             {fault: "its XML has a DOCTYPE"},
		"entity-unknown":             {fault: "invalid character entity &nbsp;"},
		"error-cells":                {cells: 2, at: "B1", text: "#DIV/0!"},
		"far-cells":                  {cells: 20_000, at: "XFD20000", text: "20000"},
		"latin-1-declared":           {fault: `stored in the encoding "ISO-8859-1"`},
		"latin-1-undeclared":         {fault: "invalid UTF-8"},
		"list-missing":               {fault: "the list that leads to its sheets is missing"},
		"merges-5000":                {cells: 6, at: "A1", text: "Platform"},
		"merges-overlapping":         {fault: "merged ranges A9990:C9991 and B9990:C9999 lie over each other"},
		"names-unusual":              {cells: 6, at: "A2", text: "H7"},
		"nested-deep":                {fault: "a tag <row> stands inside <row>"},
		"nested-deep-after":          {fault: "nested more than 100 deep"},
		"no-cell-names":              {cells: 10_000, at: "B5000", text: "H7"},
		"no-styles":                  {cells: 6, at: "B3", text: "45293"},
		"number-hexadecimal":         {fault: `cell A1: the cell should hold a number and holds "0x1p-2"`},
		"number-infinite":            {fault: `cell A1: the cell should hold a number and holds "1e999"`},
		"number-not-one":             {fault: `cell A1: the cell should hold a number and holds "1,5"`},
		"old-binary":                 {fault: `an old binary workbook \(.xls\)`},
		"open-document":              {fault: "an OpenDocument file"},
		"other-zip":                  {fault: "a zip archive that holds no workbook"},
		"packed-size-of-2-63":        {fault: "other data follows the end of its own"},
		"packed-size-of-2-64":        {fault: "other data follows the end of its own"},
		"packed-size-of-2GiB":        {fault: "other data follows the end of its own"},
		"packed-size-of-4GiB":        {fault: "other data follows the end of its own"},
		"part-compressed-otherwise":  {fault: `compressed in a way \(12\)`},
		"part-cut-off":               {fault: "its data is cut off"},
		"part-encrypted":             {fault: "sheet1.xml is encrypted"},
		"part-twice":                 {fault: `two parts of one name, "xl/worksheets/sheet1.xml"`},
		"part-twice-other-case":      {fault: `two parts of one name, "XL/WORKSHEETS/SHEET1.XML"`},
		"path-absolute":              {fault: `"/xl/evil.xml"`},
		"path-backslash":             {fault: `two parts of one name`},
		"path-drive":                 {fault: `"C:/sheet1.xml"`},
		"path-up":                    {fault: `"../../sheet1.xml"`},
		"relationships-missing":      {fault: `its part "xl/_rels/workbook.xml.rels" is missing`},
		"row-beyond":                 {fault: `a row has the number "1048577"`},
		"row-twice":                  {fault: "cell A2: row 2 is stored after row 2"},
		"rows-out-of-order":          {fault: "cell A1: row 1 is stored after row 2"},
		"sheet-missing":              {fault: `its part "xl/worksheets/sheet1.xml" is missing`},
		"sheet-of-no-part":           {fault: `nothing says where the cells of sheet "Fitment" are`},
		"sheet-outside":              {fault: `keeps its "worksheet" outside of its file`},
		"sheet-twice":                {fault: `sheet "Parts" has the cells of another sheet`},
		"sheets-of-one-name":         {fault: `two of its sheets have the name "FITMENT"`},
		"size-longer":                {fault: "its data is cut off"},
		"size-of-2-63":               {fault: "unpacks to more than 1 GiB"},
		"size-of-2-64":               {fault: "unpacks to more than 1 GiB"},
		"size-of-2GiB":               {fault: "unpacks to more than 1 GiB"},
		"size-of-4GiB":               {fault: "unpacks to more than 1 GiB"},
		"size-shorter":               {fault: "its data is longer than the list of parts says"},
		"sizes-add-up-to-zero":       {fault: "unpacks to more than 1 GiB"},
		"style-beyond":               {fault: `cell A1: the cell's style is number "2" of 2`},
		"styles-missing":             {fault: `its part "xl/styles.xml" is missing`},
		"text-index-beyond":          {fault: `cell A1: the cell's text is number "3" of the workbook's 3`},
		"text-index-negative":        {fault: `cell A1: the cell's text is number "-1"`},
		"text-long":                  {fault: "a tag or a text of more than 1 MiB"},
		"text-too-long":              {fault: "cell A1: the cell holds more than the 32767 characters"},
		"texts-as-sheet":             {fault: "should begin with <worksheet> and begins with <sst>"},
		"texts-missing":              {fault: `its part "xl/sharedStrings.xml" is missing`},
		"texts-not-led-to":           {fault: `cell A1: the cell's text is number "0" of the workbook's 0`},
		"utf-16-half-character":      {fault: "half a character in UTF-16"},
		"utf-16-high":                {cells: 1, at: "A1", text: "Größe 😀"},
		"utf-16-low":                 {cells: 1, at: "A1", text: "Größe 😀"},
		"web-page":                   {fault: `a web page \(HTML\)`},
		"xml-cut-off":                {fault: "not complete and correct XML"},
		"xml-cut-off-in-a-row":       {fault: "not complete and correct XML"},
		"xml-twice":                  {fault: "its XML has two roots"},
		"zeros":                      {fault: "nothing but zero bytes"},
	}
}

// hostileFiles are the names of all workbooks there are.
func hostileFiles(t testing.TB) []string {
	files, err := filepath.Glob(filepath.Join(hostileDir, "*"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	return files
}

// mostMemory is what any hostile workbook may take.
const mostMemory = 50 << 20

// Every hostile workbook is refused, or read right, and takes little memory.
func TestHostile(t *testing.T) {
	wants := hostile()
	for _, file := range hostileFiles(t) {
		name := strings.TrimSuffix(filepath.Base(file), ".xlsx")
		want, ok := wants[name]
		require.True(t, ok, "nothing is said about %s", file)
		delete(wants, name)
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			var cells []sheetCells
			peak := yardstick.PeakOf(func() { _, cells, _, err = readAll(data) })
			assert.Less(t, peak, float64(mostMemory))
			requireSame(t, data, 10_000)
			if want.fault != "" {
				requireFault(t, err, want.fault)
				return
			}
			require.NoError(t, err)
			require.Len(t, cells, 1)
			assert.Len(t, cells[0], want.cells)
			assert.Equal(t, want.text, cells[0][at(t, want.at)].Text)
		})
	}
	assert.Empty(t, wants, "workbooks that are not there")
}

// emptyRows is a sheet of a million rows that have a look and no cells, too large to
// be kept among the samples.
func emptyRows(t testing.TB) []byte {
	var b strings.Builder
	for i := 1; i <= 1_000_000; i++ {
		fmt.Fprintf(&b, `<row r="%d" s="3" customFormat="1" ht="15.75" customHeight="1"/>`, i)
	}
	return rows(b.String()+`<row r="1048576"><c><v>7</v></c></row>`).pack(t, zip.Deflate)
}

func TestMillionEmptyRows(t *testing.T) {
	data := emptyRows(t)
	var cells []sheetCells
	var err error
	peak := yardstick.PeakOf(func() { _, cells, _, err = readAll(data) })
	require.NoError(t, err)
	assert.Equal(t, []sheetCells{{at(t, "A1048576"): number(7, "7")}}, cells)
	assert.Less(t, peak, float64(mostMemory))
}

// BenchmarkHostile reads every hostile workbook.
func BenchmarkHostile(b *testing.B) {
	all := map[string][]byte{"empty rows": emptyRows(b)}
	for _, file := range hostileFiles(b) {
		data, err := os.ReadFile(file)
		require.NoError(b, err)
		all[filepath.Base(file)] = data
	}
	for name, data := range all {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				_, _, _, _ = readAll(data)
			}
		})
	}
}

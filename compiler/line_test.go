package compiler_test

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

// lineBook is a catalogue of one platform with a serial number and a date. What stands in the
// cells of Fitment, under Chassis number and Built, is put by the test.
type lineBook struct {
	testing.TB
	file *excelize.File
	row  int
}

func newLineBook(t testing.TB, late bool) *lineBook {
	b := &lineBook{t, excelize.NewFile(), 1}
	require.NoError(t, b.file.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &late}))
	for sheet, rows := range map[string][][]any{
		"Platforms": {{"Platform", "Years"}, {"H7", "2001-2004"}},
		"Traits": {{"Trait", "Value", "Kind", "How to tell"}, {"Chassis number", "10001-46999, A1-A99", "serial", "On the plate."},
			{"Built", "2001-01 to 2004-12", "date", "On the plate."}},
		"Vehicles":  {{"Platform", "Years", "Chassis number", "Built", "On the road"}, {"H7", "any", "any", "any", 1}},
		"Positions": {{"Position"}, {"Damper"}},
		"Parts":     {{"Part", "Name"}, {"D-1", "Damper"}, {"D-2", "Damper"}},
		"Fitment":   {{"Platform", "Chassis number", "Built", "Damper"}},
	} {
		b.ok(b.newSheet(sheet))
		for i, row := range rows {
			b.ok(b.file.SetSheetRow(sheet, fmt.Sprintf("A%d", i+1), &row))
		}
	}
	b.ok(b.file.DeleteSheet("Sheet1"))
	return b
}

func (b *lineBook) newSheet(name string) error { _, err := b.file.NewSheet(name); return err }

func (b *lineBook) ok(err error) { b.Helper(); require.NoError(b, err) }

// fits adds a row; a format is that of the cell under the column.
func (b *lineBook) fits(number, built any, format, part string) {
	b.row++
	row := []any{"H7", number, built, part}
	b.ok(b.file.SetSheetRow("Fitment", fmt.Sprintf("A%d", b.row), &row))
	if format == "" {
		return
	}
	style, err := b.file.NewStyle(&excelize.Style{CustomNumFmt: &format})
	b.ok(err)
	at := fmt.Sprintf("C%d", b.row)
	if number != nil {
		at = fmt.Sprintf("B%d", b.row)
	}
	b.ok(b.file.SetCellStyle("Fitment", at, at, style))
}

func (b *lineBook) compile() *compiler.Result {
	dir := b.TempDir()
	b.ok(b.file.SaveAs(filepath.Join(dir, "c.xlsx")))
	res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: "2027-03-01"})
	b.ok(err)
	return res
}

// said gives what the only row of Fitment says of a trait, and the findings about its cells.
func said(res *compiler.Result, trait int) (words string, told []string) {
	for _, t := range res.Catalogue.Fitments[0].When.Traits {
		if t.Trait.Index == trait {
			words = t.String()
		}
	}
	for _, f := range res.Findings {
		if f.Severity != finding.Note && f.Code != finding.CoverageGap {
			told = append(told, string(f.Code))
		}
	}
	return words, told
}

// Cells of dates and numbers are read as what they hold, in both date systems and whatever the
// hour where the program runs: a cell that shows no day is a month.
func TestCellsOnALine(t *testing.T) {
	day := time.Date(2003, 3, 15, 0, 0, 0, 0, time.FixedZone("far", 13*60*60))
	for _, c := range []struct {
		number, built any
		format, want  string
		told          string
	}{
		{nil, day, "yyyy-mm-dd", "Built 2003-03-15", ""},
		{nil, day, "dd/mm/yyyy", "Built 2003-03-15", ""},
		{nil, day, "mmm-yy", "Built 2003-03", ""},
		{nil, day, "mmmm yyyy", "Built 2003-03", ""},
		{nil, day, "yyyy", "", "cell-date-mangled"},
		{nil, day, "dd mmm", "", "cell-date-mangled"},
		{nil, day, "hh:mm", "", "cell-date-mangled"},
		{nil, day.Add(90 * time.Minute), "yyyy-mm-dd", "", "cell-date-mangled"},
		{nil, "March 2003", "", "Built 2003-03", ""},
		{nil, "Mar-03", "", "", "condition-malformed"},
		{nil, "03/04/2003", "", "", "condition-malformed"},
		{nil, 2003, "", "", "condition-malformed"},
		{nil, 37695, "General", "", "condition-malformed"},
		{41200, nil, "", "Chassis number 41200", ""},
		{41200, nil, "#,##0", "Chassis number 41200", ""},
		{41200, nil, "00000000", "Chassis number 41200", ""},
		{41200, nil, `"A"00000`, "", "cell-number-mangled"},
		{41200.5, nil, "", "", "condition-malformed"},
		{"0041200", nil, "", "Chassis number 41200", ""},
		{"a - 007", nil, "", "Chassis number A7", ""},
		{day, nil, "yyyy-mm-dd", "", "cell-date-mangled"},
	} {
		for _, late := range []bool{false, true} {
			b := newLineBook(t, late)
			built := c.built
			if n, ok := built.(time.Time); ok && late {
				built = float64(daysSince1904(n)) + n.Sub(day).Hours()/24 // excelize counts from 1900
			}
			if _, ok := c.number.(time.Time); ok && late {
				continue
			}
			b.fits(c.number, built, c.format, "D-1")
			trait := 1
			if c.number != nil {
				trait = 0
			}
			words, told := said(b.compile(), trait)
			if c.told == "" {
				assert.Equal(t, c.want, words, "%v %v %s, late %v", c.number, c.built, c.format, late)
				assert.Empty(t, told, "%v %v %s, late %v", c.number, c.built, c.format, late)
			} else {
				assert.Equal(t, []string{c.told}, told, "%v %v %s, late %v", c.number, c.built, c.format, late)
			}
		}
	}
}

// daysSince1904 is what a cell holds of a day where the days are counted from 1904.
func daysSince1904(at time.Time) int {
	y, m, d := at.Date()
	return int(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Sub(time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)).Hours() / 24)
}

// Rows that follow on each other leave no hole, and one number or day between them is one. What
// the first and the last value of an extent say is looked at like any other.
func TestEdgesOnALine(t *testing.T) {
	for _, c := range []struct {
		name  string
		cells [][2]string // Chassis number and Built of rows that fit something
		gaps  []string    // where nothing fits
	}{
		{"from and before", [][2]string{{"from 41200, A1-A99", ""}, {"before 41200", ""}}, nil},
		{"a hole of one number", [][2]string{{"41201+ or A1+", ""}, {"to 41199", ""}}, []string{"Chassis number 41200"}},
		{"the first and the last", [][2]string{{"not 10001, 46999", ""}}, []string{"Chassis number 10001 or 46999"}},
		{"letters are a line of their own", [][2]string{{"from 1", ""}}, []string{"Chassis number A1 to A99"}},
		{"a cut where the extent ends", [][2]string{{"10001-46999", ""}, {"A1-A99", ""}, {"A99", ""}}, nil},
		{"a month and its days", [][2]string{{"", "before 2004-02"}, {"", "2004-02-01 to 2004-02-28"}, {"", "2004-03+"}}, []string{"Built 2004-02-29"}},
		{"no 29 February", [][2]string{{"", "to 2003-02-28"}, {"", "from 2003-03"}}, nil},
		{"a day in a month", [][2]string{{"", "2002-05"}, {"", "2002-05-17"}, {"", "not 2002-05"}}, nil},
		{"to a month is to its last day", [][2]string{{"", "to 2002-12"}, {"", "from 2003-01-01"}}, nil},
		{"the last day", [][2]string{{"", "before 2004-12-31"}}, []string{"Built 2004-12-31"}},
	} {
		b := newLineBook(t, false)
		for _, cell := range c.cells {
			b.fits(cell[0], cell[1], "", "D-1")
		}
		var gaps []string
		for _, f := range b.compile().Findings {
			if f.Code == finding.CoverageGap {
				for _, box := range f.Region.Open().Where {
					gaps = append(gaps, box.String())
				}
			}
		}
		assert.Equal(t, c.gaps, gaps, c.name)
	}
}

// A platform has the extent of its own row, and the others that of the row without a platform;
// where there is none, no vehicle has the trait.
func TestExtentsOfPlatforms(t *testing.T) {
	b := newLineBook(t, false)
	for sheet, row := range map[string][]any{"Platforms": {"H8", "2001-2004"}, "Vehicles": {"H8", "any", "any", "n/a", 1}} {
		b.ok(b.file.SetSheetRow(sheet, "A3", &row))
	}
	row := []any{"Platform"}
	b.ok(b.file.SetSheetRow("Traits", "E1", &row))
	row = []any{"Chassis number", "500-600", "", "On the frame.", "H8"}
	b.ok(b.file.SetSheetRow("Traits", "A4", &row))
	b.fits("any", nil, "", "D-1")
	cat := b.compile().Catalogue
	require.Len(t, cat.Platforms, 2)
	number := cat.Traits[0]
	words := func(p *model.Platform) string { return number.Kind.Line().Words(number.Extent(p)) }
	assert.Equal(t, "10001 to 46999 or A1 to A99", words(cat.Platforms[0]))
	assert.Equal(t, "500 to 600", words(cat.Platforms[1]))
}

// An extent that cannot be read is told alone: nobody knows which vehicles there are, and what rows
// say of them is no mistake of theirs. Without its Kind the trait is told at what is no value of it.
func TestExtentsThatCannotBeRead(t *testing.T) {
	for value, told := range map[string]string{
		"46999-10001": "runs backwards; write 10001 to 46999",
		"from 10001":  "has no end",
		"A1-B99":      "letters have no order",
	} {
		b := newLineBook(t, false)
		b.ok(b.file.SetCellStr("Traits", "B2", value))
		b.fits("41200+", nil, "", "D-1")
		b.fits("before 41200", nil, "", "D-2")
		var findings []string
		for _, f := range b.compile().Findings {
			if f.Severity == finding.Error || f.Severity == finding.Warning {
				findings = append(findings, string(f.Code))
				assert.Contains(t, f.Message, told)
			}
		}
		assert.Equal(t, []string{"condition-malformed"}, findings, value)
	}

	b := newLineBook(t, false)
	b.ok(b.file.SetCellStr("Traits", "B2", "10001-46999"))
	b.ok(b.file.SetCellStr("Traits", "C2", ""))
	b.fits("41200+", nil, "", "D-1")
	_, told := said(b.compile(), 0)
	assert.Equal(t, []string{"condition-malformed"}, told)
	for _, f := range b.compile().Findings {
		if f.Code == finding.ConditionMalformed {
			assert.Contains(t, f.Message, "write serial there under Kind")
		}
	}
}

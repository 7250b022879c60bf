package repair_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/out/markup"
)

// catalogue is a catalogue without a fault, sheet by sheet; cells are separated by bars.
func catalogue() map[string][]string {
	return map[string][]string{
		"Settings":  {"Setting|Value", "title|Mobile clinics", "publisher|Ride Parts"},
		"Platforms": {"Platform|Years", "H7|2001-2004"},
		"Traits": {"Trait|Value|Kind|How to tell", "Suspension|Air|choice|By the springs.", "Suspension|Steel||", "Suspension|Steel parabolic||",
			"Line|1/4 in|size|Measure it.", "Line|1/2 in||", "Line|3/8 in||"},
		"Vehicles":  {"Platform|Years|Suspension|Line", "H7|any|any|any"},
		"Positions": {"Position|Family|Coverage", "Damper|Damper|optional", "Valve||optional"},
		"Parts": {"Part|Family|Line size|Thread", "HD-1101|Damper||", "HD-2205|Damper||", "QV-3307|Valve|1/4 in|M16x1.5",
			"QV-4408|Valve|1/2 in|"},
		"Fitment": {"Platform|Suspension|Line|Damper|Valve", "H7|Air||HD-1101|QV-3307", "H7|Steel|1/4 in|HD-2205|QV-4408"},
	}
}

var sheets = []string{"Settings", "Platforms", "Traits", "Vehicles", "Positions", "Parts", "Fitment"}

// changed is a row of the catalogue as it is changed; rows are counted from the header, which is 0.
type changed struct {
	sheet string
	row   int
	as    string
}

// repairs compiles the changed catalogue and gives the repairs of its findings as `cell: new`, and all codes.
func repairs(t *testing.T, changes []changed) (fixes []string, codes []finding.Code) {
	t.Helper()
	texts := catalogue()
	for _, c := range changes {
		rows := texts[c.sheet]
		for len(rows) <= c.row {
			rows = append(rows, "")
		}
		rows[c.row] = c.as
		texts[c.sheet] = rows
	}
	book := markup.Book{Name: "catalogue.xlsx"}
	for _, name := range sheets {
		s := markup.Sheet{Name: name}
		for _, r := range texts[name] {
			s.Rows = append(s.Rows, cells(r))
		}
		book.Sheets = append(book.Sheets, s)
	}
	dir := t.TempDir()
	require.NoError(t, markup.WriteAll(dir, []markup.Book{book}, markup.Options{Plain: true}))
	r, err := compiler.Compile(t.Context(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: "2027-03-01"})
	require.NoError(t, err)
	for _, f := range r.Findings {
		codes = append(codes, f.Code)
		if f.Repair != nil {
			assert.NotEmpty(t, f.Repair.Why)
			fixes = append(fixes, f.Repair.At.Sheet.Name+"!"+f.Repair.At.Pos.String()+": "+f.Repair.New)
		}
	}
	return slices.Compact(fixes), codes // two findings of a cell may have one repair
}

// cells makes the cells of a row. What reads as a date with its day is one.
func cells(row string) (out []markup.Cell) {
	for _, text := range strings.Split(row, "|") {
		c := markup.Words(text)
		if _, err := time.Parse(time.DateOnly, text); err == nil {
			c = markup.Cell{Kind: markup.Date, Text: text}
		}
		out = append(out, c)
	}
	return out
}

func one(sheet string, row int, as string) []changed { return []changed{{sheet, row, as}} }

// TestRepairs makes faults of which one reading is left, and faults of which none or several are.
func TestRepairs(t *testing.T) {
	choices := []changed{{"Fitment", 3, "H7|Air|1/2 in|HD-1101 or HD-2205|"}, {"Fitment", 4, "H7|Air|3/8 in|HD-2205 or HD-1101|"}}
	tests := map[string]struct {
		changes []changed
		code    finding.Code
		want    string // "": none
	}{
		"a date where a size is":         {one("Parts", 3, "QV-3307|Valve|2026-01-02|"), finding.CellDateMangled, "Parts!C4: 1/2 in"},
		"a date under a unit":            {[]changed{{"Parts", 0, "Part|Family|Line size [in]|Thread"}, {"Parts", 3, "QV-3307|Valve|2026-01-02|"}}, finding.CellDateMangled, "Parts!C4: 1/2"},
		"a date in a condition":          {one("Fitment", 2, "H7|Steel|2026-01-04|HD-2205|QV-4408"), finding.CellDateMangled, "Fitment!C3: 1/4 in"},
		"a date that is no size":         {one("Parts", 3, "QV-3307|Valve|2026-05-07|"), finding.CellDateMangled, ""},
		"a date of two sizes":            {one("Parts", 3, "QV-3307|Valve|2008-01-03|"), finding.CellDateMangled, ""},
		"a date that is no value":        {one("Fitment", 2, "H7|Steel|2026-05-16|HD-2205|QV-4408"), finding.CellDateMangled, ""},
		"a date under a column of texts": {one("Parts", 4, "QV-4408|Valve|1/2 in|2026-12-01"), finding.CellDateMangled, ""},
		"a date where a value is named":  {one("Traits", 5, "Line|2026-01-02|"), finding.CellDateMangled, ""},

		"a comma where all have or":       {append(choices, changed{"Fitment", 5, "H7|Steel|1/2 in|HD-1101, HD-2205|"}), finding.FitmentMalformed, "Fitment!D6: HD-1101 or HD-2205"},
		"a comma where one has or":        {append(choices[:1:1], changed{"Fitment", 4, "H7|Steel|1/2 in|HD-1101, HD-2205|"}), finding.FitmentMalformed, ""},
		"a comma where one has plus":      {append(choices[:2:2], changed{"Fitment", 5, "H7|Steel|1/2 in|HD-1101, HD-2205|"}, changed{"Fitment", 6, "H7|Steel|3/8 in|HD-1101 + HD-2205|"}), finding.FitmentMalformed, ""},
		"a comma where the others do not": {append(choices[:2:2], changed{"Fitment", 5, "H7|Steel|1/2 in||QV-3307, QV-4408"}), finding.FitmentMalformed, ""},
		"a comma and an unknown part":     {append(choices[:2:2], changed{"Fitment", 5, "H7|Steel|1/2 in|HD-1101, ZZ-9|"}), finding.FitmentMalformed, ""},

		"letters that look alike":                    {one("Fitment", 2, "H7|Stееl|1/4 in|HD-2205|QV-4408"), finding.CellLookalike, "Fitment!B3: Steel"},
		"a value of which a longer one is declared":  {[]changed{{"Traits", 2, "Suspension|Coil|"}, {"Fitment", 2, "H7|Steel|1/4 in|HD-2205|QV-4408"}}, finding.ConditionMalformed, ""},
		"a value of which a shorter one is declared": {one("Fitment", 2, "H7|Steel coil|1/4 in|HD-2205|QV-4408"), finding.ReferenceUnknown, ""},
		"a word of what is left out":                 {one("Fitment", 2, "H7|w/o Air|1/4 in|HD-2205|QV-4408"), finding.ConditionMalformed, "Fitment!B3: not Air"},
		"a space too few in a value":                 {one("Fitment", 2, "H7|Steelparabolic|1/4 in|HD-2205|QV-4408"), finding.ConditionMalformed, "Fitment!B3: Steel parabolic"},
		"letters that look like no value":            {one("Fitment", 2, "H7|Stееle|1/4 in|HD-2205|QV-4408"), finding.CellLookalike, ""},
		"look-alikes in what is declared":            {one("Traits", 2, "Suspension|Stееl|"), finding.CellLookalike, ""},
		"look-alikes in a part":                      {one("Fitment", 2, "H7|Steel|1/4 in|НD-2205|QV-4408"), finding.CellLookalike, "Fitment!D3: HD-2205"},
		"a part without its hyphen":                  {one("Fitment", 2, "H7|Steel|1/4 in|HD2205|QV-4408"), finding.PartUnknown, "Fitment!D3: HD-2205"},
		"a part with a space":                        {one("Fitment", 2, "H7|Steel|1/4 in|HD - 2205|QV-4408"), finding.PartUnknown, "Fitment!D3: HD-2205"},
		"a letter too many in a part of the family":  {one("Fitment", 2, "H7|Steel|1/4 in|HD-2205X|QV-4408"), finding.PartUnknown, "Fitment!D3: HD-2205"},
		"another digit":                              {one("Fitment", 2, "H7|Steel|1/4 in|HD-2206|QV-4408"), finding.PartUnknown, ""},
		"a slip where no family is named":            {one("Fitment", 2, "H7|Steel|1/4 in|HD-2205|QV-4408X"), finding.PartUnknown, ""},
		"a slip of a part of another":                {one("Fitment", 2, "H7|Steel|1/4 in|QV-4408X|QV-4408"), finding.PartUnknown, ""},
		"a slip of two parts":                        {[]changed{{"Parts", 5, "HD-2205Y|Damper||"}, {"Fitment", 2, "H7|Steel|1/4 in|HD-2205X|QV-4408"}}, finding.PartUnknown, ""},
		"a slip of a part that is no more":           {[]changed{{"Parts", 0, "Part|Family|Line size|Thread|Status"}, {"Parts", 2, "HD-2205|Damper|||withdrawn"}, {"Fitment", 2, "H7|Steel|1/4 in|HD-2205X|QV-4408"}}, finding.PartUnknown, ""},
		"a number like none":                         {one("Fitment", 2, "H7|Steel|1/4 in|KX-99|QV-4408"), finding.PartUnknown, ""},
		"a value like two":                           {one("Fitment", 2, "H7|Stel par|1/4 in|HD-2205|QV-4408"), finding.ReferenceUnknown, ""},

		"a bare size under a unit of the header": {[]changed{{"Fitment", 0, "Platform|Suspension|Line [in]|Damper|Valve"}, {"Fitment", 2, "H7|Steel|1/4, 1/2|HD-2205|QV-4408"}}, finding.SizeUnitless, "Fitment!C3: 1/4 in, 1/2 in"},
		"a bare size under another unit":         {[]changed{{"Fitment", 0, "Platform|Suspension|Line [mm]|Damper|Valve"}, {"Fitment", 2, "H7|Steel|1/4, 1/2|HD-2205|QV-4408"}}, finding.SizeUnitless, ""},
		"a bare size with not before it":         {[]changed{{"Fitment", 0, "Platform|Suspension|Line [in]|Damper|Valve"}, {"Fitment", 2, "H7|Steel|not 1/4, 1/2|HD-2205|QV-4408"}}, finding.SizeUnitless, ""},
		"a bare size without one":                {one("Fitment", 2, "H7|Steel|1/4, 1/2|HD-2205|QV-4408"), finding.SizeUnitless, ""},
		"a bare size of a part":                  {one("Parts", 3, "QV-3307|Valve|1/4|"), finding.SizeUnitless, ""},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			got, codes := repairs(t, tt.changes)
			assert.Contains(t, codes, tt.code)
			if tt.want == "" {
				assert.Empty(t, got)
				return
			}
			assert.Equal(t, []string{tt.want}, got)
		})
	}
}

// TestNothingToRepair holds that the catalogue has no finding that a repair could be for.
func TestNothingToRepair(t *testing.T) {
	got, codes := repairs(t, nil)
	assert.Empty(t, got)
	assert.Empty(t, codes)
}

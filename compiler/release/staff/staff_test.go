package staff_test

import (
	"bytes"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/written"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/release/staff"
	"ferrule/compiler/release/staff/sample"
	"ferrule/compiler/wire"
	"ferrule/sheets/cell"
)

// guideFile names the guide of a platform.
func guideFile(p *model.Platform) string {
	return "guides/" + strings.ReplaceAll(p.Name, "/", "-") + ".json"
}

// writtenFolder is the sample as a build writes it for the staff.
func writtenFolder(t testing.TB) fstest.MapFS {
	t.Helper()
	s := sample.New()
	other := &decide.Guide{Platform: s.Catalogue.Platforms[1], Answers: []*decide.Answer{{Position: s.Catalogue.Positions[0]}, {Position: s.Catalogue.Positions[1]}}}
	out := fstest.MapFS{}
	put := func(name string, write func(*bytes.Buffer) error) {
		var b bytes.Buffer
		require.NoError(t, write(&b))
		out[name] = &fstest.MapFile{Data: b.Bytes()}
	}
	put("catalogue.json", func(b *bytes.Buffer) error { return staff.Catalogue(b, s.Catalogue, guideFile) })
	put("findings.json", func(b *bytes.Buffer) error { return staff.Findings(b, s.Findings, "") })
	put("sheets.json", func(b *bytes.Buffer) error { return staff.Sheets(b, writtenSheets()) })
	for i, name := range []string{guideFile(s.Catalogue.Platforms[0]), guideFile(s.Catalogue.Platforms[1])} {
		put(name, func(b *bytes.Buffer) error {
			return staff.Guide(b, s.Catalogue, []*decide.Guide{s.Guide, other}[i])
		})
	}
	return out
}

// TestReadStaff holds that what comparing needs comes back as it was written.
func TestReadStaff(t *testing.T) {
	folder := writtenFolder(t)
	assert.True(t, staff.Is(folder))
	got, err := staff.Read(folder)
	require.NoError(t, err)
	want, cat := sample.New().Catalogue, got.Catalogue

	assert.Equal(t, "R1", cat.Settings.Release)
	assert.Equal(t, []int{1998, 1999, 2001}, cat.Platforms[0].Years)
	assert.Equal(t, model.Size, cat.Traits[1].Kind)
	assert.True(t, cat.Traits[1].Values[0].Size.Equal(want.Traits[1].Values[0].Size))
	require.Len(t, cat.Vehicles, 3)
	for i, v := range want.Vehicles {
		sameWhen(t, v.When, cat.Vehicles[i].When)
		assert.Equal(t, v.Road.Stated(), cat.Vehicles[i].Road.Stated())
		if v.Road.Stated() {
			assert.Zero(t, v.Road.Cmp(cat.Vehicles[i].Road.Rat))
		}
		assert.Equal(t, v.At.String(), cat.Vehicles[i].At.String())
	}
	for i, r := range want.Positions[0].Rows {
		sameWhen(t, r.When, cat.Positions[0].Rows[i].When)
		assert.Equal(t, r.Quantity, cat.Positions[0].Rows[i].Quantity)
	}
	row := cat.Fitments[0]
	sameWhen(t, want.Fitments[0].When, row.When)
	assert.Equal(t, -1, row.Precedence)
	require.Len(t, row.Cells, 3)
	for i, c := range want.Fitments[0].Cells {
		assert.Equal(t, c.Fits.Key(2), row.Cells[i].Fits.Key(2))
		assert.Equal(t, c.At.String(), row.Cells[i].At.String())
	}
	assert.Equal(t, "QX-1", cat.Parts[1].ReplacedBy.Alternatives[0][0].Part.Number)
	assert.Equal(t, 2, cat.Parts[3].Contents[0].Quantity)
	assert.Equal(t, cat.Parts[0], cat.References[0].Part)
	assert.Equal(t, cat.Positions[0], cat.Acceptances[0].Position)

	require.Len(t, got.Guides, 2)
	require.Len(t, got.Guides[0].Answers[0].Unsettled, 1, "a conflict does not count")
	assert.True(t, got.Guides[0].Answers[0].Exact)
	assert.False(t, got.Guides[0].Answers[1].Exact)
	require.Len(t, got.Findings, 5)
	assert.Equal(t, "4", got.Findings[0].Region.Open().Rest.String())
	assert.Equal(t, cat.Traits[0], got.Findings[0].Region.Open().Where[0].Traits[0].Trait)
	assert.False(t, got.Findings[1].Region.Exact)
	assert.Equal(t, sample.New().Findings[0].Fingerprint(), got.Findings[0].Fingerprint())
	assert.Equal(t, "N. N.", got.Findings[4].Accepted.By)
}

func sameWhen(t *testing.T, want, got model.When) {
	t.Helper()
	assert.Equal(t, want.SetAside, got.SetAside)
	assert.Equal(t, want.Years, got.Years)
	assert.Equal(t, want.Platforms == nil, got.Platforms == nil)
	assert.Equal(t, len(want.Platforms), len(got.Platforms))
	require.Equal(t, len(want.Traits), len(got.Traits))
	for i, s := range want.Traits {
		assert.Equal(t, s.String(), got.Traits[i].String())
	}
}

// TestNoPlatformIsNotAny holds that a row about no platform does not come back as one
// about any.
func TestNoPlatformIsNotAny(t *testing.T) {
	s := sample.New()
	s.Catalogue.Fitments[0].When.Platforms = []*model.Platform{}
	folder := writtenFolder(t)
	var b bytes.Buffer
	require.NoError(t, staff.Catalogue(&b, s.Catalogue, guideFile))
	folder["catalogue.json"] = &fstest.MapFile{Data: b.Bytes()}
	got, err := staff.Read(folder)
	require.NoError(t, err)
	assert.NotNil(t, got.Catalogue.Fitments[0].When.Platforms)
	assert.Empty(t, got.Catalogue.Fitments[0].When.Platforms)
}

// writtenSheets are two sheets, one of them with a row that is blank but for its last cell.
func writtenSheets() []*written.Sheet {
	columns := []written.Column{{Name: "Platform", At: 1, Known: true}, {Name: "Damper", At: 28}}
	return []*written.Sheet{
		{Of: &cell.Sheet{File: "c.xlsx", Name: "Fitment"}, Kind: "fitment", Columns: columns, Texts: []string{"", "H7", `5'2"`},
			Rows: []written.Row{{Number: 3, Cells: []uint32{1, 2}}, {Number: 5, Cells: []uint32{1, 0}}, {Number: 7, Cells: []uint32{0, 2}}}},
		{Of: &cell.Sheet{File: "d.xlsx", Name: "Parts"}, Kind: "parts", Columns: columns[:1], Texts: []string{""}},
	}
}

// TestSheetsComeBack holds that what cells said is read as it was written, and that a folder
// without it is read all the same.
func TestSheetsComeBack(t *testing.T) {
	folder := writtenFolder(t)
	got, err := staff.Read(folder)
	require.NoError(t, err)
	want := writtenSheets()
	require.Len(t, got.Sheets, len(want))
	for i, s := range got.Sheets {
		assert.Equal(t, [2]string{want[i].Of.File, want[i].Of.Name}, [2]string{s.Of.File, s.Of.Name})
		s.Of = want[i].Of
		assert.Equal(t, want[i], s)
	}
	delete(folder, "sheets.json")
	got, err = staff.Read(folder)
	require.NoError(t, err)
	assert.Nil(t, got.Sheets)
}

// TestStaffThatIsNone holds what is said of files that no build wrote.
func TestStaffThatIsNone(t *testing.T) {
	assert.False(t, staff.Is(fstest.MapFS{}))
	for _, c := range []struct{ file, old, new, want string }{
		{"catalogue.json", "{", "", "catalogue.json is not what a build writes for the staff: "},
		{"catalogue.json", "\n}\n", "\n}\n{}", "catalogue.json is not what a build writes for the staff: something follows"},
		{"catalogue.json", `"guides/H7.json"`, `"../H7.json"`, "\"../H7.json\" is no name of a file in the staff's folder"},
		{"catalogue.json", `"guides/H7.json"`, `"guides/none.json"`, "guides/none.json cannot be read: file does not exist"},
		{"catalogue.json", `"platform": "H7",
      "file"`, `"platform": "H8",
      "file"`, "guides are not listed in the order of platforms"},
		{"catalogue.json", `"kind": "size"`, `"kind": "sort"`, `there is no kind of trait "sort"`},
		{"catalogue.json", `"Z suspension": [`, `"Y suspension": [`, `nothing declares the trait "Y suspension"`},
		{"catalogue.json", "1998,\n          1999", "1998,\n          90000", "the years of H7 are not ascending ranges"},
		{"catalogue.json", `"999"`, `"99"`, "100 to 99 is no range of Plate"},
		{"catalogue.json", `"A50"`, `"B50"`, "A1 to B50 is no range of Plate"},
		{"catalogue.json", `"A50"`, `"March"`, "March is no value of Plate"},
		{"catalogue.json", `"cell": "A2"`, `"cell": "2A"`, `"2A" is no cell`},
		{"catalogue.json", `"with": "Front damper"`, `"with": "Front bumper"`, `nothing declares the position "Front bumper"`},
		{"catalogue.json", `"outcome": "planned"`, `"outcome": "conflict"`, `a cell cannot say "conflict"`},
		{"catalogue.json", `"on_the_road": 100`, `"on_the_road": 1e9999999`, "1e9999999 is no number of vehicles"},
		{"sheets.json", `"3 1 2"`, `"3 1 3"`, `"3 1 3" is no row of Fitment`},
		{"sheets.json", `"3 1 2"`, `"3 1 2 1"`, `"3 1 2 1" is no row of Fitment`},
		{"sheets.json", `"3 1 2"`, `"-3 1 2"`, `"-3 1 2" is no row of Fitment`},
		{"sheets.json", `"3 1 2"`, `""`, "a row of Fitment has no number"},
		{"sheets.json", `"at": "AB"`, `"at": "a"`, `"a" is no column`},
		{"sheets.json", `"texts": [
        "",`, `"texts": [
        "H8",`, "the first text of Fitment is not that of blank cells"},
		{"guides/H7.json", `"platform": "H7"`, `"platform": "H9"`, "guides/H7.json is not what a build writes for the staff: it is not about H7"},
		{"guides/H7.json", `"position": "Rear damper",
      "pair"`, `"position": "Front damper",
      "pair"`, "positions are not listed as they are declared"},
		{"findings.json", `"severity": "note"`, `"severity": "fatal"`, `there is no severity "fatal"`},
		{"findings.json", `[`, `{`, "findings.json is not what a build writes for the staff"},
	} {
		folder := writtenFolder(t)
		text := string(folder[c.file].Data)
		require.Contains(t, text, c.old)
		folder[c.file] = &fstest.MapFile{Data: []byte(strings.Replace(text, c.old, c.new, 1))}
		_, err := staff.Read(folder)
		assert.ErrorContains(t, err, c.want)
	}
}

// TestStaffThatIsCutOff holds that no part of a file is taken for the whole, and that
// nothing in it panics.
func TestStaffThatIsCutOff(t *testing.T) {
	whole := writtenFolder(t)
	for name, f := range whole {
		for n := 0; n < len(f.Data)-1; n += 1 + len(f.Data)/200 {
			folder := writtenFolder(t)
			folder[name] = &fstest.MapFile{Data: f.Data[:n]}
			_, err := staff.Read(folder)
			assert.Error(t, err, "%s, %d bytes", name, n)
		}
		// Any word that is lost, and any value that is null, is an error or makes no harm.
		for i, word := range strings.SplitAfter(string(f.Data), "\n") {
			if i%7 != 0 {
				continue
			}
			folder := writtenFolder(t)
			folder[name] = &fstest.MapFile{Data: []byte(strings.Replace(string(f.Data), word, "", 1))}
			_, _ = staff.Read(folder)
		}
	}
}

// TestFindingsArePieces holds what is written piece by piece against the library's way to write
// the whole.
func TestFindingsArePieces(t *testing.T) {
	for _, fs := range [][]*finding.Finding{nil, sample.New().Findings} {
		for _, since := range []string{"", `main:"cat" <a>`} {
			var got, want bytes.Buffer
			require.NoError(t, staff.Findings(&got, fs, since))
			list := make([]staff.Finding, len(fs))
			for i, f := range fs {
				list[i] = staff.FindingOf(f)
			}
			require.NoError(t, wire.Write(&want, struct {
				Since    string          `json:"since,omitempty"`
				Findings []staff.Finding `json:"findings"`
				Summary  staff.Summary   `json:"summary"`
			}{since, list, staff.SummaryOf(finding.Summarise(fs))}))
			assert.Equal(t, want.String(), got.String())
		}
	}
}

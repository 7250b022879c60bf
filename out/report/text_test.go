package report

import (
	"bytes"
	"errors"
	"fmt"
	"math/big"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

var sheet = &cell.Sheet{File: "fitment.xlsx", Name: "Fitment H7"}

func at(a1 string) cell.Place {
	pos, ok := cell.Parse(a1)
	if !ok {
		panic("report: no cell is named " + a1)
	}
	return cell.Place{Sheet: sheet, Pos: pos}
}

func render(t *testing.T, o Options, r *compiler.Result) string {
	t.Helper()
	f, err := New("text", o)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, f.Format(&b, r))
	return b.String()
}

func only(fs ...*finding.Finding) *compiler.Result {
	return &compiler.Result{Whole: true, Findings: fs}
}

func boxes(n int) []model.Box {
	out := make([]model.Box, n)
	for i := range out {
		out[i] = model.Box{Years: []model.Span{{From: 2000 + i, To: 2000 + i}}}
	}
	return out
}

func gap(n int) *finding.Finding {
	susp := &model.Trait{Name: "Front suspension", Values: []*model.Value{{Name: "Air beam"}, {Name: "Twin arm"}}}
	where := boxes(n)
	where[0].Traits = []model.TraitSet{susp.Is(0)}
	return &finding.Finding{Code: "coverage-gap", Severity: finding.Error, Platform: "H7", Position: "Front damper",
		Message: "H7 has no part at Front damper on 12 of 480 configurations",
		Region: finding.Pack(&finding.Region{Exact: true, Configurations: big.NewInt(12), OnTheRoad: big.NewRat(621, 2), Where: where,
			Example: &model.Example{Year: 2000, Traits: []model.TraitValue{{Trait: susp, Value: 0}}}}),
		Cells: []finding.Cell{{Place: at("F14"), Note: "declared here"}}, Fix: "fill a cell"}
}

func TestWholeText(t *testing.T) {
	r := &compiler.Result{Whole: true,
		Read: intake.Read{Files: []intake.File{
			{Name: "broken.xlsx", Failed: true},
			{Name: "fitment.xlsx", Sheets: []intake.Sheet{{Name: "Fitment H7", Kind: "fitment", Rows: 40},
				{Name: "Parts", Kind: "parts", Rows: 1, Hidden: true}, {Name: "Ideas", Rows: 9}, {Name: "_old"}}},
		}},
		Findings: []*finding.Finding{
			gap(5),
			{Code: "size-unusual", Severity: finding.Warning, Message: `"0.3 in" is in no table of nominal sizes`, Cells: finding.At(at("C4")), Fix: "write 5/16 in"},
			{Code: "part-unused", Severity: finding.Note, Message: "no cell offers QX-1"},
			{Code: "fitment-conflict", Severity: finding.Error, Message: "two cells disagree", Region: finding.Pack(&finding.Region{Exact: true,
				Configurations: big.NewInt(1), OnTheRoad: big.NewRat(1, 3), Where: boxes(1)}),
				Accepted: &finding.Accepted{Reason: "both fit", By: "N. N.", Until: "2027-01-01", Cell: at("A2")}},
		}}
	want := `read 2 workbooks: 2 sheets, 41 rows
  broken.xlsx: could not be read whole
  fitment.xlsx
    rows: Fitment H7 40, Parts (hidden) 1
    left alone: Ideas, _old

fitment-conflict: 1 accepted
  two cells disagree
      accepted by N. N. until 2027-01-01: both fit (fitment.xlsx:Fitment H7!A2)

part-unused: 1 note
  note no cell offers QX-1

size-unusual: 1 warning
  warning "0.3 in" is in no table of nominal sizes
      at       fitment.xlsx:Fitment H7!C4
      fix      write 5/16 in

coverage-gap: 1 error
  error H7 has no part at Front damper on 12 of 480 configurations
      at       fitment.xlsx:Fitment H7!F14: declared here
      vehicles 12 configurations, 310.5 on the road
      where    2000, Front suspension Air beam
      where    2001
      where    2002
               +2 more boxes
      example  2000, Front suspension Air beam
      fix      fill a cell

1 error, 1 warning, 1 note, 1 accepted
`
	assert.Equal(t, want, render(t, Options{}, r))
}

func TestRegions(t *testing.T) {
	f := gap(4)
	region := f.Region.Open()
	region.Rest = big.NewInt(1)
	f.Region = finding.Pack(region)
	text := render(t, Options{}, only(f))
	assert.Contains(t, text, "      where    2003\n", "one box more is as short as saying so")
	assert.Contains(t, text, "      and 1 configuration outside all boxes listed\n")
	f.Region = finding.Pack(&finding.Region{Example: region.Example})
	text = render(t, Options{}, only(f))
	assert.Contains(t, text, "vehicles too irregular to be counted or listed\n      example  2000, Front")
	assert.NotContains(t, text, "on the road")
}

func TestRoadIsSaidForPeople(t *testing.T) {
	for rat, want := range map[string]string{"0": "0", "5200": "5200", "621/2": "310.5", "1/4": "0.25",
		"1/3": "about 0.33", "1/8": "about 0.13", "1000/3": "about 333.33", "29999/10000": "about 3"} {
		r, ok := new(big.Rat).SetString(rat)
		require.True(t, ok)
		assert.Equal(t, want, road(r), rat)
	}
}

func TestNotWholeIsSaid(t *testing.T) {
	assert.Contains(t, render(t, Options{}, &compiler.Result{}), "nothing is said about coverage")
	assert.NotContains(t, render(t, Options{}, only()), "coverage")
}

func invalid(n int, message func(int) string) []*finding.Finding {
	fs := make([]*finding.Finding, n)
	for i := range fs {
		fs[i] = &finding.Finding{Code: "value-invalid", Severity: finding.Error, Message: message(i),
			Cells: finding.At(at(fmt.Sprintf("E%d", i+4)))}
	}
	return fs
}

func TestSameMessageIsSaidOnce(t *testing.T) {
	text := render(t, Options{}, only(invalid(12, func(int) string { return `"x" is no quantity` })...))
	assert.Equal(t, 1, strings.Count(text, "is no quantity"))
	assert.Contains(t, text, "value-invalid: 12 errors\n")
	assert.Contains(t, strings.Join(strings.Fields(text), " "),
		"at fitment.xlsx:Fitment H7!E4, E5, E6, E7, E8, E9, E10, E11, +4 more")
}

func TestSameShapeIsSaidThreeTimes(t *testing.T) {
	fs := invalid(5, func(i int) string { return fmt.Sprintf(`"x%d" is no quantity in row %d`, i, i) })
	text := render(t, Options{}, only(fs...))
	assert.Equal(t, 3, strings.Count(text, "is no quantity"))
	assert.Contains(t, text, "  +2 more like these: fitment.xlsx:Fitment H7!E7, E8\n")
}

func TestGapsOfDifferentPositionsAreAllTold(t *testing.T) {
	var fs []*finding.Finding
	for i := range 9 {
		f := gap(1)
		f.Position = fmt.Sprint("Place ", i)
		fs = append(fs, f)
	}
	assert.Equal(t, 9, strings.Count(render(t, Options{}, only(fs...)), "example"))
	for _, f := range fs {
		f.Position = "Front damper"
	}
	assert.Equal(t, 3, strings.Count(render(t, Options{}, only(fs...)), "example"), "pairs of one position are one shape")
}

func TestOneFixForAllIsSaidOnce(t *testing.T) {
	a, b := gap(1), gap(1)
	b.Position = "Rear damper"
	text := render(t, Options{}, only(a, b))
	assert.Equal(t, 1, strings.Count(text, "fill a cell"))
	assert.Contains(t, text, "\n  fix fill a cell\n\n2 errors")
	b.Fix = "fill another"
	text = render(t, Options{}, only(a, b))
	assert.Contains(t, text, "      fix      fill a cell\n")
	assert.Contains(t, text, "      fix      fill another\n")
}

func TestLinesAreWrapped(t *testing.T) {
	f := invalid(1, func(int) string { return strings.Repeat("word ", 60) })[0]
	f.Fix = strings.Repeat("mend ", 60)
	for _, width := range []int{40, 80, 132} {
		text := render(t, Options{Width: width}, only(f))
		longest := 0
		for line := range strings.Lines(text) {
			longest = max(longest, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")))
		}
		assert.LessOrEqual(t, longest, width)
		assert.Greater(t, longest, width-6)
		assert.Equal(t, 60, strings.Count(text, "word"))
	}
}

func TestColorOnlyWhenTold(t *testing.T) {
	assert.NotContains(t, render(t, Options{}, only(gap(1))), "\x1b")
	colored := render(t, Options{Color: true}, only(gap(1)))
	assert.Contains(t, colored, "\x1b[1;31merror\x1b[0m")
	plain := colored
	for _, style := range []string{bold, dim, red, yellow, blue, "0"} {
		plain = strings.ReplaceAll(plain, "\x1b["+style+"m", "")
	}
	assert.Equal(t, render(t, Options{}, only(gap(1))), plain, "colours change nothing else")
}

// Text of a workbook must not steer the terminal.
func TestControlCharactersAreShown(t *testing.T) {
	f := invalid(1, func(int) string { return "a\x1b[2Jb\u202ec\x00d\u009be" })[0]
	text := render(t, Options{}, only(f))
	assert.Contains(t, text, "a<U+001B>[2Jb<U+202E>c<U+0000>d<U+009B>e")
	assert.NotContains(t, text, "\x1b")
}

func TestJSONIsTheFindingsFile(t *testing.T) {
	f, err := New("json", Options{})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, f.Format(&b, only(gap(1))))
	assert.Contains(t, b.String(), `"code": "coverage-gap"`)
	assert.True(t, strings.HasPrefix(b.String(), "{\n"))
}

func TestUnknownFormats(t *testing.T) {
	for name, want := range map[string]string{"jsno": "did you mean json", "": "write text, json, jsonl, sarif, junit or github"} {
		_, err := New(name, Options{})
		assert.ErrorContains(t, err, want, name)
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWriteErrorsAreTold(t *testing.T) {
	for _, name := range Formats() {
		f, err := New(name, Options{})
		require.NoError(t, err)
		assert.ErrorContains(t, f.Format(full{}, only(gap(1))), "disk full", name)
	}
}

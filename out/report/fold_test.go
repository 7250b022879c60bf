package report

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

// forbidden is what a row of Compatibility, at B2, says of a cell on a platform.
func forbidden(platform, cell string) *finding.Finding {
	return &finding.Finding{Code: "part-forbidden", Severity: finding.Error, Platform: platform, Position: "Front restrictor", Part: "FR-38",
		Message: fmt.Sprintf("%q at Front restrictor offers FR-38, which is forbidden on these vehicles of %s: it hunts", "FR-38", platform),
		Cells:   finding.At(at(cell), at("B2")), Fix: "take these vehicles out",
		Region: finding.Pack(&finding.Region{Exact: true, Configurations: big.NewInt(8), OnTheRoad: big.NewRat(9, 2), Where: boxes(2), Example: &model.Example{Year: 2000}})}
}

func TestACellIsToldOnceForAllPlatforms(t *testing.T) {
	got := render(t, Options{}, only(forbidden("H7", "F14"), forbidden("H9", "F14"), forbidden("K26", "F14"), forbidden("K26", "F15")))
	assert.Contains(t, got, `part-forbidden: 4 errors at 2 cells
  error "FR-38" at Front restrictor offers FR-38, which is forbidden on these
        vehicles of H7, H9 and K26: it hunts
      at       fitment.xlsx:Fitment H7!F14
      at       fitment.xlsx:Fitment H7!B2
      vehicles H7: 8 configurations, 4.5 on the road: 2000 (+1 more)
      vehicles H9: 8 configurations, 4.5 on the road: 2000 (+1 more)
      vehicles K26: 8 configurations, 4.5 on the road: 2000 (+1 more)
      example  H7, 2000
  error "FR-38" at Front restrictor offers FR-38, which is forbidden on these
        vehicles of K26: it hunts
      at       fitment.xlsx:Fitment H7!F15
`)
	assert.Contains(t, got, "4 errors, 0 warnings", "each platform counts")
}

// TestOtherWordsAreOtherFaults holds that nothing but the platform may differ.
func TestOtherWordsAreOtherFaults(t *testing.T) {
	for name, change := range map[string]func(*finding.Finding){
		"message":  func(f *finding.Finding) { f.Message += " by 3 mm" },
		"part":     func(f *finding.Finding) { f.Part = "FR-12" },
		"position": func(f *finding.Finding) { f.Position = "Rear restrictor" },
		"cell":     func(f *finding.Finding) { f.Cells[0] = finding.At(at("F15"))[0] },
		"accepted": func(f *finding.Finding) { f.Accepted = &finding.Accepted{Reason: "R", By: "B", Cell: at("A2")} },
		"gap":      func(f *finding.Finding) { f.Code = "coverage-gap" },
		"unknown":  func(f *finding.Finding) { f.Region = finding.Pack(&finding.Region{}) },
	} {
		other := forbidden("H9", "F14")
		change(other)
		got := render(t, Options{}, only(forbidden("H7", "F14"), other))
		assert.NotContains(t, got, "H7 and H9", name)
		assert.NotContains(t, got, " at 1 cell", name)
	}
}

func TestManyPlatformsAreCounted(t *testing.T) {
	var fs []*finding.Finding
	for i := range 11 {
		fs = append(fs, forbidden(fmt.Sprintf("P%02d", i), "F14"))
	}
	got := render(t, Options{}, only(fs...))
	assert.Equal(t, 8, strings.Count(got, "vehicles P"), got)
	assert.Contains(t, got, "+3 more platforms")
	assert.Contains(t, got, "P09 and P10", "all are named")
}

// TestManyCellsWithoutARow holds that what no row is held against is told by its cells.
func TestManyCellsWithoutARow(t *testing.T) {
	var fs []*finding.Finding
	for i := range behindMany {
		fs = append(fs, &finding.Finding{Code: finding.PartUnused, Severity: finding.Note, Message: fmt.Sprintf("HD-%d is in no cell", i), Cells: finding.At(at(fmt.Sprint("A", 2+i)))})
	}
	got := render(t, Options{}, only(fs...))
	assert.NotContains(t, got, "one row stands")
	assert.Contains(t, got, "+3 more like these: fitment.xlsx:Fitment H7!A5, A6, A7\n")
}

func TestARowAgainstManyCellsIsToldOnce(t *testing.T) {
	var fs []*finding.Finding
	for i := range behindMany {
		fs = append(fs, forbidden("H7", fmt.Sprint("F", 10+i)), forbidden("H9", fmt.Sprint("F", 10+i)))
	}
	fs = append(fs, &finding.Finding{Code: "part-forbidden", Severity: finding.Error, Message: "another row", Cells: finding.At(at("F10"), at("B3")),
		Region: finding.Pack(&finding.Region{Exact: true, Configurations: big.NewInt(1)})})
	got := render(t, Options{}, only(fs...))
	assert.Contains(t, got, `part-forbidden: 13 errors at 6 cells
  error one row stands against 6 cells: look there first, whether it says more
        than is meant
      at       fitment.xlsx:Fitment H7!B2
      cells    fitment.xlsx:Fitment H7!F10, F11, F12, F13, F14, F15
      such as  "FR-38" at Front restrictor offers FR-38, which is forbidden on
               these vehicles of H7: it hunts
      fix      take these vehicles out
  error another row
`)

	got = render(t, Options{}, only(fs[:2*(behindMany-1)]...))
	assert.NotContains(t, got, "one row stands", "fewer cells are told one by one")
}

package markup

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// required are the kinds of sheet and the columns that each must have.
var required = map[string][]string{
	"settings":      {"Setting", "Value"},
	"platforms":     {"Platform", "Years"},
	"traits":        {"Trait", "Value"},
	"vehicles":      {"Platform"},
	"breaks":        {"Platform", "Trait", "Value"},
	"positions":     {"Position"},
	"parts":         {"Part"},
	"kits":          {"Kit", "Part"},
	"references":    {"Number", "Part"},
	"sizes":         {"System", "Nominal"},
	"fitment":       {"Platform"},
	"compatibility": {"Effect", "Reason"},
	"facts":         {"Platform"},
	"limits":        {"Limit", "Left", "Must be", "Right"},
	"calculated":    {"Name", "Formula"},
	"cautions":      {"Caution", "Text"},
	"complaints":    {"Complaint", "How it helps"},
	"inspections":   {"What to look at"},
	"accepted":      {"Finding", "Reason", "By"},
}

func TestStarterHasEverySheet(t *testing.T) {
	seen := map[string]bool{}
	for _, b := range Starter() {
		for i := range b.Sheets {
			s := &b.Sheets[i]
			kind := kindOf(s.Name)
			if kind == "" {
				continue
			}
			require.Contains(t, required, kind)
			for _, column := range required[kind] {
				assert.GreaterOrEqual(t, s.index(column), 0, "%s lacks %s", s.Name, column)
			}
			assert.Greater(t, len(s.Rows), s.header()+1, "%s has an example row", s.Name)
			seen[kind] = true
		}
	}
	for kind := range required {
		assert.True(t, seen[kind], kind)
	}
	assert.Equal(t, "_Read me", Starter()[0].Sheets[0].Name)
}

// No row of the starter is longer than its header: a value without a heading would
// not be read.
func TestStarterRowsFitTheirHeader(t *testing.T) {
	for _, b := range Starter() {
		for i := range b.Sheets {
			if s := &b.Sheets[i]; !prose(s) {
				for r, row := range s.Rows {
					assert.LessOrEqual(t, len(row), len(s.headings()), "%s row %d", s.Name, r+1)
				}
			}
		}
	}
}

package fleet_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/ask/fleet"
	"ferrule/compiler/intake/layout"
	"ferrule/compiler/model"
)

// customers is a list as customers write it: forty rows, with names of their own.
const customers = "../../../testdata/fleet/customer.csv"

func demo(t testing.TB) (*model.Catalogue, []*layout.Row) {
	t.Helper()
	res, err := compiler.Compile(t.Context(), compiler.Input{Paths: []string{"../../../testdata/demo"}}, compiler.Options{Unchecked: true})
	require.NoError(t, err)
	require.NotNil(t, res.Catalogue)
	return res.Catalogue, res.Fleets
}

func answered(t testing.TB, cat *model.Catalogue, laid []*layout.Row, path string) *fleet.Fleet {
	t.Helper()
	f := fleet.New(cat)
	require.NoError(t, f.Read(path, laid))
	require.NoError(t, f.Answer(t.Context()))
	return f
}

// TestRowsAsCustomersWriteThem says how many rows are taken at once, and why the others are not.
func TestRowsAsCustomersWriteThem(t *testing.T) {
	cat, laid := demo(t)
	f := answered(t, cat, laid, customers)
	var why []string
	for _, r := range f.Refused {
		name := r.Carried[0]
		why = append(why, name+": "+r.What+" | "+r.Nearest)
	}
	assert.Equal(t, []string{
		`ML-12: no platform is called "H8" | there are H7, H9, L4, K26 and N5`,
		`ML-13: the model years of H7 are 2004 to 2019, and 2001 is none of them | 2004 to 2008 instead of 2001`,
		`ML-14: no such H7 exists | Front suspension Air beam instead of Front suspension Air independent`,
		`CL-20: no H9 has Front suspension Leaf | Front suspension Air beam or Air independent instead of Front suspension Leaf`,
		`CL-21: no H9 has Tag axle No tag axle | Tag axle Fixed tag or Lift tag instead of Tag axle No tag axle`,
		`WV-26: the model years of L4 are 1998 to 2015, and 2016 is none of them | 2005 to 2015 instead of 2016`,
		`WV-28: no value of Front suspension is called "leafs" | did you mean Leaf?`,
		`WC-31: "two" under Quantity is no whole number | write how many such vehicles there are, or nothing for one`,
		`WC-33: "'18" is taken for years of two digits, and a year has four | write 2018`,
		`NL-37: no such N5 exists | Chassis number 5300 to 9400 instead of Chassis number 4100`,
		`NL-39: nothing stands under Platform | write one of H7, H9, L4, K26 or N5`,
		`Total: the row says nothing of a vehicle | write its platform, and what is known of it`,
	}, why)
	assert.Len(t, f.Rows, 28, "of forty rows, at once")
	assert.Equal(t, []string{"Fleet no."}, f.Carried)
	assert.Empty(t, f.Remarks)
	settled := 0
	for i := range f.Rows {
		if f.Rows[i].Settled() {
			settled++
		}
	}
	assert.Equal(t, 4, settled, "rows of which nothing is open")
}

// TestAnswersSettleAFleet answers of each row what To ask asks first, again and again, until nothing is
// asked any more: then all vehicles are settled but for what no column answers.
func TestAnswersSettleAFleet(t *testing.T) {
	cat, laid := demo(t)
	head, rows := read(t, customers)
	path := filepath.Join(t.TempDir(), "customer.csv")
	for range 2 * len(cat.Traits) {
		write(t, path, head, rows)
		f := answered(t, cat, laid, path)
		require.Len(t, f.Rows, 28)
		done := map[int32]bool{}
		for r, a := range f.Asks() {
			if a.Column == "" || done[r.At.Row] {
				continue
			}
			done[r.At.Row] = true
			head = answer(head, rows, int(r.At.Row)-4, a) // behind a title, an empty row and the header
		}
		if len(done) > 0 {
			continue
		}
		for i := range f.Rows {
			for _, p := range f.Rows[i].Places() {
				assert.NotEqual(t, fleet.Open, p.State, "%s of %s: %s", p.Position.Name, f.Rows[i].Says(), p.Says)
			}
		}
		for _, l := range f.Order {
			assert.Equal(t, l.Least, l.Most, l.Part.Number)
		}
		assert.Empty(t, f.Few)
		return
	}
	t.Fatal("it goes on asking")
}

// answer writes the first thing that an answer may be under its heading, which is made if it is not there.
func answer(head []string, rows [][]string, row int, a *fleet.Ask) []string {
	at := slices.IndexFunc(head, func(h string) bool { return slices.Contains(called(a.Column), h) })
	if at < 0 {
		at, head = len(head), append(head, a.Column)
	}
	for len(rows[row]) <= at {
		rows[row] = append(rows[row], "")
	}
	first, _, _ := strings.Cut(a.May, " or ")
	first, _, _ = strings.Cut(first, ", ")
	first, _, _ = strings.Cut(first, " to ")
	rows[row][at] = first
	return head
}

// called gives the headings of the list for a column of the catalogue.
func called(column string) []string {
	return append(map[string][]string{"Years": {"MY"}, "Front suspension": {"Front springs"}, "Rear suspension": {"Rear springs"},
		"Front axle rating": {"Axle 1"}, "Steering side": {"Drive side"}, "Chassis number": {"Chassis no."}}[column], column)
}

// read gives the header and the rows below it.
func read(t *testing.T, path string) (head []string, rows [][]string) {
	t.Helper()
	file, err := os.Open(path)
	require.NoError(t, err)
	defer file.Close()
	all, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	return all[2], all[3:]
}

// write writes them below a title and an empty row, as they stood.
func write(t *testing.T, path string, head []string, rows [][]string) {
	t.Helper()
	var text strings.Builder
	out := csv.NewWriter(&text)
	commas := strings.Repeat(",", len(head)-1)
	text.WriteString("Mobile library and clinic fleet" + commas + "\n" + commas + "\n")
	require.NoError(t, out.Write(head))
	for _, row := range rows {
		row = append(slices.Clone(row), make([]string, len(head)-len(row))...)
		require.NoError(t, out.Write(row))
	}
	out.Flush()
	require.NoError(t, os.WriteFile(path, []byte(text.String()), 0o644))
}

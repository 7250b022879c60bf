package enumerate

import (
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/ask/fleet"
	"ferrule/compiler/model"
	fleetsheets "ferrule/out/fleet"
)

// fleetSeeds is how many catalogues have a fleet: 300 where all is run.
func fleetSeeds() int { return min(300, max(3, *seeds*300/520)) }

// fleetRow is a row as the generator means it.
type fleetRow struct {
	cells    []string
	quantity int64
	w        *world
	set      []int // configurations that it may be; none: no such vehicle, or it cannot be read
}

// TestFleets lists random vehicles of random catalogues, some by other names, with answers left
// out, with years that the platform does not have and values that do not go together, and holds
// each place, each range and all sums against the enumeration.
func TestFleets(t *testing.T) {
	rows, refused, open := 0, 0, 0
	for seed := range uint64(fleetSeeds()) {
		c := generate(seed)
		k := &checker{c: c}
		r := rand.New(rand.NewPCG(seed, 22))
		f, told := k.fleet(t, r)
		byRow := map[int32]*fleet.Row{}
		for i := range f.Rows {
			byRow[f.Rows[i].At.Row] = &f.Rows[i]
		}
		want := map[string][2]int64{}
		for i := range told {
			got := byRow[int32(i+2)]
			if (got != nil) != (len(told[i].set) > 0) {
				k.failf("fleet", "row %v is taken: %v, and %d configurations are such; %s", told[i].cells, got != nil, len(told[i].set), whyNot(f, int32(i+2)))
				continue
			}
			if got == nil {
				refused++
				continue
			}
			rows++
			open += k.fleetVehicle(&told[i], got, want)
		}
		k.fleetOrder(f, want)
		sumsAgree(t, f)
		require.Empty(t, k.problems, "seed %d\n%s", seed, lines(k.problems))
	}
	t.Logf("%d rows, %d open places, %d rows not taken", rows, open, refused)
	require.Greater(t, rows, 10*fleetSeeds())
	require.Greater(t, open, 5*fleetSeeds())
	require.Greater(t, refused, 3*fleetSeeds())
}

// fleet writes a fleet as a text file and has it answered.
func (k *checker) fleet(t *testing.T, r *rand.Rand) (*fleet.Fleet, []fleetRow) {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, k.c.write(dir))
	res, err := compiler.Compile(t.Context(), compiler.Input{Paths: []string{dir}}, compiler.Options{Unchecked: true})
	require.NoError(t, err)
	cat := res.Catalogue
	for i, p := range cat.Platforms {
		p.Called = []model.Called{{Name: fmt.Sprintf("Customers %c", 'A'+i)}}
	}
	for _, tr := range cat.Traits {
		for i, v := range tr.Values {
			v.Called = []model.Called{{Name: fmt.Sprintf("kind-%c", 'a'+i)}}
		}
	}
	k.o = k.c.enumerate() // the rows are where they were written
	told := k.fleetRows(r)
	path := filepath.Join(t.TempDir(), "fleet.csv")
	file, err := os.Create(path)
	require.NoError(t, err)
	out := csv.NewWriter(file)
	head := []string{"Platform", "Year"}
	for i := range k.c.traits {
		head = append(head, k.c.traits[i].name)
	}
	require.NoError(t, out.Write(append(head, "Quantity", "Our number")))
	for _, row := range told {
		require.NoError(t, out.Write(row.cells))
	}
	out.Flush()
	require.NoError(t, file.Close())
	f := fleet.New(cat)
	require.NoError(t, f.Read(path, nil))
	require.NoError(t, f.Answer(t.Context()))
	return f, told
}

// fleetRows makes up vehicles: those that exist, with answers left out, and others.
func (k *checker) fleetRows(r *rand.Rand) []fleetRow {
	var out []fleetRow
	for _, w := range k.o.worlds {
		if len(w.configs) == 0 {
			continue
		}
		for n := range 12 {
			g := w.configs[r.IntN(len(w.configs))]
			open := make([]bool, len(k.c.traits)+1)
			for i := range open {
				open[i] = r.IntN(3) == 0
			}
			if n%4 == 3 { // a value, or the year, of another vehicle
				h := w.configs[r.IntN(len(w.configs))]
				if t := r.IntN(len(k.c.traits) + 1); t == 0 {
					g.year, open[0] = h.year+r.IntN(3)*100-100, false
				} else {
					g.vals[t-1], open[t] = h.vals[t-1], false
				}
			}
			row := fleetRow{w: w, set: k.c.fitting(w, g, open), quantity: int64(1 + r.IntN(4))}
			row.cells = k.fleetCells(r, w, g, open, row.quantity)
			if n == 6 {
				row.cells[0], row.set = "No such platform", nil
			}
			out = append(out, row)
		}
	}
	return out
}

// fleetCells writes a vehicle as a customer would.
func (k *checker) fleetCells(r *rand.Rand, w *world, g config, open []bool, quantity int64) []string {
	cells := []string{k.c.platforms[w.platform].name, fmt.Sprint(g.year)}
	if r.IntN(2) == 0 {
		cells[0] = []string{"customers %c", "CUSTOMERS-%c", "Customers%c"}[r.IntN(3)]
		cells[0] = fmt.Sprintf(cells[0], 'A'+w.platform)
	}
	if open[0] {
		cells[1] = ""
	}
	for t := range k.c.traits {
		_, text, _ := strings.Cut(strings.TrimPrefix(k.c.answer(g, t), k.c.traits[t].name), "=")
		if v := g.vals[t]; v != never && k.c.traits[t].line == nil && r.IntN(3) == 0 {
			text = fmt.Sprintf("Kind %c", 'a'+v)
		}
		if open[t+1] {
			text = []string{"", "?"}[r.IntN(2)]
		}
		cells = append(cells, text)
	}
	return append(cells, fmt.Sprint(quantity), fmt.Sprint("N", r.IntN(100)))
}

// fleetVehicle compares the places of a row, adds up what they take, and counts those that are open.
func (k *checker) fleetVehicle(told *fleetRow, got *fleet.Row, sum map[string][2]int64) (open int) {
	places := map[string]*fleet.Place{}
	for _, p := range got.Places() {
		places[p.Position.Name] = p
	}
	if got.Quantity != told.quantity {
		k.failf("fleet", "row %v stands for %d vehicles", told.cells, got.Quantity)
	}
	for pos, at := range k.c.positions {
		want, there, certain := k.ends(told.w, told.set, pos)
		p := places[at.name]
		if (p != nil) != there {
			k.failf("fleet", "%s is told %v of %v", at.name, p != nil, told.cells)
			continue
		}
		if p == nil {
			continue
		}
		if p.State == fleet.Open {
			open++
		}
		if is := p.Settled(); is != certain {
			k.failf("fleet", "%s of %v is settled: %v (%s: %s)", at.name, told.cells, is, p.State, p.Says)
		}
		has := map[string][2]int64{}
		for _, it := range p.Items {
			has[it.Part.Number] = [2]int64{it.Least, it.Most}
		}
		if fmt.Sprint(has) != fmt.Sprint(want) {
			k.failf("fleet", "%s of %v takes %v, want %v", at.name, told.cells, has, want)
		}
		for number, ends := range want {
			sum[number] = [2]int64{sum[number][0] + ends[0]*told.quantity, sum[number][1] + ends[1]*told.quantity}
		}
	}
	return open
}

// ends gives the least and the most of each part that the first choices take at a position; there
// tells whether any of the vehicles has it, and certain whether what is ordered there is known.
func (k *checker) ends(w *world, set []int, pos int) (ends map[string][2]int64, there, certain bool) {
	ends = map[string][2]int64{}
	var takes []map[string]int64
	says := map[string]bool{}
	certain = true
	for _, i := range set {
		v := k.o.verdicts[w][i][pos]
		here := map[string]int64{}
		there = there || v.exists
		how := v.outcome
		switch {
		case !v.exists:
			certain = false
		case v.outcome == "conflict", v.outcome == "gap", v.outcome == "planned", v.outcome == "ask", k.trouble(w, i, pos):
			certain = false
		case v.outcome == "fitted" && v.cells[0].st.kind == "parts":
			items := k.c.filled(v.cells[0].st, v.quantity)[0]
			how += sayItems(items)
			for _, it := range items {
				here[it.name] += int64(it.quantity)
			}
		case v.outcome == "fitted":
			how += fmt.Sprint(" with ", v.cells[0].st)
		}
		says[how] = true
		takes = append(takes, here)
	}
	for _, here := range takes {
		for number := range here {
			least, most := here[number], here[number]
			for _, other := range takes {
				least, most = min(least, other[number]), max(most, other[number])
			}
			ends[number] = [2]int64{least, most}
		}
	}
	return ends, there, certain && len(says) == 1
}

// fleetOrder compares the order with the sums.
func (k *checker) fleetOrder(f *fleet.Fleet, want map[string][2]int64) {
	for _, l := range f.Order {
		if got := [2]int64{l.Least, l.Most}; want[l.Part.Number] != got {
			k.failf("fleet", "%v of %s to order, want %v", got, l.Part.Number, want[l.Part.Number])
		}
		delete(want, l.Part.Number)
	}
	if len(want) > 0 {
		k.failf("fleet", "%v are not to be ordered", want)
	}
}

// sumsAgree holds that the lines of the sheet by vehicle add up to the sheet of the order.
func sumsAgree(t *testing.T, f *fleet.Fleet) {
	t.Helper()
	add := func(name string) map[string][2]int64 {
		out := map[string][2]int64{}
		all := fleetsheets.Tables(f)
		sheet := all[slices.Index(fleetsheets.Names(), name)]
		at := map[string]int{}
		for i, c := range sheet.Columns {
			at[c.Title] = i
		}
		require.NoError(t, sheet.Rows(func(row []any) error {
			if number, ok := row[at["Number"]].(string); ok {
				old := out[number]
				out[number] = [2]int64{old[0] + row[at["Least quantity"]].(int64), old[1] + row[at["Most quantity"]].(int64)}
			}
			return nil
		}))
		return out
	}
	require.Equal(t, add(fleetsheets.Order), add(fleetsheets.Parts))
}

// whyNot gives what is told of a row that is not taken.
func whyNot(f *fleet.Fleet, row int32) string {
	for _, r := range f.Refused {
		if r.At.Row == row {
			return r.What + "; " + r.Nearest
		}
	}
	return "nothing is told of it"
}

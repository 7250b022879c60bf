package pick_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/ask/pick"
	"ferrule/compiler/line"
	"ferrule/compiler/model"
	"ferrule/out/data"
	"ferrule/out/markup"
	"ferrule/schema"
)

// plate is one vehicle of a catalogue with serial numbers and Breaks, each number by itself.
type plate struct {
	year   int
	front  int         // a value of Front, or Absent
	number *line.Point // nil: n/a
}

func (v plate) holds(t model.TraitSet) bool {
	switch {
	case t.Trait.Name == "Front":
		return t.Values.Has(v.front)
	case v.number == nil:
		return t.Values.Has(t.Trait.Absent())
	}
	return t.Line.Ranges.Has(*v.number) != t.Line.Not
}

func (v plate) meets(w *model.When) bool {
	return w.Years.Has(v.year) && !slices.ContainsFunc(w.Traits, func(t model.TraitSet) bool { return !v.holds(t) })
}

func (v plate) listed(cat *model.Catalogue) bool {
	return slices.ContainsFunc(cat.Vehicles, func(r *model.Vehicles) bool { return v.meets(&r.When) })
}

// unbuilt tells whether rows of Breaks about a trait say that there is no such vehicle.
func (v plate) unbuilt(cat *model.Catalogue, t *model.Trait) bool {
	named, built := false, false
	for _, b := range cat.Breaks {
		if b.Value.Trait == t && v.value(t) && v.holds(b.Value) {
			named, built = true, built || v.meets(&b.When)
		}
	}
	return named && !built
}

// value tells whether the trait applies.
func (v plate) value(t *model.Trait) bool {
	return t.Name == "Front" && v.front != t.Absent() || t.Name == "Number" && v.number != nil
}

func (v plate) exists(cat *model.Catalogue) bool {
	return v.listed(cat) && !slices.ContainsFunc(cat.Traits, func(t *model.Trait) bool { return v.unbuilt(cat, t) })
}

// plates gives all that there might be.
func plates(cat *model.Catalogue) []plate {
	var numbers []*line.Point
	for _, r := range cat.Traits[1].Extent(cat.Platforms[0]) {
		for n := r.From; n <= r.To; n++ {
			numbers = append(numbers, &line.Point{Letters: r.Letters, N: n})
		}
	}
	var out []plate
	for _, y := range cat.Platforms[0].Years {
		for front := range cat.Traits[0].Absent() + 1 {
			for _, n := range append(numbers, nil) {
				out = append(out, plate{y, front, n})
			}
		}
	}
	return out
}

func among[T any](r *rand.Rand, of ...T) T { return of[r.IntN(len(of))] }

var (
	someYears   = []string{"", "2004-2005", "2005", "2005+", "2006", "not 2005"}
	someFronts  = []string{"", "Beam", "Arm", "not Beam", "Arm, Leaf"}
	someNumbers = []string{"", "to 4", "from 5", "3-6, A2", "from A3", "7", "not 2-3", "A1-A4", "before 9", "not from 8"}
)

// platesBook is a catalogue with random rows.
func platesBook(t *testing.T, r *rand.Rand) *model.Catalogue {
	t.Helper()
	var b strings.Builder
	b.WriteString("-- c.xlsx/Platforms --\nPlatform\tYears\nH7\t2004-2006\n-- c.xlsx/Traits --\nTrait\tValue\tKind\nFront\tBeam\nFront\tArm\nFront\tLeaf\n")
	b.WriteString("Number\t1-12, A1-A4\tserial\n-- c.xlsx/Positions --\nPosition\nDamper\n-- c.xlsx/Parts --\nPart\nQX-1\nQX-2\n-- c.xlsx/Vehicles --\nPlatform\tYears\tFront\tNumber\n")
	for range 1 + r.IntN(3) {
		fmt.Fprintf(&b, "H7\t%s\t%s\t%s\n", among(r, someYears...), among(r, "any", "Beam", "not Beam", "Arm, n/a"), among(r, "any", "to 8", "from 3, n/a", "A1-A4", "not 2"))
	}
	b.WriteString("-- c.xlsx/Breaks --\nPlatform\tTrait\tValue\tYears\tFront\tNumber\n")
	for range r.IntN(4) {
		if r.IntN(2) == 0 {
			fmt.Fprintf(&b, "H7\tFront\t%s\t%s\t\t%s\n", among(r, someFronts[1:]...), among(r, someYears...), among(r, someNumbers...))
		} else {
			fmt.Fprintf(&b, "H7\tNumber\t%s\t%s\t%s\t\n", among(r, someNumbers[1:]...), among(r, someYears...), among(r, someFronts...))
		}
	}
	b.WriteString("-- c.xlsx/Fitment --\nPlatform\tNumber\tFront\tPrecedence\tDamper\n")
	for i := range r.IntN(4) {
		fmt.Fprintf(&b, "H7\t%s\t%s\t%d\tQX-%d\n", among(r, someNumbers...), among(r, someFronts...), i, 1+r.IntN(2))
	}
	books, err := markup.Books([]byte(b.String()))
	require.NoError(t, err)
	dir := t.TempDir()
	require.NoError(t, markup.WriteAll(dir, books, markup.Options{Plain: true}))
	res, err := compiler.Compile(t.Context(), compiler.Input{Paths: []string{dir}}, compiler.Options{Unchecked: true})
	require.NoError(t, err)
	require.Len(t, res.Catalogue.Traits, 2)
	return res.Catalogue
}

// What is answered about serial numbers, ranges of them and what they leave out is what counting each
// number by itself finds.
func TestNumbersOneByOne(t *testing.T) {
	asked, missing, ruledOut := 0, 0, 0
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 7))
		cat := platesBook(t, r)
		desk, all := pick.NewLookup(cat), plates(cat)
		for range 15 {
			answers := []string{"Number=" + among(r, "1", "4", "5", "A2", "2-3", "from 7", "not 5", "6, n/a", "n/a", "A1-A4, 12", "before 3", "a4")}
			if r.IntN(2) == 0 {
				answers = append(answers, "Front="+among(r, "Beam", "Arm or Leaf", "n/a"))
			}
			q, err := desk.Query("H7", among(r, "", "2004", "2005-2006"), answers)
			require.NoError(t, err)
			l, err := desk.List(t.Context(), q)
			require.NoError(t, err)
			var told, such []plate
			for _, v := range all {
				if v.meets(&q.When) {
					told = append(told, v)
					if v.exists(cat) {
						such = append(such, v)
					}
				}
			}
			about := fmt.Sprintf("seed %d, %s", seed, q.Box())
			asked++
			if asked%20 == 0 {
				valid(t, "pick", func(b *bytes.Buffer) error { return data.Pick(b, l) })
				y, err := desk.Why(t.Context(), q, pick.Focus{})
				require.NoError(t, err)
				valid(t, "why", func(b *bytes.Buffer) error { return data.Why(b, y) })
			}
			sameStretch(t, cat, l, all, about)
			if len(such) > 0 {
				require.Positive(t, l.Configurations.Sign(), about)
				implied(t, cat, l, all, such, about)
				fitted(t, cat, l, such, about)
				continue
			}
			missing++
			ruledOut += min(1, len(l.Unbuilt))
			require.Zero(t, l.Configurations.Sign(), about)
			notBuilt(t, cat, l, told, about)
			nearest(t, cat, l, all, about)
		}
	}
	require.Greater(t, asked-missing, 200)
	require.Greater(t, missing, 60)
	require.Greater(t, ruledOut, 15)
}

func valid(t *testing.T, name string, write func(*bytes.Buffer) error) {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, write(&b))
	require.NoError(t, schema.ValidatePublished(name+".schema.json", b.Bytes()), b.String())
}

// sameStretch holds that all numbers of a stretch are alike to every row of fitments and vehicles.
func sameStretch(t *testing.T, cat *model.Catalogue, l *pick.List, all []plate, about string) {
	t.Helper()
	for _, taken := range l.Taken {
		key := ""
		for n := taken.Stretch.From; n <= taken.Stretch.To; n++ {
			now := ""
			for _, v := range all {
				if v.number != nil && *v.number == (line.Point{Letters: taken.Stretch.Letters, N: n}) {
					now += fmt.Sprint(v.exists(cat), partOf(cat, v))
				}
			}
			require.True(t, key == "" || key == now, about)
			key = now
		}
		for _, r := range taken.Told {
			require.True(t, r.In(taken.Stretch), about)
		}
	}
}

// partOf gives what is fitted, "" for nothing.
func partOf(cat *model.Catalogue, v plate) string {
	said, top := "", -1
	for _, f := range cat.Fitments {
		if v.meets(&f.When) && f.Precedence > top {
			said, top = f.Cells[0].Fits.String(), f.Precedence
		}
	}
	return said
}

func fitted(t *testing.T, cat *model.Catalogue, l *pick.List, such []plate, about string) {
	t.Helper()
	want := map[string]bool{}
	for _, v := range such {
		want[partOf(cat, v)] = true
	}
	got := map[string]bool{}
	for _, w := range l.Positions[0].Ways {
		words := ""
		if len(w.Case.Alternatives) > 0 {
			words = w.Case.Alternatives[0][0].Part.Number
		}
		got[words] = true
	}
	require.Equal(t, want, got, about)
}

// implied holds what follows against the vehicles: years, and values that were not told.
func implied(t *testing.T, cat *model.Catalogue, l *pick.List, all, such []plate, about string) {
	t.Helper()
	holds := func(v plate) bool {
		w := l.So.When(cat.Platforms[0])
		return w.Years.Has(v.year) && !slices.ContainsFunc(w.Traits, func(t model.TraitSet) bool { return !v.holds(t.Whole()) })
	}
	for _, v := range such {
		require.True(t, holds(v), "%s: %v is such", about, v)
	}
	for _, of := range l.So.Traits {
		if of.Trait.Name != "Front" {
			continue
		}
		for value := range of.Values.Values() {
			require.True(t, slices.ContainsFunc(such, func(v plate) bool { return v.front == value }), "%s: no such vehicle has %d", about, value)
		}
	}
	fronts := map[int]bool{}
	for _, v := range such {
		fronts[v.front] = true
	}
	toldFront := slices.ContainsFunc(l.Query.When.Traits, func(t model.TraitSet) bool { return t.Trait.Name == "Front" })
	others := slices.ContainsFunc(all, func(v plate) bool { return v.exists(cat) && !fronts[v.front] })
	says := slices.ContainsFunc(l.So.Traits, func(t model.TraitSet) bool { return t.Trait.Name == "Front" })
	require.Equal(t, others && !toldFront, says, about)
}

// notBuilt holds the rows of Breaks that are named against the vehicles that Vehicles lists.
func notBuilt(t *testing.T, cat *model.Catalogue, l *pick.List, told []plate, about string) {
	t.Helper()
	var listed []plate
	for _, v := range told {
		if v.listed(cat) {
			listed = append(listed, v)
		}
	}
	require.Equal(t, len(listed) > 0, l.Listed, about)
	require.Equal(t, len(listed) > 0, len(l.Unbuilt) > 0, about)
	for _, u := range l.Unbuilt {
		of := u.Row.Value.Trait
		require.True(t, slices.ContainsFunc(listed, func(v plate) bool { return v.holds(u.Row.Value) && v.value(of) && v.unbuilt(cat, of) }), "%s: %s", about, u.Row.At)
	}
	for _, v := range listed {
		require.True(t, slices.ContainsFunc(l.Unbuilt, func(u pick.Unbuilt) bool { return v.unbuilt(cat, u.Row.Value.Trait) }), "%s: %v", about, v)
	}
}

// nearest holds that the vehicles named exist, and that none with fewer other answers does.
func nearest(t *testing.T, cat *model.Catalogue, l *pick.List, all []plate, about string) {
	t.Helper()
	least := 9
	q := l.Query
	for _, v := range all {
		n := 0
		if !q.When.Years.Has(v.year) {
			n++
		}
		for _, c := range q.When.Traits {
			if !v.holds(c) {
				n++
			}
		}
		if v.exists(cat) {
			least = min(least, n)
		}
	}
	if least == 9 {
		require.Empty(t, l.Near, about)
		return
	}
	require.NotEmpty(t, l.Near, about)
	for _, n := range l.Near {
		require.Len(t, n.Changes, least, about)
		v := plate{year: n.Example.Year, front: cat.Traits[0].Absent()}
		for _, x := range n.Example.Traits {
			if x.Trait.Name == "Front" {
				v.front = x.Value
			} else if x.Name() != "" {
				r, err := line.Serial.Value(x.Name())
				require.NoError(t, err)
				first := r.First()
				v.number = &first
			}
		}
		require.True(t, v.exists(cat), "%s: %s", about, n.Example)
	}
}

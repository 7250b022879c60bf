package enumerate

import (
	"context"
	"math/rand/v2"
	"slices"
	"sort"
	"testing"

	picklist "ferrule/compiler/ask/pick"

	"github.com/stretchr/testify/require"
)

// TestWhyIsTheVerdict asks why of some configurations of random catalogues: which cells
// decide and which are overruled, which columns keep other rows from matching, and what
// stands against each part that is not offered.
func TestWhyIsTheVerdict(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 6))
	seen := map[string]int{}
	eachAsked(t, func(k *asked) {
		for _, w := range k.o.worlds {
			for range 3 {
				i := r.IntN(len(w.configs))
				q, err := k.desk.Query(k.c.platforms[w.platform].name, "", k.c.answers(w.configs[i]))
				require.NoError(t, err)
				y, err := k.desk.Why(context.Background(), q, picklist.Focus{})
				require.NoError(t, err)
				for _, reasons := range y.Reasons {
					k.why(w, i, reasons, seen)
				}
			}
		}
	})
	for _, what := range []string{"decides", "overruled", "miss", "set aside", "part-forbidden", "line-size-mismatch"} {
		if askedSeeds() == manyAsked {
			require.Greater(t, seen[what], 20, what)
		}
	}
}

// why compares the reasons of one position.
func (k *checker) why(w *world, i int, told picklist.Reasons, seen map[string]int) {
	pos := k.positionOf(told.Position.Position.Name)
	v, g := k.o.verdicts[w][i][pos], w.configs[i]
	want := map[string][]string{}
	rows := map[string][]*fit{} // by the address of the cell, which merged cells share
	for _, f := range k.c.fits {
		if st := f.says[pos]; st == nil || st.unreadable {
			continue
		}
		at := f.at[f.columns[pos]].String()
		rows[at] = append(rows[at], f)
		switch {
		case f.fault != "" || !f.meets(w.platform, g):
		case slices.ContainsFunc(v.cells, func(d deciding) bool { return d.fit == f }):
			want["decides"] = append(want["decides"], at)
		default:
			want["overruled"] = append(want["overruled"], at)
		}
	}
	got := map[string][]string{}
	for _, s := range told.Cells {
		what := "overruled"
		if len(s.Decides) > 0 {
			what = "decides"
		}
		if what == "decides" && len(got["overruled"]) > 0 {
			k.failf("why", "%s decides and stands behind one that is overruled", s.Cell.At)
		}
		got[what] = append(got[what], s.Cell.At.String())
	}
	for _, what := range []string{"decides", "overruled"} {
		sort.Strings(got[what])
		sort.Strings(want[what])
		seen[what] += len(got[what])
		if !slices.Equal(got[what], want[what]) {
			k.failf("why", "%s: %s %v where %s, want %v", told.Position.Position.Name, what, got[what], k.c.show(g), want[what])
		}
	}
	for _, other := range told.Others {
		for _, s := range other.Rows {
			if at := rows[s.Cell.At.String()]; len(at) == 1 {
				k.misses(w, g, at[0], s, seen)
			}
		}
		k.stands(w, i, pos, other, seen)
	}
}

func (k *checker) positionOf(name string) int {
	return slices.IndexFunc(k.c.positions, func(p *position) bool { return p.name == name })
}

// misses holds the columns that keep a row from matching against the row.
func (k *checker) misses(w *world, g config, f *fit, s picklist.Standing, seen map[string]int) {
	if s.SetAside != (f.fault != "") {
		k.failf("why", "%s: set aside %v", s.Cell.At, s.SetAside)
	}
	if s.SetAside {
		seen["set aside"]++
		return
	}
	var want, got []string
	if !f.years.meets(g.year) {
		want = append(want, "Years")
	}
	for i, c := range f.traits {
		if !c.meets(g.vals[i]) {
			want = append(want, k.c.traits[i].name)
		}
	}
	for _, m := range s.Misses {
		got = append(got, m.Column)
	}
	seen["miss"] += len(got)
	if !slices.Equal(got, want) {
		k.failf("why", "%s: misses %v where %s, want %v", s.Cell.At, got, k.c.show(g), want)
	}
}

// stands holds what is said against a part that is not offered.
func (k *checker) stands(w *world, i, pos int, other picklist.Candidate, seen map[string]int) {
	st := &statement{kind: "parts", alts: [][]item{{{name: other.Part.Number}}}}
	want := map[string]bool{}
	for _, r := range k.c.rules {
		if k.c.forbids(r, st, w.platform, w.configs[i]) != nil {
			want["part-forbidden"] = true
		}
	}
	if len(k.c.mismatched(st, k.o.verdicts[w][i][pos].air, w.configs[i])) > 0 {
		want["line-size-mismatch"] = true
	}
	for _, code := range []string{"part-forbidden", "line-size-mismatch"} {
		got := false
		for _, f := range other.Against {
			got = got || string(f.Code) == code
		}
		if got {
			seen[code]++
		}
		if got != want[code] {
			k.failf("why", "%s at %s: %s %v where %s", other.Part.Number, k.c.positions[pos].name, code, got, k.c.show(w.configs[i]))
		}
	}
}

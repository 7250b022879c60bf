package space_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"ferrule/compiler/space"

	"github.com/crillab/gophersat/solver"
)

// BenchmarkPairs is the search for rows that meet, by bits. References: pair by pair,
// and a SAT solver asked about each pair. Where there are many rows, these are taken
// on a sample of the pairs and scaled to all.
func BenchmarkPairs(b *testing.B) {
	for _, n := range []int{2_000, 20_000, 100_000} {
		sizes, rows, vehicles := catalogue(16, 6, n)
		s := space.New(sizes, space.Options{Order: space.Order(len(sizes), rows)})
		care := s.UnionBoxes(vehicles)
		b.Run(fmt.Sprintf("rows=%d", n), func(b *testing.B) {
			found := 0
			references := map[string]time.Duration{
				"pairwise": pairwise(s, rows, care),
				"sat":      satPerPair(b, s, sizes, rows, vehicles, care),
			}
			against(b, func() {
				found = 0
				s.Pairs(rows, care, func(i, j int) bool { found++; return true })
			}, references)
			b.ReportMetric(float64(found), "pairs")
		})
	}
}

// pairwise is how long it takes to hold each row against each later one, from at most
// 40 rows spread evenly.
func pairwise(s *space.Space, rows []space.Box, care space.Region) time.Duration {
	step, seen := max(1, len(rows)/40), 0
	d := took(func() {
		for i := step / 2; i < len(rows); i += step {
			for j := i + 1; j < len(rows); j++ {
				seen++
				if both, ok := rows[i].Intersect(rows[j]); ok {
					s.Meets(care, both)
				}
			}
		}
	})
	return scaled(d, seen, len(rows))
}

// scaled is what all pairs of n rows take where so many take d.
func scaled(d time.Duration, pairs, n int) time.Duration {
	return time.Duration(float64(d) / float64(pairs) * float64(n) * float64(n-1) / 2)
}

// satPerPair is how long a SAT solver takes that is asked about each pair, from 1,000
// of them; its answers are compared.
func satPerPair(b *testing.B, s *space.Space, sizes []int, rows, vehicles []space.Box, care space.Region) time.Duration {
	f := newFormula(sizes, vehicles)
	r := rand.New(rand.NewPCG(1, 1))
	const asked = 1_000
	d := took(func() {
		for range asked {
			x, y := rows[r.IntN(len(rows))], rows[r.IntN(len(rows))]
			both, ok := x.Intersect(y)
			if got := f.meet(x, y); got != (ok && s.Meets(care, both)) {
				b.Fatalf("the solver says %v of %v and %v", got, x, y)
			}
		}
	})
	return scaled(d, asked, len(rows))
}

// formula says in clauses which configurations exist: a variable for each value of
// each trait, and one for each row of vehicles. Variable 1 is in no clause.
type formula struct {
	sizes  []int
	first  []int // variable of value 0 of each trait
	solver *solver.Solver
}

func newFormula(sizes []int, vehicles []space.Box) *formula {
	f := &formula{sizes: sizes}
	vars := 1
	var clauses [][]int
	for _, n := range sizes {
		f.first = append(f.first, vars+1)
		var one []int
		for v := range n {
			for w := range v {
				clauses = append(clauses, []int{-(vars + 1 + w), -(vars + 1 + v)})
			}
			one = append(one, vars+1+v)
		}
		clauses = append(clauses, one)
		vars += n
	}
	var any []int
	for _, b := range vehicles {
		vars++
		any = append(any, vars)
		for t, set := range b {
			if set == nil {
				continue
			}
			in := []int{-vars}
			for v := range set.Values() {
				in = append(in, f.first[t]+v)
			}
			clauses = append(clauses, in)
		}
	}
	f.solver = solver.New(solver.ParseSliceNb(append(clauses, any), vars))
	return f
}

// meet asks whether a configuration that exists is in both.
func (f *formula) meet(x, y space.Box) bool {
	var not []solver.Lit
	for t, n := range f.sizes {
		for v := range n {
			if p, q := x.At(t), y.At(t); p != nil && !p.Has(v) || q != nil && !q.Has(v) {
				not = append(not, solver.IntToLit(int32(-(f.first[t] + v))))
			}
		}
	}
	return f.solver.Assume(not) != solver.Unsat && f.solver.Solve() == solver.Sat
}

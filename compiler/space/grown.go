package space

import (
	"math/big"
	"slices"
)

// onGrid finds the questions on a grid.
func (q *asker) onGrid(g *grid, ends int, shared *Shared) Questions {
	q.canon(g)
	f := shared.of(q.s, g, q.states, ends)
	if f.best == nil || f.size(some{}, ends+1, map[some]int{}) > ends {
		return Questions{Least: new(big.Int).Set(f.least)}
	}
	grown := grower{asker: q, found: f, trees: map[some]*Tree{}}
	return Questions{Tree: grown.tree(some{}), Effort: f.best.effort.big(), Weight: new(big.Int).Set(f.weighs),
		Least: new(big.Int).Set(f.least), Exact: !f.cut}
}

// size is the number of ends of the tree that was found, where that is less than most.
func (f *found) size(at some, most int, known map[some]int) int {
	if n, ok := known[at]; ok {
		return n
	}
	n := 0
	for _, in := range f.known[at].next {
		if n += f.size(in, most, known); n >= most {
			break
		}
	}
	if f.known[at].axis < 0 {
		n = 1
	}
	known[at] = min(n, most)
	return known[at]
}

// grower makes the tree of the questions that were found.
type grower struct {
	*asker
	*found
	trees map[some]*Tree
}

func (g *grower) tree(at some) *Tree {
	t, ok := g.trees[at]
	if !ok {
		t = g.grow(at)
		g.trees[at] = t
	}
	return t
}

func (g *grower) grow(at some) *Tree {
	c := g.found.known[at]
	if c.axis < 0 {
		return &Tree{Trait: -1, Classes: g.asker.ends[c.label]}
	}
	a := g.axes[c.axis]
	out := &Tree{Trait: g.s.order[a.level]}
	for _, in := range c.next {
		next := g.tree(in)
		var values Set
		for v, alike := range a.values {
			if in[c.axis]>>v&1 == 1 {
				values = values.Or(g.asker.alike[a.level][alike])
			}
		}
		i := slices.IndexFunc(out.Branches, func(b Branch) bool { return b.Next.equal(next) })
		if i < 0 {
			out.Branches = append(out.Branches, Branch{values, next})
			continue
		}
		out.Branches[i].Values = out.Branches[i].Values.Or(values)
	}
	return out
}

package compare

import (
	"cmp"
	"context"
	"slices"
	"sync/atomic"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Rename is a name of OLD and what it is called in NEW. The package comment says when
// one is told.
type Rename struct {
	What     Named
	Trait    string // of a value: NEW's name of its trait
	Old, New string
	Why      string // the criterion that was met, in words
}

// Named is what a name is of.
type Named uint8

const (
	Platform Named = iota
	Trait
	Value
	Position
	Part
)

func (n Named) String() string {
	return [...]string{"platform", "trait", "value", "position", "part"}[n]
}

// rename finds what is called otherwise. Each step builds on those before it. The error
// is the context's.
func (c *comparison) rename(ctx context.Context) error {
	for _, step := range []func(context.Context) error{
		c.renameTraits, c.renameValues, c.renamePlatforms, c.renameParts, c.renamePositions,
	} {
		if err := step(ctx); err != nil {
			return err
		}
	}
	slices.SortFunc(c.renames, func(a, b Rename) int {
		return cmp.Or(cmp.Compare(a.What, b.What), cmp.Compare(a.Trait, b.Trait), cmp.Compare(a.Old, b.Old))
	})
	return nil
}

// match is something of OLD and something of NEW, by their indexes.
type match struct{ old, new int }

// most bounds how many pairs of names are tried; where there are more, a release has been
// rewritten, and nothing is told as a rename of that sort.
const most = 1024

// matches gives every pair of names, one gone and one new, that a criterion leaves.
func matches(gone, came []int, may func(m match) bool) []match {
	if len(gone)*len(came) > most {
		return nil
	}
	var out []match
	for _, i := range gone {
		for _, j := range came {
			if m := (match{i, j}); may(m) {
				out = append(out, m)
			}
		}
	}
	return out
}

// single gives the matches of which neither side is in another one.
func single(all []match) []match {
	old, new := map[int]int{}, map[int]int{}
	for _, m := range all {
		old[m.old]++
		new[m.new]++
	}
	return slices.DeleteFunc(slices.Clone(all), func(m match) bool { return old[m.old] > 1 || new[m.new] > 1 })
}

// settleDoubts gives the single matches, and of the others those that a finer criterion
// makes single.
func settleDoubts(all []match, finer func([]match) ([]match, error)) ([]match, error) {
	sure := single(all)
	doubtful := slices.DeleteFunc(slices.Clone(all), func(m match) bool { return slices.Contains(sure, m) })
	if len(doubtful) == 0 {
		return sure, nil
	}
	left, err := finer(doubtful)
	return append(sure, single(left)...), err
}

// hold gives the matches that hold on every platform of some, and at least on one. test
// says for each match whether the platform bears it out, says nothing of it, or speaks
// against it; it is not asked of a match that another platform has spoken against.
func (c *comparison) hold(ctx context.Context, on []versions, all []match, test func(w *worker, p *pair, m match) vote) ([]match, error) {
	if len(all) == 0 {
		return nil, ctx.Err()
	}
	borne, out := make([]atomic.Bool, len(all)), make([]atomic.Bool, len(all))
	err := c.each(ctx, len(on), func(w *worker, i int) {
		if allSet(out) {
			return
		}
		p, err := w.open(on[i])
		for k, m := range all {
			v := against
			if err == nil && !out[k].Load() {
				v = p.ask(func() vote { return test(w, p, m) })
			}
			switch v {
			case bears:
				borne[k].Store(true)
			case against:
				out[k].Store(true)
			}
		}
	})
	var left []match
	for k, m := range all {
		if borne[k].Load() && !out[k].Load() {
			left = append(left, m)
		}
	}
	return left, err
}

// ask gives what a platform says; over the budget, that it speaks against.
func (p *pair) ask(test func() vote) (v vote) {
	defer p.Release(p.Mark())
	if p.Try(func() { v = test() }) != nil {
		return against
	}
	return v
}

// allSet tells whether all are set.
func allSet(out []atomic.Bool) bool {
	for i := range out {
		if !out[i].Load() {
			return false
		}
	}
	return true
}

// vote is what one platform says of a match.
type vote uint8

const (
	silent vote = iota
	bears
	against
)

func judge(same bool) vote {
	if same {
		return bears
	}
	return against
}

// number gives the trait of the space that stands for a trait of a release, 0 where the
// release does not use it on the platform.
func (h *half) number(t *model.Trait) int {
	if h.frame.Axes[t.Index].Free {
		return 0
	}
	return h.frame.Axes[t.Index].Trait
}

// with gives where a trait of a release, which it uses, has a value in a region, for any
// value of it.
func (p *pair) with(h *half, r space.Region, t *model.Trait, value int) space.Region {
	axis := h.frame.Axes[t.Index]
	return p.slice(r, axis.Trait, axis.Values[value])
}

// slice gives where a trait of the space has a value in a region, for any of its values.
func (p *pair) slice(r space.Region, trait, value int) space.Region {
	box := make(space.Box, trait+1)
	box[trait] = space.SetOf(value)
	others := make([]int, 0, p.Traits())
	for t := range p.Traits() {
		if t != trait {
			others = append(others, t)
		}
	}
	return p.Project(p.Intersect(r, p.Box(box)), others)
}

// sameStates tells whether two views say the same, when their regions are changed first.
func sameStates(old, new *view, ofOld, ofNew func(space.Region) space.Region) bool {
	said := map[string]space.Region{}
	for _, s := range old.states {
		if r := ofOld(s.where); r != space.Empty {
			said[s.key] = r
		}
	}
	for _, s := range new.states {
		r := ofNew(s.where)
		if said[s.key] != r {
			return false
		}
		delete(said, s.key)
	}
	return len(said) == 0
}

package main

import (
	"maps"
	"math/rand/v2"
	"slices"
)

// chooser draws sites: a package by the share of its lines, in it an operator, and then
// one of its places. The same seed draws the same sites in the same order, so a run goes
// on where another stopped.
type chooser struct {
	rand *rand.Rand
	pkgs []*pkg
}

func newChooser(seed uint64, pkgs []*pkg) *chooser {
	return &chooser{rand.New(rand.NewPCG(seed, 0)), slices.Clone(pkgs)}
}

// next draws a site that was not drawn before; nil where none is left.
func (c *chooser) next() (*pkg, *site) {
	for len(c.pkgs) > 0 {
		i := c.heavy()
		p := c.pkgs[i]
		if len(p.Sites) == 0 {
			c.pkgs = slices.Delete(c.pkgs, i, i+1)
			continue
		}
		names := slices.Sorted(maps.Keys(p.Sites))
		name := names[c.rand.IntN(len(names))]
		left := p.Sites[name]
		j := c.rand.IntN(len(left))
		s := left[j]
		if p.Sites[name] = slices.Delete(left, j, j+1); len(p.Sites[name]) == 0 {
			delete(p.Sites, name)
		}
		return p, &s
	}
	return nil, nil
}

// heavy draws a package.
func (c *chooser) heavy() int {
	sum := 0
	for _, p := range c.pkgs {
		sum += p.Lines
	}
	n := c.rand.IntN(max(sum, 1))
	for i, p := range c.pkgs {
		if n -= p.Lines; n < 0 {
			return i
		}
	}
	return len(c.pkgs) - 1
}

package enumerate

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// chain holds the diffs between three catalogues with the same names.
type chain struct {
	t          *testing.T
	seed       int
	cats       []*catalogue
	ab, bc, ac *diffOutput
}

// check goes through every configuration that all three have.
func (k *chain) check() {
	for _, d := range []*diffOutput{k.ab, k.bc, k.ac} {
		require.Empty(k.t, d.Renames, "seed %d", k.seed)
	}
	first, last := newDiffer(k.cats[0], k.cats[1], names{}), newDiffer(k.cats[0], k.cats[2], names{})
	between := map[string]*pairing{}
	for _, p := range first.pairings() {
		between[p.name] = p
	}
	for _, p := range last.pairings() {
		q := between[p.name]
		if q == nil || p.a == nil || p.b == nil || q.b == nil {
			continue
		}
		k.platform(last, first, p, q)
	}
}

// platform compares what the diffs say. A configuration is seen through the traits that
// each pair of catalogues uses: all of them, so that it names every trait of the three.
func (k *chain) platform(last, first *differ, p, q *pairing) {
	for _, x := range q.axes {
		if !slices.ContainsFunc(p.axes, func(y axis) bool { return y.name == x.name }) {
			x.inA, x.inB = false, false // only B uses it
			p.axes = append(p.axes, x)
		}
	}
	for _, j := range last.joints(p) {
		if j.a < 0 || j.b < 0 || first.find(q, j.year, through(q, p, j), false) < 0 {
			continue
		}
		for _, pos := range k.cats[2].positions {
			x, y := step(k.ab, p, j, pos.name)
			y2, z := step(k.bc, p, j, pos.name)
			a, c := step(k.ac, p, j, pos.name)
			switch {
			case x == "" && y2 == "":
				require.Empty(k.t, a, "seed %d: %s, %s, %v: two steps without a change", k.seed, p.name, pos.name, j)
			case x == "":
				require.Equal(k.t, []string{y2, z}, []string{a, c}, "seed %d: %s, %s, %v", k.seed, p.name, pos.name, j)
			case y2 == "":
				require.Equal(k.t, []string{x, y}, []string{a, c}, "seed %d: %s, %s, %v", k.seed, p.name, pos.name, j)
			default:
				require.Equal(k.t, y, y2, "seed %d: %s, %s, %v: the steps do not meet", k.seed, p.name, pos.name, j)
				if x == z {
					x, z = "", ""
				}
				require.Equal(k.t, []string{x, z}, []string{a, c}, "seed %d: %s, %s, %v", k.seed, p.name, pos.name, j)
			}
		}
	}
}

// through gives the values of a configuration by the axes of another pairing.
func through(q, p *pairing, j jointly) []string {
	out := make([]string, len(q.axes))
	for i, x := range q.axes {
		for k, y := range p.axes {
			if y.name == x.name {
				out[i] = j.values[k]
			}
		}
	}
	return out
}

// step gives what a diff says of one position at a configuration, "" where it says
// nothing.
func step(d *diffOutput, p *pairing, j jointly, position string) (was, is string) {
	for _, c := range d.Changes {
		if c.Platform == p.name && c.Position == position && inAny(c.Where, p, j) {
			return names{}.saidBy(c.Old), names{}.saidBy(c.New)
		}
	}
	return "", ""
}

package enumerate

import (
	"fmt"
	"math/big"
	"slices"
)

// tree is a formula that was never text: a leaf is an amount or a name.
type tree struct {
	op          string // "" for a leaf
	left, right *tree
	name        string
	amount
	text string // of an amount
}

// symbol is what a formula can name.
type symbol struct {
	name, kind string
	fact       bool
}

// grow makes a formula of a kind out of some names.
func (g *gen) grow(kind string, names []symbol, depth int) *tree {
	if depth == 0 || g.chance(0.3) {
		return g.leaf(kind, names)
	}
	switch {
	case kind == "count" && g.chance(0.4):
		of := pick(g, []string{"length", "mass"})
		return &tree{op: "/", left: g.grow(of, names, depth-1), right: g.grow(of, names, depth-1)}
	case g.chance(0.35):
		return &tree{op: pick(g, []string{"*", "/"}), left: g.grow(kind, names, depth-1), right: g.grow("count", names, depth-1)}
	}
	return &tree{op: pick(g, []string{"+", "-", "-"}), left: g.grow(kind, names, depth-1), right: g.grow(kind, names, depth-1)}
}

func (g *gen) leaf(kind string, names []symbol) *tree {
	var of []symbol
	for _, s := range names {
		if s.kind == kind {
			of = append(of, s)
		}
	}
	if len(of) > 0 && g.chance(0.8) {
		return &tree{name: pick(g, of).name}
	}
	w := pick(g, kinds()[kind].ways)
	return &tree{amount: w.amount, text: w.text}
}

// formula writes the tree as a formula, with brackets where they are needed and some where they are
// not.
func (g *gen) formula(t *tree) string {
	switch {
	case t.name != "":
		return g.odd(t.name)
	case t.op == "":
		return t.text
	}
	left, right := g.formula(t.left), g.formula(t.right)
	product := t.op == "*" || t.op == "/"
	if product && (t.left.op == "+" || t.left.op == "-") || g.chance(0.1) {
		left = "(" + left + ")"
	}
	if t.right.op == "+" || t.right.op == "-" || product && t.right.op != "" || g.chance(0.1) {
		right = "( " + right + ")"
	}
	return fmt.Sprintf("%s %s  %s", left, t.op, right)
}

// names lists the names in a formula, each once.
func (t *tree) names() []string {
	if t.op == "" {
		if t.name == "" {
			return nil
		}
		return []string{t.name}
	}
	out := t.left.names()
	for _, n := range t.right.names() {
		if !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// constant reports whether nothing in the formula can change.
func (t *tree) constant() bool { return len(t.names()) == 0 }

// hopeless reports whether the formula divides by an amount that is always zero, which
// is an error in its cell.
func (t *tree) hopeless() bool {
	if t.op == "" {
		return false
	}
	if t.op == "/" && t.right.constant() {
		if r, ok := t.right.work(nil); ok && r.low.Sign() <= 0 && r.high.Sign() >= 0 {
			return true
		}
	}
	return t.left.hopeless() || t.right.hopeless()
}

// work works the formula out with the values of its names; false where it divides by
// what may be zero.
func (t *tree) work(values map[string]amount) (amount, bool) {
	switch {
	case t.name != "":
		return values[t.name], true
	case t.op == "":
		return t.amount, true
	}
	a, ok1 := t.left.work(values)
	b, ok2 := t.right.work(values)
	if !ok1 || !ok2 || t.op == "/" && b.low.Sign() <= 0 && b.high.Sign() >= 0 {
		return amount{}, false
	}
	var all []*big.Rat
	for _, x := range []*big.Rat{a.low, a.high} {
		for _, y := range []*big.Rat{b.low, b.high} {
			all = append(all, calculate(t.op, x, y))
		}
	}
	return amount{slices.MinFunc(all, (*big.Rat).Cmp), slices.MaxFunc(all, (*big.Rat).Cmp)}, true
}

func calculate(op string, x, y *big.Rat) *big.Rat {
	out := new(big.Rat)
	switch op {
	case "+":
		return out.Add(x, y)
	case "-":
		return out.Sub(x, y)
	case "*":
		return out.Mul(x, y)
	}
	return out.Quo(x, y)
}

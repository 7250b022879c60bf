package formula

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ferrule/compiler/measure"
)

// tree is an expression that is worked out without the package: a leaf has ends.
type tree struct {
	op          byte // 0 for a leaf
	left, right *tree
	name        string // "" for a number
	low, high   *big.Rat
	text        string // of a number
}

// drawTree draws an expression of a power of length.
func drawTree(t *rapid.T, power, depth int) *tree {
	if depth == 0 || rapid.IntRange(0, 4).Draw(t, "leaf") == 0 {
		return drawLeaf(t, power)
	}
	switch op := rapid.SampledFrom([]byte("+-*/")).Draw(t, "op"); op {
	case '*', '/':
		right := rapid.IntRange(-1, 1).Draw(t, "power")
		left := power - right
		if op == '/' {
			left = power + right
		}
		if left < -1 || left > 1 {
			return drawLeaf(t, power)
		}
		return &tree{op: op, left: drawTree(t, left, depth-1), right: drawTree(t, right, depth-1)}
	default:
		return &tree{op: op, left: drawTree(t, power, depth-1), right: drawTree(t, power, depth-1)}
	}
}

// drawLeaf draws a name or a number; one over a length is 1 over a leaf.
func drawLeaf(t *rapid.T, power int) *tree {
	if power < 0 {
		return &tree{op: '/', left: &tree{text: "1", low: big.NewRat(1, 1), high: big.NewRat(1, 1)}, right: drawLeaf(t, -power)}
	}
	n := rapid.Int64Range(-20, 60).Draw(t, "n")
	wide := rapid.SampledFrom([]int64{0, 0, 1, 7}).Draw(t, "wide")
	text, unit := fmt.Sprintf("%d", n), big.NewRat(1, 1)
	if wide > 0 {
		text = fmt.Sprintf("%d to %d", n, n+wide)
	}
	if power == 1 {
		text, unit = text+" mm", big.NewRat(1, 1000)
	}
	leaf := &tree{text: text, low: new(big.Rat).Mul(big.NewRat(n, 1), unit), high: new(big.Rat).Mul(big.NewRat(n+wide, 1), unit)}
	if rapid.Bool().Draw(t, "name") {
		leaf.name = fmt.Sprintf("%s of %s/%d-x", []string{"Count", "Size"}[power], strings.ReplaceAll(text, " ", "_"), n)
	}
	return leaf
}

// say writes the tree as a formula, with brackets wherever they may be needed and, at
// random, where they are not.
func (x *tree) say(t *rapid.T, names map[string]*tree) string {
	if x.op == 0 {
		if x.name == "" {
			return x.text
		}
		names[x.name] = x
		return x.name
	}
	left, right := x.left.say(t, names), x.right.say(t, names)
	product := x.op == '*' || x.op == '/'
	if loose(x.left) && product || rapid.IntRange(0, 5).Draw(t, "bracket") == 0 {
		left = "(" + left + ")"
	}
	if loose(x.right) || x.right.op != 0 && product || rapid.IntRange(0, 5).Draw(t, "bracket") == 0 {
		right = "( " + right + ")"
	}
	return left + " " + string(x.op) + " " + right
}

// loose tells whether a tree binds less than a product.
func loose(x *tree) bool { return x.op == '+' || x.op == '-' }

// work works the tree out; false where it divides by what may be 0.
func (x *tree) work() (low, high *big.Rat, ok bool) {
	if x.op == 0 {
		return x.low, x.high, true
	}
	a, b, ok1 := x.left.work()
	c, d, ok2 := x.right.work()
	if !ok1 || !ok2 {
		return nil, nil, false
	}
	r := func() *big.Rat { return new(big.Rat) }
	var all []*big.Rat
	switch x.op {
	case '+':
		return r().Add(a, c), r().Add(b, d), true
	case '-':
		return r().Sub(a, d), r().Sub(b, c), true
	case '/':
		if c.Sign() <= 0 && d.Sign() >= 0 {
			return nil, nil, false
		}
		c, d = r().Inv(d), r().Inv(c)
	}
	all = []*big.Rat{r().Mul(a, c), r().Mul(a, d), r().Mul(b, c), r().Mul(b, d)}
	low, high = all[0], all[0]
	for _, v := range all {
		if v.Cmp(low) < 0 {
			low = v
		}
		if v.Cmp(high) > 0 {
			high = v
		}
	}
	return low, high, true
}

// TestTrees holds formulas against expressions that were never text, and what is proved
// with floating-point numbers against rationals.
func TestTrees(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		power := rapid.IntRange(0, 1).Draw(t, "power")
		x := drawTree(t, power, 3) // short enough for a formula
		leaves := map[string]*tree{}
		text := x.say(t, leaves)
		names, values := NewNames(), []Value{}
		for name, leaf := range leaves {
			dim := measure.Count()
			if strings.HasPrefix(name, "Size") {
				dim.Length = 1
			}
			names.Add(Name{Text: name, ID: len(values), Dim: dim})
			values = append(values, NewValue(leaf.low, leaf.high, dim))
		}
		low, high, ok := x.work()
		f, err := Parse(text, names, measure.Options{})
		if err != nil && !ok && strings.HasPrefix(err.Error(), "the formula divides by ") {
			return // by a constant
		}
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		if want := int8(power); f.Dimension() != (measure.Dimension{Length: want}) {
			t.Fatalf("%s is %s", text, f.Dimension())
		}
		used := make([]Value, len(f.Uses))
		for i, id := range f.Uses {
			used[i] = values[id]
		}
		got, err := f.Eval(used)
		if ok != (err == nil) {
			t.Fatalf("%s: %v", text, err)
		}
		if !ok {
			return
		}
		if got.Low.Cmp(low) != 0 || got.High.Cmp(high) != 0 {
			t.Fatalf("%s is %s, want %s to %s", text, got.Key(), low, high)
		}
		if near := f.near(used, nil); !near.holds(low, high, f.dim) {
			t.Fatalf("%s: %v does not hold %s", text, near, got.Key())
		}
		soundly(t, f, used, got)
	})
}

// holds tells whether both ends of a value lie within a span, or nothing is said.
func (a span) holds(low, high *big.Rat, d measure.Dimension) bool {
	v := spanOf(low, high, d)
	return !(a.low > v.low) && !(a.high < v.high)
}

// soundly holds that a rule which is called certain does hold.
func soundly(t *rapid.T, f *Formula, values []Value, got Value) {
	off := big.NewRat(rapid.Int64Range(-3, 3).Draw(t, "off"), 1000)
	limit := NewValue(new(big.Rat).Add(got.Low, off), new(big.Rat).Add(got.Low, off), f.dim)
	names := NewNames()
	names.Add(Name{Text: "limit", ID: 1 << 20, Dim: f.dim})
	right, err := Parse("limit", names, measure.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, must := range []Must{AtLeast, AtMost, EqualTo} {
		r, err := NewRule(f, must, right)
		if err != nil {
			t.Fatal(err)
		}
		all := append(append([]Value{}, values...), limit)
		v, err := r.Judge(all)
		if err != nil {
			t.Fatal(err)
		}
		want := map[Must]bool{AtLeast: off.Sign() <= 0, AtMost: got.High.Cmp(limit.Low) <= 0, EqualTo: got.Single() && off.Sign() == 0}[must]
		if v.Holds != want {
			t.Fatalf("%s %s %s: %v", got.Key(), must, limit.Key(), v.Holds)
		}
		if r.Certain(all) && !v.Holds {
			t.Fatalf("%s %s %s is called certain", got.Key(), must, limit.Key())
		}
	}
}

// FuzzParse holds that no text makes the package panic, and that what it reads has a
// value or says why not.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{"A - B", "(A + 10 mm) / 2", "a / (b - b)", "((((", "1/2 in (12.7 mm) + A", "A-B", "pi * A * A / 4", "10 mm ±0.1 × 3", ") (", "A + ", "- - -", "8 ft 6 in - A", "A (B) * 2"} {
		f.Add(seed)
	}
	b := newBench(f, given{"A", "3-4 mm"}, given{"B", "-1 to 1 mm"}, given{"A (B)", "2"}, given{"A - B / x", "5 mm"})
	f.Fuzz(func(t *testing.T, text string) {
		for _, comma := range []bool{false, true} {
			g, err := Parse(text, b.Names, measure.Options{Comma: comma})
			if err != nil {
				if err.Error() == "" {
					t.Fatal("a fault without a sentence")
				}
				continue
			}
			v, err := g.Eval(b.of(g.Uses))
			if err != nil {
				continue
			}
			if v.Low.Cmp(v.High) > 0 {
				t.Fatalf("%s: %s", text, v.Key())
			}
			if near := g.near(b.of(g.Uses), nil); !near.holds(v.Low, v.High, g.dim) {
				t.Fatalf("%s: %v does not hold %s", text, near, v.Key())
			}
			if _, err := Parse(g.Text, b.Names, measure.Options{Comma: comma}); err != nil {
				t.Fatalf("%s reads and its own text %s does not: %v", text, g.Text, err)
			}
		}
	})
}

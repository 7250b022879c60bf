package enumerate

import (
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// lining puts the values of a trait on a line: value v is the numbers, or days, from starts[v] to
// the one before starts[v+1]. What a catalogue says of the values is then said of the numbers, in all
// ways in which ranges may be written, and as before of the values to whom enumerates.
type lining struct {
	date    bool
	letters string
	starts  []int64
	written map[string]any // what was written for a condition: cells that are merged say the same
}

// epoch is the day from which days are counted here.
func epoch() time.Time { return time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC) }

func (l *lining) point(n int64) string {
	if l.date {
		return epoch().AddDate(0, 0, int(n)).Format("2006-01-02")
	}
	return fmt.Sprintf("%s%d", l.letters, n)
}

// beginning and ending write an end of a range; a month where a month begins, or ends, there.
func (g *gen) beginning(l *lining, n int64) string {
	if day := epoch().AddDate(0, 0, int(n)); l.date && day.Day() == 1 && g.chance(0.7) {
		return day.Format(pick(g, []string{"2006-01", "January 2006", "Jan 2006", "01/2006"}))
	}
	return g.pointText(l, n)
}

func (g *gen) ending(l *lining, n int64) string {
	if day := epoch().AddDate(0, 0, int(n)); l.date && day.AddDate(0, 0, 1).Day() == 1 && g.chance(0.7) {
		return day.Format(pick(g, []string{"2006-01", "January 2006", "Jan 2006", "01/2006"}))
	}
	return g.pointText(l, n)
}

func (g *gen) pointText(l *lining, n int64) string {
	text := l.point(n)
	if !l.date && g.chance(0.3) {
		text = fmt.Sprintf("%s%s%08d", strings.ToLower(l.letters), pick(g, []string{"", " ", "-"}), n)
		text = strings.TrimLeft(text, " -")
	}
	return text
}

// cell writes a condition on a trait on a line.
func (g *gen) lineCell(l *lining, c cond) any {
	key := fmt.Sprint(c)
	if _, ok := l.written[key]; !ok {
		l.written[key] = g.lineText(l, c)
	}
	return l.written[key]
}

func (g *gen) lineText(l *lining, c cond) any {
	if c.form == "" || c.form == "any" {
		return g.listText(c, nil)
	}
	in := map[int]bool{}
	var pieces []string
	for _, s := range c.spans {
		for v := s[0]; v <= s[1]; v++ {
			if v == never {
				pieces = append(pieces, "n/a")
			} else {
				in[v] = true
			}
		}
	}
	for v := 0; v < len(l.starts)-1; v++ {
		if !in[v] {
			continue
		}
		end := v
		for in[end+1] {
			end++
		}
		pieces = append(pieces, g.piece(l, v, end))
		v = end
	}
	g.Shuffle(len(pieces), func(i, j int) { pieces[i], pieces[j] = pieces[j], pieces[i] })
	var b strings.Builder
	if c.form == "not" {
		b.WriteString("not ")
	}
	for i, p := range pieces {
		if i > 0 {
			b.WriteString(g.separator())
		}
		b.WriteString(p)
	}
	return b.String()
}

// piece writes the values from one to another.
func (g *gen) piece(l *lining, from, to int) string {
	lo, hi := l.starts[from], l.starts[to+1]-1
	if month := g.ending(l, hi); lo == hi || l.date && epoch().AddDate(0, 0, int(lo)).Day() == 1 && g.ending(l, hi) == month && len(month) == 7 && month == g.beginning(l, lo) {
		return month // a single day, or a month
	}
	switch {
	case to == len(l.starts)-2 && g.chance(0.5):
		return pick(g, []string{"from ", "From "}) + g.beginning(l, lo)
	case to == len(l.starts)-2 && g.chance(0.5):
		return g.beginning(l, lo) + "+"
	case from == 0 && to < len(l.starts)-2 && g.chance(0.3):
		return "before " + g.beginning(l, hi+1)
	case from == 0 && g.chance(0.5):
		return "to " + g.ending(l, hi)
	}
	return g.beginning(l, lo) + pick(g, []string{"-", " - ", " to ", "–"}) + g.ending(l, hi)
}

// lined puts a trait of a catalogue on a line, and tells whether one could be.
func (c *catalogue) lined(seed uint64) bool {
	g := &gen{Rand: rand.New(rand.NewPCG(seed, 99)), c: c}
	for _, i := range g.Perm(len(c.traits)) {
		if !c.mayLine(i) {
			continue
		}
		g.onLine(i)
		return true
	}
	return false
}

// mayLine leaves out sizes, names of sides, traits that a spoilt cell is about and declarations with
// merged cells.
func (c *catalogue) mayLine(i int) bool {
	t := &c.traits[i]
	if t.kind == "size" || strings.Contains(t.name, "ee") || strings.HasPrefix(t.name, "Step") || t.name == "Steering side" || t.name == "Body" {
		return false
	}
	ok := true
	c.eachCond(func(r *row, k *conds, fault string) { ok = ok && fault != t.name })
	for _, s := range c.sheets {
		if s.name == "Traits" {
			ok = ok && slices.ContainsFunc(s.columns, func(x column) bool { return x.name == "Kind" })
		}
		for _, m := range s.merges {
			ok = ok && !slices.ContainsFunc(t.rows, func(r *row) bool { return slices.Contains(m.rows, r) })
		}
	}
	return ok
}

// eachCond goes through the rows with conditions.
func (c *catalogue) eachCond(f func(r *row, k *conds, fault string)) {
	for _, v := range c.vehicles {
		f(v.row, &v.conds, v.fault)
	}
	for _, b := range c.breaks {
		f(b.row, &b.conds, "")
	}
	for _, p := range c.positions {
		for _, r := range p.rows {
			f(r.row, &r.conds, r.fault)
		}
	}
	for _, r := range c.fits {
		f(r.row, &r.conds, r.fault)
	}
	for _, r := range c.rules {
		f(r.row, &r.conds, r.fault)
	}
	for _, r := range c.factRows {
		f(r.row, &r.conds, r.fault)
	}
	for _, r := range c.accepts {
		f(r.row, &r.conds, "")
	}
}

func (g *gen) onLine(i int) {
	t := &g.c.traits[i]
	l := &lining{date: g.chance(0.5), written: map[string]any{}}
	at := int64(g.IntN(4000))
	if !l.date {
		l.letters = pick(g, []string{"", "", "A", "TB"})
		at = int64(1 + g.IntN(50_000))
	}
	for range len(t.values) + 1 {
		l.starts = append(l.starts, at)
		switch {
		case !l.date:
			at += pick(g, []int64{1, 2, 900, 1 + g.Int64N(1_000_000_000)})
		case g.chance(0.5): // to the end of a month
			day := epoch().AddDate(0, 0, int(at))
			at += int64(time.Date(day.Year(), day.Month()+1+time.Month(g.IntN(5)), 1, 0, 0, 0, 0, time.UTC).Sub(day).Hours() / 24)
		default:
			at += int64(1 + g.IntN(400))
		}
	}
	t.line, t.sorted, t.kind = l, false, "serial"
	if l.date {
		t.kind = "date"
	}
	for v := range t.values {
		t.values[v].name, t.values[v].alone = l.name(v), false
	}
	g.c.eachCond(func(r *row, k *conds, _ string) { r.cells[t.name] = g.lineCell(l, k.traits[i]) })
	g.declare(t)
}

// name is how a value is called by who enumerates: its ends.
func (l *lining) name(v int) string { return l.point(l.starts[v]) + ".." + l.point(l.starts[v+1]-1) }

// declare leaves one row of the trait for all platforms, and one for each that has its own texts.
func (g *gen) declare(t *trait) {
	last := len(t.line.starts) - 1
	extent := t.line.point(t.line.starts[0]) + " to " + t.line.point(t.line.starts[last]-1)
	kept := map[any]*row{}
	for n, r := range t.rows {
		first := kept[r.cells["Platform"]]
		if first == nil {
			kept[r.cells["Platform"]] = r
			r.cells["Value"] = extent
			if n == 0 {
				r.cells["Kind"] = t.kind
			}
			continue
		}
		r.gone = true
		if first.cells["How to tell"] == nil && r.cells["How to tell"] != nil {
			first.cells["How to tell"], first.cells["Effort"] = r.cells["How to tell"], r.cells["Effort"]
		}
	}
}

// representatives gives the first value of each stretch that a platform has of a trait: of
// those that no row about the platform tells apart.
func (c *catalogue) representatives(p, i int) []int {
	n := len(c.traits[i].values)
	if c.traits[i].line == nil {
		return count(n)
	}
	out := []int{0}
	for v := 1; v < n; v++ {
		if c.apart(p, i, v-1, v) {
			out = append(out, v)
		}
	}
	return out
}

// apart tells whether a row about a platform tells two values of a trait apart.
func (c *catalogue) apart(p, i, a, b int) bool {
	apart := false
	c.eachCond(func(r *row, k *conds, fault string) {
		if !r.gone && fault == "" && k.platform.meets(p) && k.traits[i].form != "" {
			apart = apart || k.traits[i].inside(a) != k.traits[i].inside(b)
		}
	})
	for _, x := range c.breaks {
		if x.trait == i && x.platform.meets(p) {
			apart = apart || x.value.inside(a) != x.value.inside(b)
		}
	}
	return apart
}

// weight is how much a configuration counts where vehicles on the road are spread: the numbers, or
// days, of its stretches.
func (c *catalogue) weight(p int, g config) float64 {
	w := 1.0
	for i := range c.traits {
		l := c.traits[i].line
		if l == nil || g.vals[i] == never {
			continue
		}
		reps := c.representatives(p, i)
		at := slices.Index(reps, g.vals[i])
		end := len(c.traits[i].values)
		if at+1 < len(reps) {
			end = reps[at+1]
		}
		w *= float64(l.starts[end] - l.starts[g.vals[i]])
	}
	return w
}

// inBox is the values of a trait in a box. A range is written as its two ends.
type inBox []*string

func (n *inBox) UnmarshalJSON(data []byte) error {
	var in []any
	if err := json.Unmarshal(data, &in); err != nil {
		return err
	}
	for _, v := range in {
		switch v := v.(type) {
		case nil:
			*n = append(*n, nil)
		case string:
			*n = append(*n, &v)
		case []any:
			text := fmt.Sprint(v[0], "..", v[1])
			*n = append(*n, &text)
		}
	}
	return nil
}

// unline says what a build wrote of ranges by the values that are in them.
func (c *catalogue) unline(out output) output {
	for i := range c.traits {
		t := &c.traits[i]
		if t.line == nil {
			continue
		}
		for k := range out.findings {
			f := &out.findings[k]
			for _, b := range f.Where {
				t.unbox(b)
			}
			if f.Example == nil {
				continue
			}
			if first := f.Example.Traits[t.name]; first != nil {
				for v := range t.values {
					if t.line.point(t.line.starts[v]) == *first {
						f.Example.Traits[t.name] = &t.values[v].name
					}
				}
			}
		}
		for _, guides := range []map[string]guide{out.public, out.staff} {
			for _, g := range guides {
				for _, p := range g.Positions {
					for _, x := range p.Cases {
						t.unbox(x.Where)
					}
				}
			}
		}
	}
	return out
}

// unbox names the values in the ranges of a box; a range that cuts one stays as it is.
func (t *trait) unbox(b box) {
	told, ok := b.Traits[t.name]
	if !ok {
		return
	}
	var in inBox
	for _, name := range told {
		if name == nil {
			in = append(in, nil)
			continue
		}
		in = append(in, t.between(*name)...)
	}
	b.Traits[t.name] = in
}

// between gives the values from the begin of a range to its end.
func (t *trait) between(text string) inBox {
	from, to, _ := strings.Cut(text, "..")
	var in inBox
	for v := range t.values {
		if t.line.point(t.line.starts[v]) == from {
			for ; v < len(t.values); v++ {
				in = append(in, &t.values[v].name)
				if t.line.point(t.line.starts[v+1]-1) == to {
					return in
				}
			}
		}
	}
	return inBox{&text}
}

// lineSeeds is how many are compared: half as many as elsewhere where -seeds does not say, since they
// are those of TestRandomCatalogues with a trait on a line.
func lineSeeds() int {
	n := *seeds / 2
	flag.Visit(func(f *flag.Flag) {
		if f.Name == "seeds" {
			n = *seeds
		}
	})
	return n
}

// TestRandomLines compares random catalogues in which a trait stands on a line, and such with Breaks.
func TestRandomLines(t *testing.T) {
	seen := map[string]int{}
	told := 0
	n := lineSeeds()
	for seed := range uint64(n) {
		if *only >= 0 && seed != uint64(*only) {
			continue
		}
		c := generate(seed)
		onLine := c.lined(seed)
		broken := c.breakUp(seed)
		if !onLine && !broken {
			continue
		}
		if onLine {
			seen["on a line"]++
		}
		if broken {
			seen["broken"]++
		}
		out, problems := attempt(c, t.TempDir())
		for _, f := range out.findings {
			seen[f.Code]++
		}
		if len(problems) == 0 {
			continue
		}
		t.Errorf("seed %d: %d disagreements\n%s", seed, len(problems), lines(problems))
		if told++; told >= 3 {
			t.Fatalf("stopped after seed %d", seed)
		}
	}
	t.Log(seen)
	if *only < 0 && n >= enoughSeeds {
		for what, least := range map[string]int{"on a line": n / 3, "broken": n / 3, "break-idle": n / 20, "vehicles-empty": n / 20} {
			require.Greater(t, seen[what], least, what)
		}
	}
}

// plainLine reads ranges as the program writes them.
func (t trait) plainLine(text string) (cond, error) {
	c := cond{form: "list"}
	if rest, not := strings.CutPrefix(text, "not "); not {
		c.form, text = "not", rest
	}
	for _, piece := range strings.Split(text, ", ") {
		if piece == "n/a" {
			c.spans = append(c.spans, [2]int{never, never})
			continue
		}
		in := false
		for v := range t.values {
			lo, hi := t.line.starts[v], t.line.starts[v+1]-1
			if t.line.within(piece, lo) && t.line.within(piece, hi) {
				c.spans, in = append(c.spans, [2]int{v, v}), true
			}
		}
		if !in {
			return c, fmt.Errorf("%s has nothing in %q", t.name, piece)
		}
	}
	return c, nil
}

// within tells whether a number is in a range as the program writes it.
func (l *lining) within(piece string, n int64) bool {
	if end, ok := strings.CutPrefix(piece, "to "); ok {
		_, last := l.ends(end)
		return n <= last
	}
	from, to, both := strings.Cut(strings.TrimPrefix(piece, "from "), " to ")
	if !both {
		to = from
	}
	first, _ := l.ends(from)
	_, last := l.ends(to)
	return first <= n && (n <= last || strings.HasPrefix(piece, "from "))
}

// ends gives the first and the last number of a value, which may be a month.
func (l *lining) ends(text string) (first, last int64) {
	if !l.date {
		var n int64
		if _, err := fmt.Sscanf(strings.TrimPrefix(text, l.letters), "%d", &n); err != nil {
			panic(text + " is no number")
		}
		return n, n
	}
	layout, next := "2006-01-02", 0
	if len(text) == 7 {
		layout, next = "2006-01", 1
	}
	day, err := time.Parse(layout, text)
	if err != nil {
		panic(err)
	}
	end := day
	if next > 0 {
		end = day.AddDate(0, 1, -1)
	}
	since := func(d time.Time) int64 { return int64(d.Sub(epoch()).Hours() / 24) }
	return since(day), since(end)
}

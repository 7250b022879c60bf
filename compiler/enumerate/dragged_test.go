package enumerate

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// drag has, now and then, the precedence of rows one below the other climb as dragging a cell
// makes it. It draws from a source of its own.
func (g *gen) drag() {
	own := &gen{rand.New(rand.NewPCG(g.c.seed, 977)), g.c}
	for _, s := range g.c.sheets {
		rows := g.c.rowsIn(s)
		if len(rows) < 3 || !slices.ContainsFunc(s.columns, func(c column) bool { return c.name == "Precedence" }) || !own.chance(0.5) {
			continue
		}
		from, base := own.IntN(len(rows)-2), own.between(5, 12)
		rows = rows[from:min(len(rows), from+own.between(3, 5))]
		if slices.ContainsFunc(rows, g.c.twinned) {
			continue // such rows are there to be merged
		}
		for i, f := range rows {
			f.precedence = base + i
			f.cells["Precedence"] = f.precedence
		}
	}
}

// twinned reports whether another row was made to say the same as a row.
func (c *catalogue) twinned(f *fit) bool {
	return slices.ContainsFunc(c.fits, func(o *fit) bool {
		return o != f && compared(f, o, func(x, y *statement) bool { return x == y })
	})
}

var digitRuns = regexp.MustCompile(`\d+`)

// climbs reports whether a text is the one above it with a number greater by one in it, or
// several.
func climbs(above, text string) bool {
	a, b := digitRuns.FindAllString(above, -1), digitRuns.FindAllString(text, -1)
	if len(a) != len(b) || digitRuns.ReplaceAllString(above, "0") != digitRuns.ReplaceAllString(text, "0") {
		return false
	}
	up := false
	for i := range a {
		x, _ := strconv.Atoi(a[i])
		y, _ := strconv.Atoi(b[i])
		if y != x && y != x+1 {
			return false
		}
		up = up || y == x+1
	}
	return up
}

// below splits an address into its column and its row.
func below(at ref) (column string, row int) {
	i := strings.IndexAny(at.Cell, "0123456789")
	row, _ = strconv.Atoi(at.Cell[i:])
	return at.Cell[:i], row
}

// run is rows of Fitment one below the other in which the precedence climbs by one.
type run []*fit

func (r run) cells() []ref {
	var out []ref
	for _, f := range r {
		out = append(out, f.at["Precedence"])
	}
	return out
}

// runs lists those of three rows or more.
func (c *catalogue) runs() []run {
	var out []run
	for _, s := range c.sheets {
		var now run
		for _, f := range append(c.rowsIn(s), nil) {
			if len(now) > 0 && f != nil && c.follows(now[len(now)-1], f) {
				now = append(now, f)
				continue
			}
			if len(now) >= 3 {
				out = append(out, now)
			}
			if now = nil; f != nil && f.cells["Precedence"] != nil {
				now = run{f}
			}
		}
	}
	return out
}

func (c *catalogue) follows(above, f *fit) bool {
	a, b := above.cells["Precedence"], f.cells["Precedence"]
	if a == nil || b == nil || f.precedence != above.precedence+1 {
		return false
	}
	_, from := below(above.at["Precedence"])
	_, to := below(f.at["Precedence"])
	return to == from+1
}

// noLadder reports whether a row is about a vehicle that the row above is not about, or a row
// was set aside: then these are surely no exceptions of exceptions.
func (r run) noLadder(o *outlook) bool {
	if !r.read() {
		return true
	}
	for i, f := range r[1:] {
		for _, w := range o.worlds {
			for _, g := range w.configs {
				if f.meets(w.platform, g) && !r[i].meets(w.platform, g) {
					return true
				}
			}
		}
	}
	return false
}

// meet reports whether two of the rows are about one vehicle and something holds of both.
func (r run) meet(o *outlook, holds func(a, b *fit) bool) bool {
	for i, a := range r {
		for _, b := range r[:i] {
			if holds(a, b) && o.both(a.conds, b.conds) {
				return true
			}
		}
	}
	return false
}

// read reports whether no row was set aside.
func (r run) read() bool { return !slices.ContainsFunc(r, func(f *fit) bool { return f.fault != "" }) }

// sharePlace reports whether two rows say something of one position.
func sharePlace(a, b *fit) bool { return compared(a, b, func(_, _ *statement) bool { return true }) }

// unlikeIn reports whether two rows surely say different things of one position.
func (c *catalogue) unlikeIn(a, b *fit) bool {
	return compared(a, b, func(x, y *statement) bool { return x.kind != y.kind || normal(c.leaves(x)) != normal(c.leaves(y)) })
}

func compared(a, b *fit, as func(x, y *statement) bool) bool {
	for pos, x := range a.says {
		if y := b.says[pos]; x != nil && y != nil && !x.unreadable && !y.unreadable && as(x, y) {
			return true
		}
	}
	return false
}

func (o *outlook) both(a, b conds) bool {
	for _, w := range o.worlds {
		for _, g := range w.configs {
			if a.meets(w.platform, g) && b.meets(w.platform, g) {
				return true
			}
		}
	}
	return false
}

// dragged compares cell-dragged. Whatever is told climbs by one, in rows one below the other. A
// climbing precedence of Fitment is told as a whole, unless it may be a ladder of exceptions;
// it is an error where two rows say different things of a vehicle, and none where no two do.
func (k *checker) dragged() {
	text := k.c.texts()
	told := map[ref]finding{}
	for _, f := range k.out.findings {
		if f.Code != "cell-dragged" {
			continue
		}
		told[f.Cells[0]] = f
		for i, at := range f.Cells[1:] {
			a, from := below(f.Cells[i])
			b, to := below(at)
			if a != b || to != from+1 || !climbs(text[f.Cells[i]], text[at]) {
				k.failf(f.Code, "nothing climbs: %v: %s", f.Cells, f.Message)
			}
		}
		if len(f.Cells) < 3 || f.Severity == "note" {
			k.failf(f.Code, "%d cells, %s: %s", len(f.Cells), f.Severity, f.Message)
		}
	}
	for _, r := range k.c.runs() {
		f, ok := told[r[0].at["Precedence"]]
		switch {
		case !ok && r.noLadder(k.o):
			k.failf("cell-dragged", "not told: %v", r.cells())
		case !ok:
		case !slices.Equal(f.Cells, r.cells()):
			k.failf("cell-dragged", "%v, want %v", f.Cells, r.cells())
		case f.Severity != "error" && r.read() && r.meet(k.o, k.c.unlikeIn):
			k.failf("cell-dragged", "%s, and rows say different things of a vehicle: %v", f.Severity, f.Cells)
		case f.Severity == "error" && (!r.read() || !r.meet(k.o, sharePlace)):
			k.failf("cell-dragged", "error, and no two rows are about one vehicle: %v", f.Cells)
		}
		delete(told, r[0].at["Precedence"])
	}
	for at, f := range told {
		if k.c.columnAt(at) == "Precedence" && strings.HasPrefix(strings.ToLower(at.Sheet), "fitment") {
			k.failf("cell-dragged", "not expected: %v: %s", f.Cells, f.Message)
		}
	}
}

// texts gives what each cell says.
func (c *catalogue) texts() map[ref]string {
	out := map[ref]string{}
	for _, s := range c.sheets {
		for _, r := range s.rows {
			for column, at := range r.at {
				if what := r.cells[column]; what != nil && !r.gone {
					out[at] = strings.TrimSpace(fmt.Sprint(what))
				}
			}
		}
	}
	return out
}

// columnAt names the column of an address.
func (c *catalogue) columnAt(at ref) string {
	for _, s := range c.sheets {
		for _, r := range s.rows {
			for column, own := range r.at {
				if own == at {
					return column
				}
			}
		}
	}
	return ""
}

// idealDragged tells each run of precedences that is surely none on purpose.
func (c *catalogue) idealDragged(o *outlook) []finding {
	var out []finding
	for _, r := range c.runs() {
		if !r.noLadder(o) {
			continue
		}
		f := finding{Code: "cell-dragged", Severity: "warning", Message: "it is so", Cells: r.cells()}
		if r.read() && r.meet(o, c.unlikeIn) {
			f.Severity = "error"
		}
		out = append(out, f)
	}
	return out
}

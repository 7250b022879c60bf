package enumerate

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// complaint is a row of Complaints, inspection one of Inspections.
type complaint struct {
	*row
	conds
	name, family, check string
	position            int // -1: any
	order               int // 0: blank
}

type inspection struct {
	*row
	conds
	look, level string
	position    int // -1: the vehicle as a whole
}

// advice are the rows of both sheets of a random catalogue.
type advice struct {
	complaints  []*complaint
	inspections []*inspection
}

// advise writes random complaints and inspections into a catalogue.
func advise(c *catalogue) advice {
	g := &gen{Rand: rand.New(rand.NewPCG(c.seed, 77)), c: c}
	var a advice
	for range g.between(3, 9) {
		a.complaints = append(a.complaints, g.complaint())
	}
	for i := range g.between(2, 5) {
		n := &inspection{row: newRow(), look: fmt.Sprint("look ", i), position: -1, level: pick(g, []string{"", "note", "notice", "warning", "danger"})}
		n.conds = g.conds(n.row, false)
		n.cells["What to look at"], n.cells["Level"], n.cells["Why"] = n.look, g.odd(n.level), "it breaks"
		if g.chance(0.4) {
			n.position = g.IntN(len(c.positions))
			n.cells["Position"] = g.odd(c.positions[n.position].name)
		}
		a.inspections = append(a.inspections, n)
	}
	var first, second []*row
	for _, c := range a.complaints {
		first = append(first, c.row)
	}
	for _, n := range a.inspections {
		second = append(second, n.row)
	}
	g.adviceSheet("Complaints", first, "Complaint", "Position", "Family", "Order", "How it helps", "Check first")
	g.adviceSheet("Inspections", second, "What to look at", "Position", "Level", "Why")
	c.files = g.usedFiles()
	return a
}

func (g *gen) complaint() *complaint {
	c := &complaint{row: newRow(), name: pick(g, []string{"rocks about", "dives", "leans at a stop"}), position: -1}
	c.conds = g.conds(c.row, false)
	families := g.usedFamilies()
	if len(families) == 0 || g.chance(0.6) {
		c.position = g.IntN(len(g.c.positions))
		c.cells["Position"] = g.odd(g.c.positions[c.position].name)
	}
	if len(families) > 0 && (c.position < 0 || g.chance(0.2)) {
		c.family = pick(g, families)
		c.cells["Family"] = g.odd(c.family)
	}
	if g.chance(0.6) {
		c.order = g.between(1, 4)
		c.cells["Order"] = c.order
	}
	if g.chance(0.6) {
		c.check = pick(g, []string{"the tyres", "the load", "the lines"})
		c.cells["Check first"] = c.check
	}
	c.cells["Complaint"], c.cells["How it helps"] = g.odd(c.name), "it holds the axle"
	return c
}

func (g *gen) adviceSheet(name string, rows []*row, own ...string) {
	s := g.sheet(name)
	s.rows = rows
	for _, c := range append(columns(own...), g.condColumns()...) {
		s.columns = append(s.columns, column{c.name, c.name})
	}
}

// offersFamily tells whether a statement offers a part of a family, by itself or in a kit.
func (c *catalogue) offersFamily(st *statement, family string) bool {
	if st == nil || st.unreadable || st.kind != "parts" {
		return false
	}
	for _, items := range st.alts {
		for _, it := range items {
			inside := map[string]bool{}
			c.contents(it.name, inside)
			for name := range inside {
				if p := c.part(name); p != nil && fold(p.family) == fold(family) {
					return true
				}
			}
		}
	}
	return false
}

// leads tells whether a complaint of a configuration leads to a position, and whether something
// there answers it.
func (c *catalogue) leads(w *world, i int, v verdict, pos int, row *complaint) (there, answered bool) {
	if !v.exists || row.position >= 0 && row.position != pos {
		return false, false
	}
	if row.family == "" {
		return true, v.outcome == "fitted" || v.outcome == "ask"
	}
	anywhere := slices.ContainsFunc(c.fits, func(f *fit) bool {
		return !f.gone && f.fault == "" && f.platform.meets(w.platform) && c.offersFamily(f.says[pos], row.family)
	})
	fits := v.outcome == "fitted" && c.offersFamily(v.cells[0].st, row.family)
	return anywhere && v.outcome != "none" && (v.outcome != "fitted" || fits), fits || anywhere && v.outcome == "ask"
}

// advised is what a guide says of one vehicle: by complaint what to check first and the places in their
// order, and what to look at in any case.
type advised struct {
	check, places map[string][]string
	looks         []string
}

func newAdvised() advised { return advised{map[string][]string{}, map[string][]string{}, nil} }

// complained gives the rows of each complaint in the order in which places are looked at.
func (a advice) complained() map[string][]*complaint {
	out := map[string][]*complaint{}
	for _, c := range a.complaints {
		out[c.name] = append(out[c.name], c)
	}
	for _, rows := range out {
		slices.SortStableFunc(rows, func(a, b *complaint) int {
			last := func(n int) int {
				if n == 0 {
					return 99
				}
				return n
			}
			return last(a.order) - last(b.order)
		})
	}
	return out
}

// says works out what is said of one vehicle.
func (a advice) says(c *catalogue, o *outlook, w *world, i int) advised {
	out, g := newAdvised(), w.configs[i]
	for name, rows := range a.complained() {
		for _, row := range rows {
			if !row.meets(w.platform, g) {
				continue
			}
			if row.check != "" && !slices.Contains(out.check[name], row.check) {
				out.check[name] = append(out.check[name], row.check)
			}
			for pos, p := range c.positions {
				if there, _ := c.leads(w, i, o.verdicts[w][i][pos], pos, row); there && !slices.Contains(out.places[name], p.name) {
					out.places[name] = append(out.places[name], p.name)
				}
			}
		}
	}
	for _, level := range []string{"danger", "warning", "notice", "note"} {
		for _, n := range a.inspections {
			if is := n.level == level || n.level == "" && level == "note"; is && n.meets(w.platform, g) && (n.position < 0 || o.verdicts[w][i][n.position].exists) {
				out.looks = append(out.looks, n.look)
			}
		}
	}
	return out
}

// unanswered gives the configurations on which nothing answers a complaint that is about them, as far
// as it is told: where no place of it is unknown by itself, or none of the platform's answers it.
func (a advice) unanswered(c *catalogue, o *outlook, w *world, rows []*complaint) []int {
	var open, told []int
	any := false
	for i, g := range w.configs {
		about, answered, known := false, false, false
		for _, row := range rows {
			if !row.meets(w.platform, g) {
				continue
			}
			about = true
			for pos, p := range c.positions {
				v := o.verdicts[w][i][pos]
				there, answers := c.leads(w, i, v, pos, row)
				answered = answered || there && answers
				known = known || there && (v.outcome == "conflict" || v.outcome == "planned" || v.outcome == "gap" && p.coverage != "optional")
			}
		}
		any = any || answered
		switch {
		case !about || answered:
		case known:
			told = append(told, i)
		default:
			open = append(open, i)
		}
	}
	if !any {
		open = append(open, told...)
		slices.Sort(open)
	}
	return open
}

// adviceGuide is what a public guide says of complaints and inspections.
type adviceGuide struct {
	Platform   string `json:"platform"`
	Complaints []struct {
		Complaint  string `json:"complaint"`
		CheckFirst []struct {
			Text  string `json:"text"`
			Where []box  `json:"where"`
		} `json:"check_first"`
		Places []struct {
			Position string `json:"position"`
			Where    []box  `json:"where"`
		} `json:"places"`
	} `json:"complaints"`
	Inspections []struct {
		LookAt string `json:"what_to_look_at"`
		Where  []box  `json:"where"`
	} `json:"inspections"`
}

func within(where []box, v thing) bool {
	return where == nil || slices.ContainsFunc(where, func(b box) bool { return b.has(v) })
}

// says reads what a guide says of one vehicle.
func (g *adviceGuide) says(v thing) advised {
	out := newAdvised()
	for _, c := range g.Complaints {
		name := strings.Join(strings.Fields(strings.ToLower(c.Complaint)), " ")
		for _, t := range c.CheckFirst {
			if within(t.Where, v) {
				out.check[name] = append(out.check[name], t.Text)
			}
		}
		for _, p := range c.Places {
			if within(p.Where, v) {
				out.places[name] = append(out.places[name], p.Position)
			}
		}
	}
	for _, n := range g.Inspections {
		if within(n.Where, v) {
			out.looks = append(out.looks, n.LookAt)
		}
	}
	return out
}

// boxes gives all boxes of a guide's complaints and inspections.
func (g *adviceGuide) boxes() []box {
	var out []box
	for _, c := range g.Complaints {
		for _, t := range c.CheckFirst {
			out = append(out, t.Where...)
		}
		for _, p := range c.Places {
			out = append(out, p.Where...)
		}
	}
	for _, n := range g.Inspections {
		out = append(out, n.Where...)
	}
	return out
}

// What guides say of complaints and inspections is what plain enumeration finds, vehicle by vehicle,
// and so are the vehicles of which no fit answers a complaint.
func TestComplaints(t *testing.T) {
	places, looks, open := 0, 0, 0
	for seed := range uint64(usual(12, 300)) {
		c := generate(seed)
		a := advise(c)
		dir, out := t.TempDir(), filepath.Join(t.TempDir(), "out")
		require.NoError(t, c.write(dir))
		require.NoError(t, checkInto(dir, out), "seed %d", seed)
		o := c.enumerate()
		truth := c.truth(o)
		guides := adviceGuides(t, filepath.Join(out, "public", "guides"))
		for _, w := range o.worlds {
			g := guides[c.platforms[w.platform].name]
			for i, v := range truth.vehicles[g.Platform] {
				want, got := a.says(c, o, w, i), g.says(v)
				require.True(t, maps.EqualFunc(want.places, got.places, slices.Equal), "seed %d, %s %v: places %v, want %v", seed, g.Platform, v, got.places, want.places)
				require.True(t, maps.EqualFunc(want.check, got.check, sameTexts), "seed %d, %s %v: check %v, want %v", seed, g.Platform, v, got.check, want.check)
				require.Equal(t, want.looks, got.looks, "seed %d, %s %v", seed, g.Platform, v)
				places, looks = places+len(got.places), looks+len(got.looks)
			}
			for _, b := range g.boxes() {
				require.Empty(t, truth.loose(g.Platform, b), "seed %d, %s", seed, g.Platform)
			}
		}
		open += a.compareFindings(t, c, o, truth, out)
	}
	t.Logf("%d complaints and %d inspections of vehicles, %d of them without an answer", places, looks, open)
	assert.Positive(t, places)
	assert.Positive(t, looks)
	assert.Positive(t, open)
}

func sameTexts(a, b []string) bool {
	return slices.Equal(slices.Sorted(slices.Values(a)), slices.Sorted(slices.Values(b)))
}

func adviceGuides(t *testing.T, dir string) map[string]*adviceGuide {
	paths, err := filepath.Glob(filepath.Join(dir, "*.json"))
	require.NoError(t, err)
	out := map[string]*adviceGuide{}
	for _, path := range paths {
		var g adviceGuide
		require.NoError(t, loadFile(path, &g))
		out[g.Platform] = &g
	}
	return out
}

// compareFindings holds the vehicles of complaint-unanswered against the enumeration, where no row of
// the catalogue was set aside; it gives how many there are.
func (a advice) compareFindings(t *testing.T, c *catalogue, o *outlook, truth *truth, out string) int {
	res, err := load(out)
	require.NoError(t, err)
	if slices.ContainsFunc(res.findings, func(f finding) bool { return f.Severity == "error" && f.Platform == "" }) {
		return 0
	}
	open := 0
	for _, w := range o.worlds {
		platform := c.platforms[w.platform].name
		for name, rows := range a.complained() {
			var got []int
			for i, v := range truth.vehicles[platform] {
				if slices.ContainsFunc(res.findings, func(f finding) bool {
					return f.Code == "complaint-unanswered" && f.Platform == platform && strings.Contains(strings.ToLower(strings.Join(strings.Fields(f.Message), " ")), name) && within(f.Where, v)
				}) {
					got = append(got, i)
				}
			}
			want := a.unanswered(c, o, w, rows)
			require.Equal(t, want, got, "seed %d, %s: %s", c.seed, platform, name)
			open += len(want)
		}
	}
	return open
}

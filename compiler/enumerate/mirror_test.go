package enumerate

import (
	"fmt"
	"math/bits"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// sideWord finds the words that name a side.
var sideWord = regexp.MustCompile(`(?i)\b(left|right|lhd|rhd|lh|rh)\b`)

// otherSide writes a name with left and right exchanged, in small letters.
func otherSide(name string) string {
	opposite := map[string]string{"left": "right", "right": "left", "lhd": "rhd", "rhd": "lhd", "lh": "rh", "rh": "lh"}
	return sideWord.ReplaceAllStringFunc(strings.ToLower(name), func(w string) string { return opposite[w] })
}

// becomes finds what a name is called on the mirror image, -1 where nothing is called so.
func becomes(name string, all []string) int {
	for i, other := range all {
		if strings.EqualFold(otherSide(name), other) {
			return i
		}
	}
	sides := map[string]bool{}
	for _, w := range sideWord.FindAllString(strings.ToLower(name), -1) {
		sides[w[:1]] = true
	}
	if len(sides) == 2 { // both sides, and no other name has them exchanged
		return slices.Index(all, name)
	}
	return -1
}

func (c *catalogue) traitNames() []string {
	var out []string
	for _, t := range c.traits {
		out = append(out, t.name)
	}
	return out
}

func (t trait) valueNames() []string {
	var out []string
	for _, v := range t.values {
		out = append(out, v.name)
	}
	return out
}

// lost stands for a value that no vehicle has on the mirror image.
const lost = never - 1

// image is what a value of a trait is on the mirror image, and of which trait.
func (c *catalogue) image(t, v int) (trait, value int) {
	to := becomes(c.traits[t].name, c.traitNames())
	switch {
	case to < 0:
		return t, lost
	case v == never:
		return to, never
	}
	if v = becomes(c.traits[t].values[v].name, c.traits[to].valueNames()); v < 0 {
		return to, lost
	}
	return to, v
}

// sided reports whether a trait or one of its values names a side.
func (c *catalogue) sided(t int) bool {
	names := func(name string, all []string) bool {
		to := becomes(name, all)
		return sideWord.MatchString(name) && (to < 0 || all[to] != name)
	}
	all := c.traits[t].valueNames()
	return names(c.traits[t].name, c.traitNames()) || slices.ContainsFunc(all, func(name string) bool { return names(name, all) })
}

// twins are two positions that are left and right of each other, on one platform.
type twins struct {
	c     *catalogue
	w     *world
	verd  [][]verdict
	pos   [2]int
	year  bool
	asked []bool         // by trait: rows of the two ask for it
	swaps []bool         // by trait: it is mirrored
	at    map[string]int // a configuration for each mirror image
}

// asks reports whether a condition leaves anything out.
func (k cond) asks() bool { return k.form != "" && k.form != "any" }

func (c *catalogue) twins(o *outlook, w *world, a, b int) *twins {
	t := &twins{c: c, w: w, verd: o.verdicts[w], pos: [2]int{a, b}, asked: make([]bool, len(c.traits)), swaps: make([]bool, len(c.traits)), at: map[string]int{}}
	for _, pos := range t.pos {
		for _, r := range c.positions[pos].rows {
			if !r.gone && r.fault == "" && r.platform.meets(w.platform) {
				t.note(r.conds)
				if r.air >= 0 {
					t.asked[r.air] = true
				}
			}
		}
		for _, f := range c.fits {
			if t.counts(f, pos) {
				t.note(f.conds)
			}
		}
	}
	for i := range c.traits {
		to, _ := c.image(i, never)
		t.swaps[i] = c.sided(i) && (t.asked[i] || t.asked[to])
	}
	t.index()
	return t
}

func (t *twins) index() {
	t.at = map[string]int{}
	for i, g := range t.w.configs {
		if key, ok := t.mirrored(g); ok {
			t.at[key] = i
		}
	}
}

// ways gives the two as they are when all traits that are mirrored are, and then with some of
// them left as they are, one and then more, but never all.
func (t *twins) ways() []*twins {
	var leave [][]int
	for i := range t.swaps {
		if to := t.imageOf(i); t.swaps[i] && (to >= i || t.imageOf(to) != i) {
			leave = append(leave, slices.Compact([]int{i, to}))
		}
	}
	all := []*twins{t}
	if len(leave) > 4 {
		return all
	}
	for n := 1; n < len(leave); n++ {
		for set := range 1 << len(leave) {
			if bits.OnesCount(uint(set)) == n {
				all = append(all, t.leaving(leave, set))
			}
		}
	}
	return all
}

func (t *twins) leaving(groups [][]int, set int) *twins {
	one := *t
	one.swaps = slices.Clone(t.swaps)
	for k, g := range groups {
		for _, i := range g {
			one.swaps[i] = one.swaps[i] && set>>k&1 == 0
		}
	}
	one.index()
	return &one
}

// unlike counts the configurations on which the sides differ.
func (t *twins) unlike(either map[string]bool) int {
	n := 0
	for i := range t.w.configs {
		if _, _, ok := t.differ(i, either); ok {
			n++
		}
	}
	return n
}

// clearest is the way in which the fewest differ, the first of several.
func (t *twins) clearest(either map[string]bool) *twins {
	best, least := t, t.unlike(either)
	for _, way := range t.ways()[1:] {
		if n := way.unlike(either); n < least {
			best, least = way, n
		}
	}
	return best
}

func (t *twins) note(k conds) {
	t.year = t.year || k.years.asks()
	for i, c := range k.traits {
		t.asked[i] = t.asked[i] || c.asks()
	}
}

// counts reports whether a row says something at a position of some vehicle.
func (t *twins) counts(f *fit, pos int) bool {
	st := f.says[pos]
	if f.gone || f.fault != "" || st == nil || st.unreadable {
		return false
	}
	for i, g := range t.w.configs {
		if t.verd[i][pos].exists && f.meets(t.w.platform, g) {
			return true
		}
	}
	return false
}

// mirrored writes the mirror image of a configuration, in what is asked.
func (t *twins) mirrored(g config) (string, bool) {
	out := map[int]int{}
	for i := range t.c.traits {
		if !t.asked[i] {
			continue
		}
		to, v := i, g.vals[i]
		if t.swaps[i] {
			to, v = t.c.image(i, v)
		}
		if v == lost {
			return "", false
		}
		out[to] = v
	}
	if t.year {
		out[-1] = g.year
	}
	return fmt.Sprint(out), true
}

// plain writes a configuration as mirrored writes the one that it is the image of.
func (t *twins) plain(g config) string {
	out := map[int]int{}
	for i := range t.c.traits {
		if to := t.imageOf(i); t.asked[i] {
			out[to] = g.vals[to]
		}
	}
	if t.year {
		out[-1] = g.year
	}
	return fmt.Sprint(out)
}

func (t *twins) imageOf(i int) int {
	if !t.swaps[i] {
		return i
	}
	to, _ := t.c.image(i, never)
	return to
}

// leaves lists the parts of a statement, those in kits and no kits, choice by choice.
func (c *catalogue) leaves(st *statement) [][]string {
	var out [][]string
	for _, items := range st.alts {
		into := map[string]bool{}
		for _, it := range items {
			c.contents(it.name, into)
		}
		var names []string
		for name := range into {
			if c.kit(name) == nil {
				names = append(names, name)
			}
		}
		sort.Strings(names)
		out = append(out, names)
	}
	return out
}

// normal writes the parts of choices so that order and repetition make no difference.
func normal(choices [][]string) string {
	var out []string
	for _, names := range choices {
		out = append(out, strings.Join(names, "+"))
	}
	sort.Strings(out)
	return strings.Join(slices.Compact(out), "|")
}

// taken writes what is fitted at a position of a configuration, "" for no part.
func (t *twins) taken(i, pos int) string {
	v := t.verd[i][pos]
	if !v.exists || v.outcome != "fitted" || v.cells[0].st.kind != "parts" {
		return ""
	}
	return normal(t.c.leaves(v.cells[0].st))
}

// ambidextrous lists the parts that stand at both positions of some pair.
func (c *catalogue) ambidextrous() map[string]bool {
	at := map[string]map[int]bool{}
	for _, f := range c.fits {
		for pos, st := range f.says {
			if f.gone || f.fault != "" || st == nil || st.unreadable {
				continue
			}
			for _, name := range slices.Concat(c.leaves(st)...) {
				if at[name] == nil {
					at[name] = map[int]bool{}
				}
				at[name][pos] = true
			}
		}
	}
	out := map[string]bool{}
	for name, places := range at {
		for pos := range places {
			if other := c.facing(pos); other >= 0 && places[other] {
				out[name] = true
			}
		}
	}
	return out
}

// facing is the position that is left or right of one, -1 for none.
func (c *catalogue) facing(pos int) int {
	other := c.opposite(pos)
	if other < 0 || c.opposite(other) != pos {
		return -1
	}
	here, there := c.positions[pos].side, c.positions[other].side
	for _, side := range []string{here, there} {
		if side == "both" || side == "centre" || side != "" && here == there {
			return -1
		}
	}
	return other
}

// unequal notes where one side takes what the other does not take on the mirror image.
func (c *catalogue) unequal(o *outlook, w *world) {
	either := c.ambidextrous()
	for pos, p := range c.positions {
		other := c.facing(pos)
		if other <= pos || len(either) == 0 {
			continue
		}
		t := c.twins(o, w, pos, other).clearest(either)
		for i := range w.configs {
			here, there, ok := t.differ(i, either)
			k := key{"sides-differ", c.platforms[w.platform].name, p.name, here + " / " + there}
			if ok && !t.unsure(k, i) {
				o.add(k, "warning", w, i)
			}
		}
	}
}

// differ gives what the two sides take where they differ and nothing excuses it.
func (t *twins) differ(i int, either map[string]bool) (here, there string, ok bool) {
	m, found := t.at[t.plain(t.w.configs[i])]
	if !found {
		return "", "", false
	}
	here, there = t.taken(i, t.pos[0]), t.taken(m, t.pos[1])
	if here == "" || there == "" || here == there || !t.either(i, m, either) {
		return "", "", false
	}
	even := here == t.taken(i, t.pos[1]) && there == t.taken(m, t.pos[0])
	return here, there, !even && !t.wrongLine(i, m) && !t.meant(i, m)
}

// unsure reports whether a row or a cell that was set aside may say something of one of the
// sides, of the mirror image in what is asked, and nobody accepts what is found.
func (t *twins) unsure(k key, i int) bool {
	if t.c.allowed(k, t.w, i) {
		return false
	}
	image := t.w.configs[t.at[t.plain(t.w.configs[i])]]
	return t.c.owed(k, t.w, i, t.pos[0]) || slices.ContainsFunc(t.c.setAside(t.pos[1]), func(f *fit) bool {
		asks := f.conds
		asks.traits = slices.Clone(f.traits)
		for n := range asks.traits {
			if !t.asked[n] {
				asks.traits[n] = cond{}
			}
		}
		if !t.year {
			asks.years = cond{}
		}
		return asks.may(t.c, f.fault, f.row, t.w.platform, image)
	})
}

// either reports whether a part that one side alone takes goes on either side.
func (t *twins) either(i, m int, either map[string]bool) bool {
	a, b := slices.Concat(t.c.leaves(t.verd[i][t.pos[0]].cells[0].st)...), slices.Concat(t.c.leaves(t.verd[m][t.pos[1]].cells[0].st)...)
	for _, pair := range [][2][]string{{a, b}, {b, a}} {
		for _, name := range pair[0] {
			if either[name] && !slices.Contains(pair[1], name) {
				return true
			}
		}
	}
	return false
}

func (t *twins) wrongLine(i, m int) bool {
	for n, at := range []int{i, m} {
		v := t.verd[at][t.pos[n]]
		if len(t.c.mismatched(v.cells[0].st, v.air, t.w.configs[at])) > 0 {
			return true
		}
	}
	return false
}

// meant reports whether the rows of one side ask for something that those of the other do
// not ask for. The year stands behind the traits.
func (t *twins) meant(i, m int) bool {
	for trait := range len(t.c.traits) + 1 {
		if trait < len(t.c.traits) && t.swaps[trait] {
			continue
		}
		if t.asksAt(i, t.pos[0], trait) != t.asksAt(m, t.pos[1], trait) {
			return true
		}
	}
	return false
}

// asksAt reports whether a row that decides, or one as high or higher that would with
// another value, asks for a trait.
func (t *twins) asksAt(i, pos, trait int) bool {
	v := t.verd[i][pos]
	for _, f := range t.c.fits {
		if f.precedence < v.cells[0].fit.precedence || !t.counts(f, pos) {
			continue
		}
		free := f.conds
		free.traits = slices.Clone(f.traits)
		asks := f.years.asks()
		if trait == len(t.c.traits) {
			free.years = cond{}
		} else {
			asks = f.traits[trait].asks()
			free.traits[trait] = cond{}
		}
		if asks && free.meets(t.w.platform, t.w.configs[i]) {
			return true
		}
	}
	return false
}

var takes = regexp.MustCompile(`takes "(.*)" on these vehicles of .*, opposite, takes "(.*?)"(?: where .*)?; (.*) goes on either side elsewhere$`)

// unequalKey reads what the two sides take from a message.
func (k *checker) unequalKey(f finding, id key) key {
	said := takes.FindStringSubmatch(f.Message)
	if said == nil {
		k.failf(f.Code, "not understood: %s", f.Message)
		return id
	}
	if !k.c.ambidextrous()[said[3]] {
		k.failf(f.Code, "%s is on one side only: %s", said[3], f.Message)
	}
	id.cells = k.normalText(said[1]) + " / " + k.normalText(said[2])
	return id
}

func (k *checker) normalText(text string) string {
	st := &statement{kind: "parts"}
	for _, choice := range strings.Split(text, " or ") {
		var items []item
		for _, it := range strings.Split(choice, " + ") {
			items = append(items, item{name: quantityBefore.ReplaceAllString(it, "")})
		}
		st.alts = append(st.alts, items)
	}
	return normal(k.c.leaves(st))
}

// unequalWords is a message that unequalKey reads.
func (c *catalogue) unequalWords(here, there string) string {
	words := strings.NewReplacer("|", " or ", "+", " + ")
	for name := range c.ambidextrous() {
		if strings.Contains(here, name) != strings.Contains(there, name) {
			return fmt.Sprintf("D takes %q on these vehicles of P, and E, opposite, takes %q; %s goes on either side elsewhere", words.Replace(here), words.Replace(there), name)
		}
	}
	return ""
}

var quantityBefore = regexp.MustCompile(`^\d+ x `)

// TestMirrorNamesByHand: Left tee and Right tee are each other's; what names no side stays;
// what names both stays, unless another name has them exchanged.
func TestMirrorNamesByHand(t *testing.T) {
	tee := []string{"No tee", "LEFT tee", "Right tee", "Left and right", "Left-hand"}
	assert.Equal(t, []int{0, 2, 1, 3, -1}, []int{becomes(tee[0], tee), becomes(tee[1], tee), becomes(tee[2], tee), becomes(tee[3], tee), becomes(tee[4], tee)})
	assert.Equal(t, "rightmost left rhd", otherSide("Rightmost RIGHT LHD"))
}

// TestUnequalByHand: D and E are a pair on H7, whose T is a, b or n/a in two years: 6
// configurations, of which D exists where T is not b (0, 2, 4 are those where it does, as in
// TestSidesByHand). Both take A in row 2; then E takes B in row 3, with higher precedence, where D has A.
func TestUnequalByHand(t *testing.T) {
	c := alone()
	c.addFit("2", 0, one(0), parts([]item{{"A", 0}}))
	c.also("2", parts([]item{{"A", 0}}))
	c.positions[0].pair = "E"
	assert.Empty(t, c.enumerate().sets("sides-differ"))
	c.also("2", parts([]item{{"B", 0}}))
	assert.Empty(t, c.enumerate().sets("sides-differ"), "neither part stands on both sides")
	c.addFit("3", 0, one(1), parts([]item{{"B", 0}}))
	assert.Equal(t, map[string][]int{"D A / B": {0, 2}}, c.enumerate().sets("sides-differ"))
	c.positions[1].side = "both"
	assert.Empty(t, c.enumerate().sets("sides-differ"), "no left and right")
}

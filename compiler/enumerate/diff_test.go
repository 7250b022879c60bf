package enumerate

import (
	"encoding/json"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// folder writes a catalogue and gives its folder.
func (c *catalogue) folder(t testing.TB) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "in")
	require.NoError(t, os.MkdirAll(dir, 0o750))
	require.NoError(t, c.write(dir))
	return dir
}

// diffSeeds is how many pairs of catalogues are compared: a part of -seeds, since each
// takes several runs.
func diffSeeds() int { return max(atLeast(24), *seeds/4) }

// TestDiffAgreesWithEnumeration compares pairs of random catalogues.
func TestDiffAgreesWithEnumeration(t *testing.T) {
	kinds, splits := map[string]int{}, 0
	for seed := range diffSeeds() {
		old, new := generate(uint64(seed)), mutant(uint64(seed), 1, 1+seed%9)
		out := diffOf(t, old.folder(t), new.folder(t))
		for kind, s := range out.Summary {
			kinds[kind] += s.Entries
			kinds["accepted"] += s.Accepted
		}
		splits += len(out.Splits)
		if problems := checkDiff(old, new, out); len(problems) > 0 {
			t.Errorf("seed %d:\n%s", seed, strings.Join(problems, "\n"))
		}
	}
	t.Log(kinds, splits)
	for _, kind := range []string{"appeared", "vanished", "gained", "settled", "changed", "unsettled", "conflict", "lost", "accepted"} {
		if *only < 0 && *seeds >= enoughSeeds {
			require.Positive(t, kinds[kind], "%s is never told", kind)
		}
	}
}

// TestDiffCheckerSeesFaults spoils a diff in each of its figures and wants the checker to
// say so.
func TestDiffCheckerSeesFaults(t *testing.T) {
	const seed = 3
	old, new := generate(seed), mutant(seed, 1, 9)
	from, to := old.folder(t), new.folder(t)
	text := diffText(t, from, to)
	require.Empty(t, checkDiff(old, new, parseDiff(t, text)))
	for name, spoil := range map[string]func(*diffOutput){
		"a change is lost":        func(d *diffOutput) { d.Changes = d.Changes[1:] },
		"a change is told twice":  func(d *diffOutput) { d.Changes = append(d.Changes, d.Changes[0]) },
		"another kind":            func(d *diffOutput) { d.Changes[0].Kind = "settled" },
		"another answer before":   func(d *diffOutput) { d.Changes[0].Old = diffAnswer{Outcome: "ask"} },
		"another answer now":      func(d *diffOutput) { d.Changes[0].New = diffAnswer{} },
		"a count":                 func(d *diffOutput) { d.Changes[0].Configurations++ },
		"on the road":             func(d *diffOutput) { d.Changes[0].OnTheRoad++ },
		"a box is lost":           func(d *diffOutput) { d.Changes[0].Where = d.Changes[0].Where[1:] },
		"a box holds everything":  func(d *diffOutput) { d.Changes[0].Where[0] = box{} },
		"an example":              func(d *diffOutput) { d.Changes[0].Example.Year = 1900 },
		"a cell":                  func(d *diffOutput) { d.Changes[0].New.Cells = append(d.Changes[0].New.Cells, ref{"a", "b", "C3"}) },
		"accepted":                func(d *diffOutput) { d.Changes[0].Accepted = &acceptance{} },
		"a summary":               func(d *diffOutput) { d.Summary["lost"] = diffSum{Entries: 99} },
		"vehicles are not told":   func(d *diffOutput) { d.Vehicles = nil },
		"vehicles too many":       func(d *diffOutput) { d.Vehicles[0].Configurations++ },
		"vehicles of everything":  func(d *diffOutput) { d.Vehicles[0].Where[0] = box{} },
		"vehicles the other way":  func(d *diffOutput) { d.Vehicles[0].Kind = "vanished" },
		"a platform that is none": func(d *diffOutput) { d.Changes[0].Platform = "Q9" },
		"a trait that parts nobody": func(d *diffOutput) {
			d.Splits = append(d.Splits, struct{ Platform, Trait, In string }{old.platforms[0].name, "Colour", "new"})
		},
	} {
		d := parseDiff(t, text)
		spoil(d)
		require.NotEmpty(t, checkDiff(old, new, d), name)
	}
}

// TestDiffOfItselfIsEmpty compares catalogues with themselves: the same folder, and what
// a build of it wrote for the staff.
func TestDiffOfItselfIsEmpty(t *testing.T) {
	for seed := range diffSeeds() / 2 {
		dir := generate(uint64(seed)).folder(t)
		out := diffOf(t, dir, dir)
		require.True(t, out.empty(), "seed %d: %+v", seed, out)
		site := filepath.Join(t.TempDir(), "site")
		_, err := build(dir, site)
		require.NoError(t, err)
		for _, pair := range [][2]string{{site, dir}, {dir, site}, {filepath.Join(site, "staff"), site}} {
			out = diffOf(t, pair[0], pair[1])
			require.True(t, out.empty(), "seed %d, %v: %+v", seed, pair, out)
		}
	}
}

// TestStaffSaysWhatWorkbooksSay compares with what a build wrote for the staff, in place
// of the workbooks: the differences are the same, byte for byte.
func TestStaffSaysWhatWorkbooksSay(t *testing.T) {
	for seed := range diffSeeds() / 2 {
		old, new := generate(uint64(seed)).folder(t), mutant(uint64(seed), 2, 6).folder(t)
		site := filepath.Join(t.TempDir(), "site")
		_, err := build(old, site)
		require.NoError(t, err)
		later := filepath.Join(t.TempDir(), "site")
		_, err = build(new, later)
		require.NoError(t, err)
		want := differences(t, diffText(t, old, new))
		require.Equal(t, want, differences(t, diffText(t, site, new)), "seed %d", seed)
		require.Equal(t, want, differences(t, diffText(t, old, later)), "seed %d", seed)
		require.Equal(t, want, differences(t, diffText(t, site, later)), "seed %d", seed)
	}
}

// differences leaves out what the releases were read from.
func differences(t testing.TB, text []byte) string {
	t.Helper()
	var all map[string]json.RawMessage
	require.NoError(t, json.Unmarshal(text, &all))
	delete(all, "old")
	delete(all, "new")
	out, err := json.MarshalIndent(all, "", " ")
	require.NoError(t, err)
	return string(out)
}

// TestRenamesAreTold changes one name of a catalogue. Nothing but the rename is told,
// and it is the one that was made; a name on which nothing depends, or which several
// others could stand for, is not told, and is then told as what it looks like.
func TestRenamesAreTold(t *testing.T) {
	told, n := map[string]int{}, max(fewestAsked, diffSeeds())
	kinds := []string{"platform", "trait", "value", "position", "part"}
	for seed := range n {
		what := kinds[seed%len(kinds)]
		old := generate(uint64(seed))
		new, name := renamed(uint64(seed), what)
		if name == nil {
			continue
		}
		out := diffOf(t, old.folder(t), new.folder(t))
		require.Empty(t, checkDiff(old, new, out), "seed %d: %v", seed, name)
		if len(out.Renames) == 0 {
			continue
		}
		told[what]++
		require.Len(t, out.Renames, 1, "seed %d: %v", seed, name)
		r := out.Renames[0]
		require.Equal(t, *name, renaming{r.What, r.Trait, r.Old, r.New}, "seed %d", seed)
		out.Renames = nil
		require.True(t, out.empty(), "seed %d: %v: %+v", seed, name, out)
	}
	t.Log(told)
	for _, what := range kinds {
		require.GreaterOrEqual(t, told[what], max(1, n/20), what)
	}
}

// TestRenamesAmongOtherChanges changes names and rows together. What is told as a rename
// is one that was made, and everything else agrees with the enumeration.
func TestRenamesAmongOtherChanges(t *testing.T) {
	told := 0
	for seed := range diffSeeds() {
		old, new := generate(uint64(seed)), mutant(uint64(seed), 3, 2)
		made := map[renaming]bool{}
		g := rand.New(rand.NewPCG(uint64(seed), 5))
		for _, what := range []string{"platform", "trait", "value", "position", "part"} {
			if g.IntN(2) == 0 {
				continue
			}
			if n := new.rename(g, what); n != nil {
				made[*n] = true
			}
		}
		out := diffOf(t, old.folder(t), new.folder(t))
		require.Empty(t, checkDiff(old, new, out), "seed %d: %v", seed, made)
		for _, r := range out.Renames {
			told++
			if r.What == "value" { // its trait may have been renamed as well
				continue
			}
			require.True(t, made[renaming{r.What, r.Trait, r.Old, r.New}], "seed %d: %+v", seed, r)
		}
	}
	t.Log(told)
	require.GreaterOrEqual(t, told, diffSeeds()/4)
}

// TestDiffsCompose compares three catalogues with one another: on every configuration
// that all have, what the third says otherwise than the first follows from the two steps
// between.
func TestDiffsCompose(t *testing.T) {
	for seed := range diffSeeds() / 2 {
		a, b := generate(uint64(seed)), mutant(uint64(seed), 7, 5)
		c := mutant(uint64(seed), 7, 5)
		g := &gen{Rand: rand.New(rand.NewPCG(uint64(seed), 11)), c: c}
		for range 4 {
			pick(g, []func(*gen){(*gen).changeCell, (*gen).dropRow, (*gen).addVehicle, (*gen).addFit, (*gen).addRule})(g)
		}
		dirs := []string{a.folder(t), b.folder(t), c.folder(t)}
		k := &chain{t: t, seed: seed, cats: []*catalogue{a, b, c},
			ab: diffOf(t, dirs[0], dirs[1]), bc: diffOf(t, dirs[1], dirs[2]), ac: diffOf(t, dirs[0], dirs[2])}
		k.check()
	}
}

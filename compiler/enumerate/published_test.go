package enumerate

import (
	"ferrule/out/markup"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"
)

// publishedAtMost is how many random catalogues are published where -seeds does not say
// how many and CI is set; elsewhere few are.
const publishedAtMost, publishedFew = 25, 8

// spoiltSeed is a catalogue with fits and with rules.
const spoiltSeed = 2

// What is published of random catalogues is true of vehicles that exist and leaves out
// none: each year and each value of each box, in JSON, on pages and in JSON-LD.
func TestPublished(t *testing.T) {
	n := usual(publishedFew, publishedAtMost)
	flag.Visit(func(f *flag.Flag) {
		if f.Name == "seeds" {
			n = *seeds
		}
	})
	fits, rules := 0, 0
	for seed := range uint64(n) {
		c := generate(seed)
		dir := t.TempDir()
		require.NoError(t, c.write(dir))
		p, err := publish(dir, filepath.Join(t.TempDir(), "out"))
		require.NoError(t, err)
		truth := c.truth(c.enumerate())
		require.Empty(t, truth.against(p), "seed %d", seed)
		for _, part := range p.parts {
			fits, rules = fits+len(part.Fits), rules+len(part.Compatibility)
		}
	}
	t.Logf("%d catalogues, %d fits, %d rules", n, fits, rules)
	assert.Greater(t, fits, 3*n)
	assert.Greater(t, rules, n)
}

// The same of the demo. Its vehicles are those that the staff's guides give row by row,
// and its fits those of the public guides.
func TestPublishedDemo(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	p, err := publish(demoWithout(t, "N5"), out)
	require.NoError(t, err)
	truth, err := p.truth(filepath.Join(out, "staff", "guides"))
	require.NoError(t, err)
	rows, vehicles := 0, 0
	for _, part := range p.parts {
		rows += len(part.rows)
	}
	for _, all := range truth.vehicles {
		vehicles += len(all)
	}
	t.Logf("%d rows, %d vehicles", rows, vehicles)
	require.Equal(t, 177, rows)
	require.Empty(t, truth.against(p))
}

// demoWithout is the demo without a platform: N5 has a number and a date, which the reader of this test
// does not know. TestLinesAgainstEnumeration holds what is published of such.
func demoWithout(t *testing.T, platform string) string {
	dir, demo := t.TempDir(), filepath.Join("..", "..", "testdata", "demo")
	require.NoError(t, os.CopyFS(filepath.Join(dir, "pictures"), os.DirFS(filepath.Join(demo, "pictures"))))
	sources, err := filepath.Glob(filepath.Join(demo, "source", "*.txtar"))
	require.NoError(t, err)
	for _, name := range sources {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		kept := &txtar.Archive{}
		for _, f := range txtar.Parse(data).Files {
			if strings.Contains(f.Name, platform) || strings.HasSuffix(f.Name, "/Breaks") {
				continue
			}
			lines := slices.DeleteFunc(strings.SplitAfter(string(f.Data), "\n"), func(line string) bool { return strings.Contains(line, platform) })
			kept.Files = append(kept.Files, txtar.File{Name: f.Name, Data: []byte(strings.Join(lines, ""))})
		}
		books, err := markup.Books(txtar.Format(kept))
		require.NoError(t, err)
		require.NoError(t, markup.WriteAll(dir, books, markup.Options{Plain: true}))
	}
	return dir
}

// What is spoilt is seen: the comparison itself can fail.
func TestPublishedSpoilt(t *testing.T) {
	c := generate(spoiltSeed)
	dir, out := t.TempDir(), filepath.Join(t.TempDir(), "out")
	require.NoError(t, c.write(dir))
	_, err := publish(dir, out)
	require.NoError(t, err)
	truth := c.truth(c.enumerate())
	for name, spoil := range map[string]func(p *published){
		"a year too many": func(p *published) {
			eachPart(p, func(part *publicPart) { part.Fits[0].Where[0].Years = [][2]int{{1800, 2100}} })
		},
		"a fit too few": func(p *published) { eachPart(p, func(part *publicPart) { part.Fits = part.Fits[1:] }) },
		"a year too many on a page": func(p *published) {
			eachPart(p, func(part *publicPart) { part.rows[0].boxes[0].years = "1901" })
		},
		"a year too many for search engines": func(p *published) {
			eachPart(p, func(part *publicPart) {
				for name := range part.years {
					part.years[name] = append(part.years[name], "1901")
				}
			})
		},
		"a vehicle too many": func(p *published) {
			for _, g := range p.guides {
				g.Vehicles = append(g.Vehicles, box{Years: [][2]int{{1800, 1800}}})
			}
		},
		"a rule left out": func(p *published) {
			for _, part := range p.parts {
				part.Compatibility = nil
			}
		},
		"a rule left off the page": func(p *published) {
			for _, part := range p.parts {
				part.rules = nil
			}
		},
	} {
		p, err := readPublished(filepath.Join(out, "public"))
		require.NoError(t, err)
		require.Empty(t, truth.against(p))
		spoil(p)
		assert.NotEmpty(t, truth.against(p), name)
	}
}

func eachPart(p *published, spoil func(*publicPart)) {
	for _, part := range p.parts {
		if len(part.Fits) > 0 {
			spoil(part)
		}
	}
}

// truth works out the vehicles that exist from the rows that the staff's guides hold, and
// what fits them from the public guides.
func (p *published) truth(staff string) (*truth, error) {
	t := newTruth()
	paths, err := filepath.Glob(filepath.Join(staff, "*.json"))
	if err != nil {
		return nil, err
	}
	for _, path := range paths {
		var rows struct {
			Platform string `json:"platform"`
			Vehicles []box  `json:"vehicles"`
		}
		if err := loadFile(path, &rows); err != nil {
			return nil, err
		}
		g := p.guides[rows.Platform]
		if g == nil {
			return nil, fmt.Errorf("%s: no public guide: %w", path, os.ErrNotExist)
		}
		t.years[g.Platform] = yearsIn(g.Years)
		seen := map[string]bool{}
		for _, b := range rows.Vehicles {
			for v := range b.all {
				if key := fmt.Sprint(v); !seen[key] {
					seen[key] = true
					t.vehicles[g.Platform] = append(t.vehicles[g.Platform], v)
				}
			}
		}
		p.told(t, g)
	}
	return t, nil
}

// told notes what a guide offers and its rules.
func (p *published) told(t *truth, g *publicGuide) {
	for i, v := range t.vehicles[g.Platform] {
		for _, pos := range g.Positions {
			for _, c := range pos.Cases {
				if c.Outcome != "fitted" || c.Settled != nil || !c.Where.has(v) {
					continue
				}
				for n, items := range c.Alternatives {
					for _, it := range items {
						p.inside(it.Part, func(number string) {
							at := fitAt{number, g.Platform, pos.Position, it.Part, n + 1}
							if number == it.Part {
								at.kit = ""
							}
							note(t.fits, at, i)
						})
					}
				}
			}
		}
		for _, r := range g.Compatibility {
			if r.Where == nil || slices.ContainsFunc(r.Where, func(b box) bool { return b.has(v) }) {
				at := r.at(g.Platform)
				note(t.rules, at, i)
				for number := range p.parts {
					p.inside(number, func(in string) {
						if in == at.part || in == at.with || at.part == "" && p.family(in) == at.family {
							note(t.about, number, at)
						}
					})
				}
			}
		}
	}
}

func (r publicRule) at(platform string) ruleAt {
	return ruleAt{platform, r.Part, fold(r.Family), r.With, r.Effect}
}

// inside calls f with a number and with what it holds, each once.
func (p *published) inside(number string, f func(string)) {
	seen := map[string]bool{}
	var walk func(string)
	walk = func(n string) {
		if seen[n] {
			return
		}
		seen[n] = true
		f(n)
		if part := p.parts[n]; part != nil {
			for _, c := range part.Contents {
				walk(c.Part)
			}
		}
	}
	walk(number)
}

func (p *published) family(number string) string {
	if part := p.parts[number]; part != nil {
		return fold(part.Family)
	}
	return ""
}

func yearsIn(spans [][2]int) []int {
	var out []int
	for _, s := range spans {
		for y := s[0]; y <= s[1]; y++ {
			out = append(out, y)
		}
	}
	return out
}

// all calls yield with every vehicle of a box that names its years and all traits that
// the vehicles have.
func (b box) all(yield func(thing) bool) {
	list := []thing{}
	for _, y := range yearsIn(b.Years) {
		list = append(list, thing{y, map[string]string{}})
	}
	for _, name := range slices.Sorted(maps.Keys(b.Traits)) {
		var next []thing
		for _, v := range list {
			for _, value := range b.Traits[name] {
				w := thing{v.year, maps.Clone(v.traits)}
				if value != nil {
					w.traits[name] = *value
				}
				next = append(next, w)
			}
		}
		list = next
	}
	for _, v := range list {
		if !yield(v) {
			return
		}
	}
}

// against lists where what is published is not what was enumerated.
func (t *truth) against(p *published) []string {
	var out []string
	failf := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	for platform := range t.years {
		if g := p.guides[platform]; g == nil {
			failf("%s has no guide", platform)
		} else {
			t.guide(g, failf)
		}
	}
	for number := range t.about {
		if p.parts[number] == nil {
			failf("%s has rules and no file", number)
		}
	}
	for _, part := range p.parts {
		t.part(part, failf)
	}
	return out
}

func (t *truth) guide(g *publicGuide, failf func(string, ...any)) {
	if g.Format != 2 {
		failf("%s: format %d", g.Platform, g.Format)
	}
	for _, pos := range g.Positions {
		for i, c := range pos.Cases {
			if loose := t.loose(g.Platform, c.Where); loose != "" {
				failf("%s, %s, case %d: %s", g.Platform, pos.Position, i+1, loose)
			}
		}
	}
	t.exist(g, failf)
	t.tables(g, failf)
	told := map[ruleAt]map[int]bool{}
	for _, r := range g.Compatibility {
		t.ruleBoxes(g.Platform, r, told, failf)
	}
	for at, want := range t.rules {
		if at.platform == g.Platform && !maps.Equal(told[at], want) {
			failf("%s: the rule %v holds on %d vehicles, want %d", g.Platform, at, len(told[at]), len(want))
		}
		delete(told, at)
	}
	for at := range told {
		failf("%s: a rule %v", g.Platform, at)
	}
}

// ruleBoxes looks at the boxes of a rule and notes the vehicles in them.
func (t *truth) ruleBoxes(platform string, r publicRule, told map[ruleAt]map[int]bool, failf func(string, ...any)) {
	where := r.Where
	if where == nil {
		where = []box{{}}
	}
	for _, b := range where {
		if loose := t.loose(platform, b); loose != "" && r.Where != nil {
			failf("%s: a box of the rule %v: %s", platform, r.at(platform), loose)
		}
		for i, v := range t.vehicles[platform] {
			if b.has(v) {
				note(told, r.at(platform), i)
			}
		}
	}
}

// exist wants the vehicles of a guide to be those that exist.
func (t *truth) exist(g *publicGuide, failf func(string, ...any)) {
	all := t.vehicles[g.Platform]
	real := map[string]bool{}
	has := map[string]inBox{}
	for _, v := range all {
		real[fmt.Sprint(v)] = true
		for name := range v.traits {
			has[name] = nil
		}
	}
	for name := range has {
		for _, value := range values(all, name) {
			if value == "" {
				has[name] = append(has[name], nil)
			} else {
				has[name] = append(has[name], &value)
			}
		}
	}
	told := map[string]bool{}
	for _, b := range g.Vehicles {
		whole := box{Years: b.Years, Traits: maps.Clone(has)}
		if len(b.Years) == 0 {
			whole.Years = g.Years
		}
		maps.Copy(whole.Traits, b.Traits)
		for v := range whole.all {
			told[fmt.Sprint(v)] = true
		}
	}
	if !maps.Equal(told, real) {
		failf("%s: its boxes hold %d vehicles, want %d", g.Platform, len(told), len(real))
	}
}

// tables wants the years of each line of a page to be those of its case.
func (t *truth) tables(g *publicGuide, failf func(string, ...any)) {
	var want [][]string
	for _, pos := range g.Positions {
		var years []string
		for _, c := range pos.Cases {
			years = append(years, yearText(c.Where.Years, "All"))
		}
		if len(pos.Cases) > 0 {
			want = append(want, years)
		}
	}
	if !slices.EqualFunc(g.tables, want, slices.Equal) {
		failf("%s: the lines of its page are of %v, want %v", g.Platform, g.tables, want)
	}
}

func yearText(spans [][2]int, all string) string {
	if len(spans) == 0 {
		return all
	}
	var out []string
	for _, s := range spans {
		if s[0] == s[1] {
			out = append(out, strconv.Itoa(s[0]))
		} else {
			out = append(out, fmt.Sprintf("%d to %d", s[0], s[1]))
		}
	}
	return strings.Join(out, ", ")
}

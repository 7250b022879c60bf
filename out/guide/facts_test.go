package guide_test

import (
	"maps"
	"math/rand/v2"
	"net/url"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// toTell is how many vehicles that exist the finder is told of, and how many that do not.
func toTell() int {
	if os.Getenv("CI") != "" {
		return 500
	}
	return 60
}

// facts are what addresses tell the finders of some platforms.
type facts struct {
	cat    *model.Catalogue
	parts  map[string]*model.Part
	guides []*decide.Guide
	exist  [][]vehicle
	told   [][]vehicle // of each platform: such as exist, then such as do not
	first  []int       // how many of these exist
	words  [][]string  // the same as fragments of addresses
}

// What is told of a vehicle by the address, in any order, leads to the parts that are
// published for it, or to why there is no such vehicle and to what comes nearest.
func TestFactsInBrowser(t *testing.T) {
	demo := demoSample(t)
	facts := newFacts(demo)
	got := drive(t, demo, demo.Guides, facts.fragments())
	require.Len(t, got.Told, len(demo.Guides))
	for i, g := range demo.Guides {
		t.Run(g.Platform.Name, func(t *testing.T) {
			require.Empty(t, got.Told[i].Errors)
			want := publish(t, demo, g)
			facts.check(t, i, &want, got.Told[i].Seen)
		})
	}
}

// newFacts tells of vehicles that exist, in full, and of such as do not: in full, or two or
// three things that no vehicle has together.
func newFacts(s *sample) *facts {
	f := &facts{cat: s.Cat, guides: s.Guides, parts: map[string]*model.Part{}}
	for _, p := range s.Cat.Parts {
		f.parts[p.Number] = p
	}
	r := rand.New(rand.NewPCG(13, 2))
	for _, g := range s.Guides {
		all := vehicles(s.Cat, g)
		var told []vehicle
		for _, i := range r.Perm(len(all))[:min(toTell()/len(s.Guides), len(all))] {
			told = append(told, full(g, all[i]))
		}
		f.exist, f.told, f.first = append(f.exist, all), append(f.told, told), append(f.first, len(told))
	}
	seen := map[string]bool{}
	for n := 0; n < toTell(); {
		i := r.IntN(len(s.Guides))
		v := drawn(r, s.Guides[i])
		if n%2 == 0 {
			v = some(r, v, 2+r.IntN(2))
		}
		if words := fragment(r, s.Cat, s.Guides[i].Platform, v); f.far(i, v) > 0 && !seen[words] {
			seen[words] = true
			f.told[i] = append(f.told[i], v)
			n++
		}
	}
	for i := range f.told {
		f.words = append(f.words, nil)
		for _, v := range f.told[i] {
			f.words[i] = append(f.words[i], fragment(r, s.Cat, s.Guides[i].Platform, v))
		}
	}
	return f
}

// full says of each trait of the platform's vehicles what it is, be it that it does not
// apply.
func full(g *decide.Guide, v vehicle) vehicle {
	out := vehicle{"Model year": v["Model year"]}
	for _, u := range g.Traits {
		out[u.Trait.Name] = "n/a"
		if is, applies := v[u.Trait.Name]; applies {
			out[u.Trait.Name] = is
		}
	}
	return out
}

// drawn is any year and any value of each trait that the platform's vehicles have.
func drawn(r *rand.Rand, g *decide.Guide) vehicle {
	v := vehicle{"Model year": strconv.Itoa(g.Platform.Years[r.IntN(len(g.Platform.Years))])}
	for _, u := range g.Traits {
		values := slices.Collect(u.Values.Values())
		v[u.Trait.Name] = "n/a"
		if x := values[r.IntN(len(values))]; x != u.Trait.Absent() {
			v[u.Trait.Name] = model.TraitValue{Trait: u.Trait, Value: x}.Name()
		}
	}
	return v
}

// some gives a number of what is told.
func some(r *rand.Rand, v vehicle, n int) vehicle {
	out := vehicle{}
	names := sorted(v)
	for _, i := range r.Perm(len(names))[:n] {
		out[names[i]] = v[names[i]]
	}
	return out
}

// fragment tells of a vehicle in any order, in any case of letters, and by any of the names that
// traits and values have on the platform.
func fragment(r *rand.Rand, cat *model.Catalogue, pl *model.Platform, v vehicle) string {
	names := sorted(v)
	var words []string
	for _, i := range r.Perm(len(names)) {
		name, value := names[i], v[names[i]]
		if name == "Model year" && r.IntN(2) == 0 {
			name = oneOf(r, append(model.Names(cat.YearCalled, pl), "Years"))
		} else if r.IntN(2) == 0 {
			name, value = otherwise(r, cat, pl, name, value)
		}
		if r.IntN(2) == 0 {
			name, value = strings.ToUpper(name), strings.ToLower(value)
		}
		words = append(words, url.QueryEscape(name)+"="+url.PathEscape(value))
	}
	return "?" + strings.Join(words, "&")
}

// otherwise gives other names of a trait and of its value, as people may write them.
func otherwise(r *rand.Rand, cat *model.Catalogue, pl *model.Platform, name, value string) (string, string) {
	for _, t := range cat.Traits {
		if t.Name != name {
			continue
		}
		for _, v := range t.Values {
			if v.Name == value {
				value = oneOf(r, append(model.Names(v.Called, pl), value))
			}
		}
		return oneOf(r, append(model.Names(t.Called, pl), name)), strings.Replace(value, " bags", "-bags", 1)
	}
	return name, value
}

func oneOf(r *rand.Rand, words []string) string { return words[r.IntN(len(words))] }

func (f *facts) fragments() map[string][]string {
	out := map[string][]string{}
	for i, g := range f.guides {
		out[pageOf(g)] = f.words[i]
	}
	return out
}

// far is how many of the things that are told must be others for a vehicle to exist.
func (f *facts) far(platform int, told vehicle) int {
	least := len(told) + 1
	for _, v := range f.exist[platform] {
		least = min(least, len(differ(told, v)))
	}
	return least
}

// ways is in how many ways so few things may be others.
func (f *facts) ways(platform int, told vehicle, far int) int {
	ways := map[string]bool{}
	for _, v := range f.exist[platform] {
		if d := differ(told, v); len(d) == far {
			ways[strings.Join(d, "|")] = true
		}
	}
	return len(ways)
}

// differ names what is told of a vehicle and is not so on another.
func differ(told, v vehicle) []string {
	var out []string
	for _, name := range sorted(told) {
		is, applies := v[name]
		if told[name] != is && (applies || told[name] != "n/a") {
			out = append(out, name)
		}
	}
	return out
}

// rules gives the reasons of the compatibility rows that hold for a vehicle and are about
// a part that it is offered, be it as the company of another.
func (f *facts) rules(platform int, v vehicle, offered map[string]found) [][2]string {
	out := [][2]string{}
	for _, r := range f.cat.Rules {
		about := false
		for _, place := range offered {
			for _, offer := range slices.Concat(place.Choices...) {
				f.parts[offer[1].(string)].Within(func(p *model.Part) {
					about = about || r.About(p) || r.With == p
				})
			}
		}
		if about && holds(&r.When, f.guides[platform], v) {
			out = append(out, [2]string{r.Reason, "yours"})
		}
	}
	return out
}

// holds tells whether a vehicle meets a condition.
func holds(w *model.When, g *decide.Guide, v vehicle) bool {
	year, err := strconv.Atoi(v["Model year"])
	in := err == nil && w.Concerns(g.Platform) && w.Years.Has(year)
	for _, c := range w.Traits {
		in = in && meets(c, g, v)
	}
	return in
}

func (f *facts) check(t *testing.T, platform int, want *published, seen []told) {
	require.Len(t, seen, len(f.told[platform]))
	for i, got := range seen {
		v, words := f.told[platform][i], f.words[platform][i]
		require.Empty(t, got.Lost, words)
		if i < f.first[platform] {
			require.Empty(t, got.Near, words)
			require.Empty(t, got.Ask, "asked although all is told: %s", words)
			maps.DeleteFunc(v, func(_, is string) bool { return is == "n/a" })
			checkEnd(t, want, v, got.End)
			require.Equal(t, f.rules(platform, v, got.End), got.Rules, words)
			continue
		}
		far := f.far(platform, v)
		require.Equal(t, "No such vehicle", got.Head, words)
		require.Zero(t, got.Named, "parts of a vehicle that does not exist: %s", words)
		require.Contains(t, got.Why, "No "+want.Platform, words)
		require.Len(t, got.Near, f.ways(platform, v, far), words)
		for _, n := range got.Near {
			require.Equal(t, far, strings.Count(n, " instead of "), "%s: %s", words, n)
		}
		assert.Empty(t, got.Then.Head, "the nearest does not exist: %s", words)
	}
}

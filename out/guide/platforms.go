package guide

import (
	"cmp"
	"slices"
	"strings"

	"ferrule/out/search"
	"ferrule/out/slug"
)

// maker is a group of platforms.
type maker struct {
	Name      string // "" for platforms of which none is named
	Anchor    string // on the index; on the A to Z it leads there
	Platforms []platformEntry
	Letters   []initial // the same by letter, where they are many; else none
}

// initial is platforms whose names begin with one character.
type initial struct {
	Name      string // "" for names that begin with none
	Anchor    string
	Platforms []platformEntry // in the order of their names
}

type platformEntry struct {
	Name, Maker, Href, Years, Summary, Tell string
}

// Limits of lists of platforms.
const (
	unfilteredAtMost = 20 // platforms that are seen at a glance
	togetherAtMost   = 40 // platforms of a list that is not parted by letters
	namedAtMost      = 40 // makers to each of which there is a jump; of more, to each letter
)

// filterScript narrows a list of platforms as somebody types.
const filterScript = "filter.js"

// manyPlatforms tells whether a list of all platforms needs ways through it.
func (s *site) manyPlatforms() bool { return len(s.cat.Platforms) > unfilteredAtMost }

// makersOf groups the platforms, makers in the order of their first platform, or of their
// names where there are many; those of no maker come last.
func (s *site) makersOf() []maker {
	var names []string
	of := map[string][]platformEntry{}
	for _, pl := range s.cat.Platforms {
		if of[pl.Maker] == nil && pl.Maker != "" {
			names = append(names, pl.Maker)
		}
		of[pl.Maker] = append(of[pl.Maker], platformEntry{
			Name: pl.Name, Maker: pl.Maker, Href: s.platformFiles[pl], Years: s.yearWords(pl.Years), Summary: pl.Summary, Tell: pl.Tell,
		})
	}
	if len(names) > namedAtMost || len(s.cat.Platforms) > fullAtMost {
		slices.SortFunc(names, byName)
	}
	var out []maker
	add := func(name, file string) {
		m := maker{Name: name, Anchor: "maker" + file, Platforms: of[name]}
		if len(s.cat.Platforms) > fullAtMost {
			m.Letters = initials(m.Platforms, file)
		}
		out = append(out, m)
	}
	for i, file := range slug.Names(names) {
		add(names[i], "-"+strings.ToLower(file))
	}
	if of[""] != nil {
		add("", "s")
	}
	return out
}

// initials parts platforms by the first character of their names; none where they are few
// or all begin alike. of is added to the anchors.
func initials(all []platformEntry, of string) []initial {
	if len(all) <= togetherAtMost {
		return nil
	}
	var out []initial
	file := ""
	for _, p := range named(all) {
		name, f := firstCharacter(folded(p.Name))
		if len(out) == 0 || f != file {
			out, file = append(out, initial{Name: name, Anchor: "letter-" + f + of}), f
		}
		out[len(out)-1].Platforms = append(out[len(out)-1].Platforms, p)
	}
	if len(out) == 1 {
		return nil
	}
	return out
}

// named gives platforms in the order of their names.
func named(all []platformEntry) []platformEntry {
	return slices.SortedStableFunc(slices.Values(all), func(a, b platformEntry) int { return byName(a.Name, b.Name) })
}

// byName orders names as people look them up.
func byName(a, b string) int { return cmp.Or(natural(folded(a), folded(b)), cmp.Compare(a, b)) }

// folded is a name or a number as it is looked up: no spaces, no signs.
func folded(name string) string { return strings.ReplaceAll(search.Fold(name), " ", "") }

// jumps leads to each of the makers, or to the first of each letter where they are many;
// nowhere where there is one.
func jumps(makers []maker) []link {
	if len(makers) < 2 {
		return nil
	}
	var out []link
	for _, m := range makers {
		text := m.Name
		if len(makers) > namedAtMost {
			text, _ = firstCharacter(folded(m.Name))
		}
		if len(out) == 0 || out[len(out)-1].Text != text {
			out = append(out, link{text, "#" + m.Anchor})
		}
	}
	return out
}

package lexicon

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/bind/mend"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// On reads a Platform cell: names, any, or not and names. It gives nil for any, and what can
// be read of a cell with faults.
func (x *Lexicon) On(cell string) ([]*model.Platform, []Fault) {
	text := strings.TrimSpace(cell)
	if one, ok := x.kept.platforms.Find(text); ok {
		return one, nil
	}
	if p, ok := x.Platforms.Find(text); ok {
		one := []*model.Platform{p}
		x.kept.platforms.Keep(text, one)
		return one, nil
	}
	if word.Fold(text) == "any" {
		return nil, nil
	}
	names, not := list(text, x.Platforms.Has)
	if a, ok := x.platformAdvice(text, names); ok {
		return nil, []Fault{{Flaw: Malformed, Says: a.Of(text)}}
	}
	if len(names) == 0 || word.Fold(text) == "not" {
		return nil, []Fault{{Flaw: Malformed, Says: fmt.Sprintf("%q names no platform; write one or more, not and those that are left out, or any", text)}}
	}
	return x.listed(names, not)
}

// listed gives the platforms that a cell lists, or all others.
func (x *Lexicon) listed(names []string, not bool) (on []*model.Platform, faults []Fault) {
	named := make([]bool, len(x.Platforms.all))
	for _, name := range names {
		p, ok := x.Platforms.Find(name)
		if ok {
			named[p.Index] = true
		} else if why := PlatformWord(name); why != "" {
			faults = append(faults, Fault{Flaw: Malformed, Says: why})
		} else {
			faults = append(faults, Fault{Flaw: Undeclared, Name: name})
		}
	}
	on = []*model.Platform{}
	for i, p := range x.Platforms.all {
		if named[i] != not {
			on = append(on, p)
		}
	}
	return on, faults
}

// PlatformWord says why a word cannot stand in a list of platforms, unless one is called so.
func PlatformWord(name string) string {
	switch term := grammar.ReadTerm(name).Plain(); {
	case term.Kind == grammar.Absent:
		return "every vehicle has a platform, so Platform takes no n/a; write any where every platform is meant"
	case term.Kind == grammar.Any || word.Fold(name) == "all":
		return "any stands alone in its cell"
	case term.Kind == grammar.Not:
		return fmt.Sprintf("\"not\" stands once, before the whole list, and not before %q alone", term.Name)
	}
	return ""
}

// list gives the names that a cell lists, and whether it says which are left out.
func list(text string, declared func(string) bool) (names []string, not bool) {
	said := grammar.ReadList(text).Take(declared)
	return said.Names(declared), said.Not
}

// advised is advice on a cell, where there is any.
type advised struct {
	mend.Advice
	ok bool
}

// platformAdvice says what to write in place of a Platform cell that does not read.
func (x *Lexicon) platformAdvice(text string, names []string) (mend.Advice, bool) {
	if x.unknowable.Platforms || x.allPlatforms(names) {
		return mend.Advice{}, false
	}
	said := x.kept.advice.Once(text, func() advised { return x.advisePlatform(text) })
	return said.Advice, said.ok
}

// allPlatforms tells whether there are names, and all of them platforms'.
func (x *Lexicon) allPlatforms(names []string) bool {
	return len(names) > 0 && !slices.ContainsFunc(names, func(name string) bool { return !x.Platforms.Has(name) })
}

func (x *Lexicon) advisePlatform(text string) advised {
	a, ok := mend.Values{
		What: "platform", Names: slices.Clone(x.Platforms.list),
		Find: func(name string) (int, bool) {
			p, ok := x.Platforms.Find(name)
			if !ok {
				return 0, false
			}
			return p.Index, true
		},
		Reads: func(cell string) bool {
			names, _ := list(cell, x.Platforms.Has)
			return x.allPlatforms(names) || word.Fold(cell) == "any"
		},
	}.Advise(text)
	return advised{a, ok}
}

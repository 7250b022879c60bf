package lexicon

import (
	"fmt"
	"strings"

	"ferrule/compiler/bind/memo"
	"ferrule/compiler/intake/table/glyph"
	"ferrule/schema/word"
)

// Names finds declared things by name, with case and white space folded. The zero value has
// none.
type Names[T any] struct {
	by      map[string]T
	list    List
	all     []T
	hints   memo.Texts[string] // of names that are not here
	nearest memo.Texts[string]
	outside *outside // nil: names are those that are declared, and no others
}

// Add declares a name.
func (n *Names[T]) Add(name string, v T) {
	if n.by == nil {
		n.by = map[string]T{}
	}
	n.by[word.Fold(name)] = v
	n.list, n.all = append(n.list, name), append(n.all, v)
	n.hints, n.nearest = memo.Texts[string]{}, memo.Texts[string]{}
}

// Find gives what a name stands for.
func (n *Names[T]) Find(name string) (T, bool) {
	v, ok := n.by[word.Fold(name)]
	if ok || n.outside == nil {
		return v, ok
	}
	if all := n.outside.may(name); len(all) == 1 {
		v, ok = n.by[word.Fold(all[0])]
	}
	return v, ok
}

// declared tells whether a name is one of those that were added.
func (n *Names[T]) declared(name string) bool { _, ok := n.by[word.Fold(name)]; return ok }

// Has tells whether a name is declared.
func (n *Names[T]) Has(name string) bool { _, ok := n.Find(name); return ok }

// List gives the names as they are declared, in their order.
func (n *Names[T]) List() []string { return n.list }

// Nearest gives what a slip of the hand in a name stands for.
func (n *Names[T]) Nearest(name string) (T, bool) {
	return n.Find(n.nearest.Once(name, func() string { return word.Nearest(name, n.list) }))
}

// Missed says that no such name is declared, and which may be meant; what is what the name is
// one of: platform. What to say of a name is found once: a column may hold one that is
// misspelt in every row.
func (n *Names[T]) Missed(what, name string) string {
	if several := n.Ambiguous(name); several != "" {
		return several
	}
	return n.list.missed(what, name, func() string {
		return n.hints.Once(name, func() string {
			if slip := n.slipOf(name); slip != "" && word.Sole(name, n.list) == "" {
				return slip
			}
			return Hint(name, n.list)
		})
	})
}

// List is names alone.
type List []string

// Missed is Names.Missed.
func (l List) Missed(what, name string) string {
	return l.missed(what, name, func() string { return Hint(name, l) })
}

func (l List) missed(what, name string, hint func() string) string {
	if len(l) == 0 {
		return fmt.Sprintf("%s %q is not declared, and no %s is", what, name, what)
	}
	return fmt.Sprintf("no %s is called %q%s", what, name, hint())
}

// Hint names the name that looks the same, the nearest one if no other is as near, or all
// of them where they are few. It goes on from a sentence that says that there is none.
func Hint(name string, list []string) string {
	if d := looksLike(name, list); d != "" {
		return d
	}
	if n := word.Sole(name, list); n != "" {
		return "; did you mean " + n + "?"
	}
	switch n := len(list); {
	case n == 1:
		return "; there is " + list[0]
	case n <= 8:
		return "; there are " + word.List(list, "and")
	}
	return ""
}

// looksLike names the name that looks the same, with what makes it another one.
func looksLike(name string, list []string) string {
	plain := glyph.ASCII(name)
	for _, n := range list {
		if plain && glyph.ASCII(n) {
			continue // what differs can be seen
		}
		if d := difference(name, n); d != "" {
			return fmt.Sprintf("; did you mean %s? It looks the same, but %s", n, d)
		}
	}
	return ""
}

// cases are the ways to write a name in which look-alikes are found.
func cases() []func(string) string {
	return []func(string) string{strings.TrimSpace, word.Fold, strings.ToUpper}
}

// difference says where two names that look alike are not the same, in the case in which
// they are written or else in small or capital letters: Н looks like H, and н like no h.
func difference(name, other string) string {
	for _, in := range cases() {
		if d := glyph.Difference(in(name), in(other)); d != "" {
			return d
		}
	}
	return ""
}

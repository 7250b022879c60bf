package guide

import (
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/judge/decide"
)

// Exist says which vehicles exist: boxes with `;` between them, in each the years and what
// else is restricted as `number=values`; "" where that is not known.
func (f *finder) Exist() string { return f.boxWords(f.exist) }

// boxWords says vehicles as the script reads them.
func (f *finder) boxWords(vehicles decide.Vehicles) string {
	boxes := vehicles.Boxes()
	words := make([]string, len(boxes))
	for i, box := range boxes {
		terms := make([]string, 0, len(f.order))
		for n, t := range f.order {
			if t == 0 || box.Restrict(t) {
				terms = append(terms, strconv.Itoa(n)+"="+f.values(t, box.Possible(t)))
			}
		}
		words[i] = strings.Join(terms, " ")
	}
	return strings.Join(words, ";")
}

// so says what is true of all of some vehicles beyond what chose them: their years, and of
// traits the one value that they have, or the one range.
func (f *finder) so(vehicles decide.Vehicles) where {
	var out where
	for _, t := range f.order {
		in, follows := vehicles.Follows(t)
		if !follows {
			continue
		}
		if t == 0 {
			out.Years = f.years(in)
		} else if is := namesOf(f.uses[t-1].Trait, in); len(is.Names) == 1 && !is.Absent {
			out.Terms = append(out.Terms, is)
		}
	}
	return out
}

// beyond leaves what was not told; nil for nothing.
func (w where) beyond(told *where) *where {
	if told == nil {
		told = new(where)
	}
	var out where
	if w.Years != told.Years {
		out.Years = w.Years
	}
	for _, t := range w.Terms {
		if !slices.ContainsFunc(told.Terms, func(o term) bool { return o.Trait == t.Trait && slices.Equal(o.Names, t.Names) }) {
			out.Terms = append(out.Terms, t)
		}
	}
	if out.All() {
		return nil
	}
	return &out
}

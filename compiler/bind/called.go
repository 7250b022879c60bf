package bind

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// alsoCalled is the column of what a platform, a trait or a value is called besides.
const alsoCalled = "Also called"

// called reads what the row says that its platform, trait or value is also called. Nothing in the
// catalogue is found by it.
func (b *binder) called(r row, on *model.Platform) []model.Called {
	at, own := r.at(alsoCalled), r.name("Platform")
	if r.t.Kind == schema.Traits {
		own = r.name("Value")
	}
	var out []model.Called
	for _, name := range strings.FieldsFunc(r.text(alsoCalled), grammar.Separator) {
		if name = strings.Join(strings.Fields(name), " "); name == "" {
			continue
		}
		if why := meansOther(name); why != "" {
			b.fail(finding.ConditionMalformed, at, "nothing can be called %q, since it means something else in conditions; take it out of %s", name, alsoCalled)
			continue
		}
		if b.oddName(name, own, at) {
			continue
		}
		out = append(out, model.Called{Name: name, Platform: on, At: at})
	}
	return out
}

// year is a name that is read as model years wherever somebody asks.
var year = regexp.MustCompile(`^(?:19|20)\d\d(?:\s*[-–+]\s*(?:(?:19|20)?\d\d)?)?$`)

// oddName tells of a name that nobody can be meant by, which is not taken, and of several names that are
// read as one, which is taken as it stands. own is what the row itself is called.
func (b *binder) oddName(name, own string, at cell.Place) bool {
	switch {
	case placeholder(name):
		b.fail(finding.ValueInvalid, at, "%q is no name that people use; leave %s blank where there is none", name, alsoCalled)
	case year.MatchString(name):
		b.fail(finding.ConditionMalformed, at, "nothing can be called %q, since that reads as a model year; take it out of %s, or write what people say with it", name, alsoCalled)
	case joins(name) && !joins(own):
		b.say(finding.ConditionMalformed, finding.Warning, at, "%q is taken for one name; where it is two, write , or ; between them", name)
		return false
	case strings.Contains(name, "|"), strings.Contains(name, " / "), strings.Contains(strings.ToLower(name), " or "):
		b.say(finding.ConditionMalformed, finding.Warning, at, "%q is taken for one name; where it is several, write , or ; between them", name)
		return false
	default:
		return false
	}
	return true
}

// meansOther gives the word of conditions that a name is, or begins with, "" for none.
func meansOther(name string) string {
	term := grammar.ReadTerm(name).Plain()
	switch {
	case term.Kind == grammar.Any, term.Kind == grammar.Absent, term.Kind == grammar.Not:
		return name
	case slices.Contains([]string{"any", "n/a", "not", "or", "all"}, word.Fold(name)):
		return name
	}
	return ""
}

// named is a name with what it stands for.
type named struct {
	model.Called
	of  string // what it stands for, in words
	key any    // the same for all names of one thing
	own bool   // it is declared so
}

// sharedNames tells of names that could mean two platforms, two traits, or two values of a trait
// on one platform.
func (b *binder) sharedNames() {
	var platforms []named
	for _, p := range b.cat.Platforms {
		platforms = append(platforms, namesOf(p, "the platform "+p.Name, p.Name, model.Called{At: p.At}, p.Called)...)
	}
	b.shares(platforms)
	b.shares(b.askedNames())
	for _, t := range b.cat.Traits {
		var values []named
		for _, v := range t.Values {
			values = append(values, namesOf(v, fmt.Sprintf("the value %s of %s", v.Name, t.Name), v.Name, model.Called{At: v.At}, v.Called)...)
		}
		b.shares(values)
	}
}

// askedNames gives the names under which people ask for traits, and what else they write beside them.
func (b *binder) askedNames() []named {
	out := namesOf(&b.cat.YearCalled, "the model year", "Years", model.Called{}, b.cat.YearCalled)
	out = append(out, namesOf(&b.cat.YearCalled, "the model year", "Year", model.Called{}, nil)...)
	for _, c := range schema.Columns(schema.Fleet) {
		if c.Holds != schema.HoldsYears {
			out = append(out, namesOf(c.Name, "the column "+c.Name, c.Name, model.Called{}, nil)...)
		}
	}
	for _, t := range b.cat.Traits {
		out = append(out, namesOf(t, "the trait "+t.Name, t.Name, model.Called{At: t.At}, t.Called)...)
	}
	return out
}

func namesOf(key any, words, name string, own model.Called, called []model.Called) []named {
	own.Name = name
	out := []named{{own, words, key, true}}
	for _, c := range called {
		out = append(out, named{c, words, key, false})
	}
	return out
}

// shares tells of each name that is also used of something before it, once.
func (b *binder) shares(all []named) {
	by := map[string][]named{}
	for _, n := range all {
		by[word.Squeeze(n.Name)] = append(by[word.Squeeze(n.Name)], n)
	}
	for _, n := range all {
		if n.own {
			continue
		}
		i := slices.IndexFunc(by[word.Squeeze(n.Name)], func(o named) bool {
			return o.key != n.key && o.meets(n) && (o.own || before(all, o, n))
		})
		if i >= 0 {
			b.share(n, by[word.Squeeze(n.Name)][i])
		}
	}
}

// meets tells whether two names are used on one platform.
func (n named) meets(o named) bool {
	return n.Platform == nil || o.Platform == nil || n.Platform == o.Platform
}

// before tells whether one name stands before another.
func before(all []named, o, n named) bool {
	return slices.Index(all, o) < slices.Index(all, n)
}

func (b *binder) share(n, o named) {
	f := &finding.Finding{Code: finding.NameShared, Severity: finding.Error, Cells: finding.At(n.At),
		Message: fmt.Sprintf("%s is also called %q, and so is %s", n.of, n.Name, o.of),
		Fix:     "call one of the two otherwise, or leave the name out at both: whoever writes it is asked which is meant"}
	if o.own {
		f.Message = fmt.Sprintf("%s is also called %q, which is the name of %s", n.of, n.Name, o.of)
		f.Fix = "take it out here: whoever writes it means the other"
	}
	if o.At.Sheet != nil && o.At != n.At {
		f.Cells = append(f.Cells, finding.Cell{Place: o.At})
	}
	b.Report(f)
}

// sameCalled tells whether two rows say the same names, in any order.
func sameCalled(a, b string) bool {
	fold := func(text string) []string {
		names := strings.FieldsFunc(text, grammar.Separator)
		for i := range names {
			names[i] = word.Fold(names[i])
		}
		slices.Sort(names)
		return names
	}
	return slices.Equal(fold(a), fold(b))
}

package sat

import (
	"maps"
	"math/big"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

// TestNotices spoils one answer of every code in each way, and holds the checks to
// noticing every one.
func TestNotices(t *testing.T) {
	cat := generate(0)
	require.Empty(t, problems(cat, compile(cat)))
	for name, s := range spoilers() {
		a := compile(cat)
		var spoilt []subject
		for code := range audited() {
			of, ok := a.first(code)
			require.True(t, ok, "the catalogue has no %s", code)
			if s.all || a.found[of].Region != nil && (code != "indistinguishable" || !s.local) {
				spoilt = append(spoilt, of)
				s.spoil(a, of)
			}
		}
		require.GreaterOrEqual(t, len(spoilt), len(audited())-3)
		told := strings.Join(problems(cat, a), "\n")
		for _, of := range spoilt {
			require.Contains(t, told, of.String(), name)
		}
	}
}

func problems(cat *model.Catalogue, a *answers) []string {
	sum := newTally()
	sum.ask(cat, a)
	return sum.problems
}

// first gives the first finding of a code.
func (a *answers) first(code finding.Code) (subject, bool) {
	of := slices.Collect(maps.Keys(a.found))
	of = slices.DeleteFunc(of, func(s subject) bool { return s.code != code })
	slices.SortFunc(of, func(x, y subject) int { return strings.Compare(x.String(), y.String()) })
	return append(of, subject{})[0], len(of) > 0
}

// spoiler makes an answer wrong.
type spoiler struct {
	all   bool // also those that are not about certain vehicles
	local bool // only those of which a box that reaches beyond can be asked
	spoil func(*answers, subject)
}

func spoilers() map[string]spoiler {
	region := func(local bool, f func(*finding.Region)) spoiler {
		return spoiler{local: local, spoil: func(a *answers, s subject) {
			r := a.found[s].Region.Open()
			f(r)
			a.found[s].Region = finding.Pack(r)
		}}
	}
	return map[string]spoiler{
		"lost": {all: true, spoil: func(a *answers, s subject) { delete(a.found, s) }},
		"a box lost": region(false, func(r *finding.Region) {
			r.Where = r.Where[1:]
		}),
		"something left out": region(false, func(r *finding.Region) {
			r.Rest = big.NewInt(1)
		}),
		"a box of what does not exist": region(false, func(r *finding.Region) {
			r.Where = append(r.Where, model.Box{Years: []model.Span{{From: 1900, To: 1901}}})
		}),
		"a box that reaches over all": region(true, func(r *finding.Region) {
			r.Where[0] = model.Box{}
		}),
		"an example that does not exist": region(false, func(r *finding.Region) {
			for i, t := range r.Example.Traits {
				r.Example.Traits[i].Value = t.Trait.Absent()
			}
		}),
	}
}

// TestNoticesNeededCells tells cells as redundant that say what no other does.
func TestNoticesNeededCells(t *testing.T) {
	cat := generate(0)
	a := compile(cat)
	var needed []subject
	for _, f := range cat.Fitments {
		if s := redundantAt(f.Cells[0]); a.found[s] == nil {
			unreachable := a.found[subject{code: "row-unreachable", a: f.At}] != nil
			a.found[s] = &finding.Finding{Code: s.code, Cells: finding.At(f.Cells[0].At)}
			if !unreachable && !f.When.SetAside {
				needed = append(needed, s)
				break
			}
			delete(a.found, s)
		}
	}
	require.Len(t, needed, 1)
	require.Contains(t, strings.Join(problems(cat, a), "\n"), needed[0].String())
}

// TestNoticesRepeats tells a finding of every code once more, about other cells.
func TestNoticesRepeats(t *testing.T) {
	cat := generate(0)
	a := compile(cat)
	var more []subject
	for code := range audited() {
		of, _ := a.first(code)
		f := a.found[of]
		of.a = column(f.Cells[0].Place, 99)
		a.found[of] = f
		more = append(more, of)
	}
	told := strings.Join(problems(cat, a), "\n")
	for _, s := range more {
		require.Contains(t, told, s.String())
	}
}

package sat

import (
	"context"
	"fmt"
	"math/big"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// answers is what the compiler finds in a catalogue, by what it is about.
type answers struct {
	found     map[subject]*finding.Finding
	twice     []subject
	irregular map[[2]string]bool // platform and position that were over the budget
	// configurations of each platform, roughly
	configurations []float64
}

// subject tells findings of a code apart; what does not matter to the code is zero.
type subject struct {
	code               finding.Code
	platform, position string
	part               string // that a Compatibility row is about
	a, b               cell.Place
}

func (s subject) String() string {
	return fmt.Sprintf("%s on %q at %q, part %q, cells %s and %s", s.code, s.platform, s.position, s.part, s.a, s.b)
}

// audited gives the codes that are asked about, with how many cells tell their
// findings apart.
func audited() map[finding.Code]int {
	return map[finding.Code]int{
		"coverage-gap": 0, "coverage-planned": 0, "coverage-ask": 0, "indistinguishable": 0,
		"fitment-conflict": 2, "position-conflict": 2, "part-forbidden": 2, "line-size-mismatch": 2,
		"companion-missing": 2, "companion-forbidden": 2,
		"row-unreachable": 1, "cell-redundant": 1,
	}
}

// compile checks a catalogue as the program does.
func compile(cat *model.Catalogue) *answers {
	out := &answers{found: map[subject]*finding.Finding{}, irregular: map[[2]string]bool{}}
	cells := audited()
	o := judge.Options{Ledger: accept.New(cat, "2027-03-01"), Use: accept.Use{}, Workers: 1, Unsettled: true} // guides tell how many vehicles there are
	guides, err := judge.Platforms(context.Background(), cat, o, func(f *finding.Finding) {
		n, ok := cells[f.Code]
		switch {
		case f.Code == "too-irregular":
			out.irregular[[2]string{f.Platform, f.Position}] = true
		case ok:
			s := subject{code: f.Code, platform: f.Platform, position: f.Position}
			switch f.Code {
			case "part-forbidden", "companion-missing", "companion-forbidden":
				s.part = f.Part
			}
			if n > 0 {
				s.a = f.Cells[0].Place
			}
			if n > 1 {
				s.b = f.Cells[1].Place
			}
			if out.found[s] != nil {
				out.twice = append(out.twice, s)
			}
			out.found[s] = f
		}
	})
	if err != nil {
		panic(err)
	}
	for _, g := range guides {
		n, _ := new(big.Float).SetInt(g.Configurations).Float64()
		out.configurations = append(out.configurations, n)
	}
	return out
}

// take gives the finding about a subject, nil for none, and remembers that it was
// asked for.
func (a *answers) take(s subject) *finding.Finding {
	f := a.found[s]
	delete(a.found, s)
	return f
}

// skip drops the findings about a place that is not asked about.
func (a *answers) skip(platform, position string) {
	for s := range a.found {
		if s.platform == platform && s.position == position {
			delete(a.found, s)
		}
	}
}

// left gives the findings that nothing asked for: each is one too many.
func (a *answers) left() []subject {
	out := slices.Clone(a.twice)
	for s := range a.found {
		out = append(out, s)
	}
	return out
}

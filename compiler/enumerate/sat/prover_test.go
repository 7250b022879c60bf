package sat

import (
	"slices"

	"github.com/crillab/gophersat/solver"
)

// prover is a formula in conjunctive normal form that questions are asked of.
// Literals are numbered from 1; a negative one is denied.
type prover struct {
	vars    int
	clauses [][]int
	always  []int // single literals that hold; the solver forgets those among clauses
	yes     int
	defined map[string]int
	solver  *solver.Solver
	asked   int // questions
	denied  int // of them answered no
}

// newProver makes an empty formula. Variable 1 stays out of all clauses: the solver
// keeps its heap in good order only where that one is never bumped.
func newProver() *prover {
	p := &prover{vars: 1, defined: map[string]int{}}
	p.yes = p.fresh()
	p.add(p.yes)
	return p
}

func (p *prover) fresh() int {
	p.vars++
	return p.vars
}

// add states that one of the literals holds. It must come before the first question.
func (p *prover) add(lits ...int) {
	if p.solver != nil {
		panic("sat: clause after a question")
	}
	sorted := slices.Clone(lits)
	slices.Sort(sorted)
	sorted = slices.Compact(sorted)
	switch len(sorted) {
	case 0:
		panic("sat: a clause that nothing meets")
	case 1:
		p.always = append(p.always, sorted[0])
	default:
		p.clauses = append(p.clauses, sorted)
	}
}

// and gives a literal that holds exactly where all of lits do.
func (p *prover) and(lits ...int) int {
	switch len(lits) {
	case 0:
		return p.yes
	case 1:
		return lits[0]
	}
	key := keyOf(lits)
	if v, ok := p.defined[key]; ok {
		return v
	}
	v := p.fresh()
	p.defined[key] = v
	whole := []int{v}
	for _, l := range lits {
		p.add(-v, l)
		whole = append(whole, -l)
	}
	p.add(whole...)
	return v
}

// or gives a literal that holds exactly where one of lits does.
func (p *prover) or(lits ...int) int {
	denied := make([]int, len(lits))
	for i, l := range lits {
		denied[i] = -l
	}
	return -p.and(denied...)
}

// exactlyOne states that one of the literals holds and no two do.
func (p *prover) exactlyOne(lits []int) {
	p.add(lits...)
	for i, a := range lits {
		for _, b := range lits[i+1:] {
			p.add(-a, -b)
		}
	}
}

func keyOf(lits []int) string {
	sorted := slices.Clone(lits)
	slices.Sort(sorted)
	var b []byte
	for _, l := range sorted {
		b = append(b, byte(l), byte(l>>8), byte(l>>16), byte(l>>24))
	}
	return string(b)
}

// sat asks whether all of lits can hold together.
func (p *prover) sat(lits ...int) bool {
	assumed := map[int]bool{}
	var given []solver.Lit
	for _, l := range slices.Concat(p.always, lits) {
		if assumed[-l] {
			return false
		}
		if !assumed[l] {
			assumed[l] = true
			given = append(given, solver.IntToLit(int32(l)))
		}
	}
	if p.solver == nil {
		p.solver = solver.New(solver.ParseSliceNb(p.clauses, p.vars))
	}
	p.asked++
	found := p.solver.Assume(given) != solver.Unsat && p.solver.Solve() == solver.Sat
	if found {
		p.verify(assumed)
		return true
	}
	if p.denied++; p.denied%50 == 0 && p.anew(assumed) {
		panic("sat: two solvers disagree")
	}
	return false
}

// verify holds the solver's model against every clause and assumption.
func (p *prover) verify(assumed map[int]bool) {
	model := p.solver.Model()
	holds := func(l int) bool {
		if l < 0 {
			return !model[-l-1]
		}
		return model[l-1]
	}
	for l := range assumed {
		if !holds(l) {
			panic("sat: the solver's model breaks an assumption")
		}
	}
	for _, c := range p.clauses {
		if !slices.ContainsFunc(c, holds) {
			panic("sat: the solver's model breaks a clause")
		}
	}
}

// anew asks a fresh solver, to which what is assumed is a clause like any other.
func (p *prover) anew(assumed map[int]bool) bool {
	clauses := slices.Clone(p.clauses)
	for l := range assumed {
		clauses = append(clauses, []int{l})
	}
	return solver.New(solver.ParseSliceNb(clauses, p.vars)).Solve() == solver.Sat
}

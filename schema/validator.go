package schema

import (
	"fmt"
	"slices"
)

// Validator holds the rows of one sheet against the schemas of its kind. It says what
// [Set.Validate] says, and costs little for rows that break no rule: what the schemas
// say of a value in a column is kept, since the values of a column repeat. It is not
// safe for use by several goroutines at once.
type Validator struct {
	set     *Set
	kind    string
	names   []string
	columns []column
	plain   []*expr  // the schemas that verdicts about single cells decide
	whole   []*rules // the others, which see each row
	filled  mask     // of the row at hand
	held    []uint64 // the verdicts about its cells
}

// Validator makes a Validator for the rows of a sheet of one kind with these columns.
func (s *Set) Validator(kind string, columns []string) *Validator {
	v := &Validator{set: s, kind: kind, names: slices.Clone(columns), columns: make([]column, len(columns)),
		filled: newMask(len(columns)), held: make([]uint64, len(columns))}
	p := newPlanner(v.names)
	for _, r := range s.kinds[kind] {
		if e, ok := p.plan(r); ok {
			v.plain = append(v.plain, e)
		} else {
			v.whole = append(v.whole, r)
		}
	}
	for i := range v.columns {
		v.columns[i] = newColumn(p.claims[i], len(columns))
	}
	return v
}

// Validate gives the rules that a row breaks, which holds a value for each column. A
// row that breaks none costs no memory where no schema has to see it whole.
func (v *Validator) Validate(values []Value) []Violation {
	if len(values) != len(v.columns) {
		panic(fmt.Sprintf("schema: Validate: %d values for %d columns", len(values), len(v.columns)))
	}
	if v.good(values) {
		return nil
	}
	return v.set.Validate(v.kind, v.row(values)) // it alone says what is wrong
}

// good tells that a row breaks no rule. It may fail to see that, but is never wrong.
func (v *Validator) good(values []Value) bool {
	clear(v.filled)
	for i, value := range values {
		if value.form == isBlank {
			v.held[i] = allHold
			continue
		}
		held, ok := v.columns[i].verdict(value)
		if !ok {
			return false
		}
		v.filled.set(i)
		v.held[i] = held
	}
	for _, e := range v.plain {
		if !e.holds(v.filled, v.held) {
			return false
		}
	}
	if len(v.whole) == 0 {
		return true
	}
	row := v.row(values)
	return !slices.ContainsFunc(v.whole, func(r *rules) bool { return len(r.validate(row)) > 0 })
}

func (v *Validator) row(values []Value) Row {
	var row Row
	for i, value := range values {
		if value.form != isBlank {
			row.Fields = append(row.Fields, Field{v.names[i], value.plain()})
		}
	}
	return row
}

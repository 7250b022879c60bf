package schema

import (
	"reflect"
	"slices"

	"github.com/santhosh-tekuri/jsonschema/v5"
)

// planner makes expressions of compiled schemas for the columns of one sheet.
type planner struct {
	names  []string
	index  map[string]int
	folded map[string]bool              // of the schema at hand
	known  map[*jsonschema.Schema]*expr // nil: it cannot be one, or is not known yet
	steady map[*jsonschema.Schema]bool  // what alone found
	typed  map[*jsonschema.Schema]bool  // those that speak of types and nothing else
	claims [][]claim                    // by column: what the bits of its verdicts mean
}

// maxClaims is how many bits a verdict has.
const maxClaims = 64

func newPlanner(names []string) *planner {
	p := &planner{names: names, index: make(map[string]int, len(names)), claims: make([][]claim, len(names)),
		steady: map[*jsonschema.Schema]bool{}, typed: map[*jsonschema.Schema]bool{}}
	for i, name := range names {
		p.index[name] = i
	}
	return p
}

// plan gives the expression that decides whether a row meets a schema. There is none
// where a keyword could look at more of a row than which columns it fills and what
// stands in each: then the row must be seen whole.
func (p *planner) plan(r *rules) (*expr, bool) {
	if len(p.index) < len(p.names) {
		return nil, false // of two columns with one name, only the first that is filled counts
	}
	p.folded, p.known = r.folded, map[*jsonschema.Schema]*expr{}
	before := slices.Clone(p.claims)
	e, ok := p.row(r.schema)
	if !ok {
		p.claims = before
	}
	return e, ok
}

// row makes an expression of a schema that rows are held against.
func (p *planner) row(s *jsonschema.Schema) (*expr, bool) {
	if e, met := p.known[s]; met {
		return e, e != nil
	}
	if s.Always != nil { // the word true or false, beside which the library looks at nothing
		return &expr{never: !*s.Always}, true
	}
	p.known[s] = nil
	if !only(s, "Types", "Required", "Properties", "AdditionalProperties", "DependentRequired",
		"Ref", "AllOf", "AnyOf", "OneOf", "Not", "If", "Then", "Else") {
		return nil, false
	}
	e := &expr{never: len(s.Types) > 0 && !slices.Contains(s.Types, "object")}
	if p.fill(e, s); !p.cells(e, s) || !p.parts(e, s) {
		return nil, false
	}
	p.known[s] = e
	return e, true
}

// fill notes the columns that must be filled.
func (p *planner) fill(e *expr, s *jsonschema.Schema) {
	var all bool
	if e.filled, all = p.mask(s.Required); !all {
		e.never = true // the sheet has no such column
	}
	for name, wanted := range s.DependentRequired {
		column, ok := p.index[name]
		if !ok {
			continue
		}
		if filled, all := p.mask(wanted); all {
			e.since = append(e.since, since{column, filled})
		} else {
			e.blank = p.with(e.blank, column) // what it wants cannot be filled
		}
	}
}

// mask gives the columns of these names, and whether the sheet has them all.
func (p *planner) mask(names []string) (m mask, all bool) {
	all = true
	for _, name := range names {
		if column, ok := p.index[name]; ok {
			m = p.with(m, column)
		} else {
			all = false
		}
	}
	return m, all
}

func (p *planner) with(m mask, column int) mask {
	if m == nil {
		m = newMask(len(p.names))
	}
	m.set(column)
	return m
}

// cells notes what a schema wants of the cells of each column.
func (p *planner) cells(e *expr, s *jsonschema.Schema) bool {
	further, _ := s.AdditionalProperties.(*jsonschema.Schema)
	for column, name := range p.names {
		cell, named := s.Properties[name]
		if !named {
			if s.AdditionalProperties == false {
				e.blank = p.with(e.blank, column)
			}
			cell = further
		}
		if cell == nil || cell.Always != nil && *cell.Always {
			continue
		}
		bit, ok := p.claim(column, cell)
		if !ok {
			return false
		}
		e.cells = append(e.cells, claims{column, bit})
	}
	return true
}

// claim gives the bit of a column's verdicts that stands for a schema.
func (p *planner) claim(column int, s *jsonschema.Schema) (bit uint64, ok bool) {
	if !p.alone(s) {
		return 0, false
	}
	types, met := p.typed[s]
	if !met {
		types = only(s, "Types")
		p.typed[s] = types
	}
	c := claim{s, p.folded[p.names[column]], types}
	at := slices.Index(p.claims[column], c)
	if at < 0 {
		at = len(p.claims[column])
		p.claims[column] = append(slices.Clip(p.claims[column]), c)
	}
	return 1 << at, at < maxClaims
}

// alone tells whether what a schema says of a cell depends on nothing but its value: a
// dynamic reference (the dialect's own schemas have some) depends on the way to it.
func (p *planner) alone(s *jsonschema.Schema) bool {
	if s == nil {
		return true
	}
	if known, met := p.steady[s]; met {
		return known
	}
	p.steady[s] = false // while it is open: what leads back to itself decides nothing
	p.steady[s] = s.DynamicRef == nil && s.RecursiveRef == nil && s.ContentSchema == nil && len(s.Extensions) == 0 &&
		!slices.ContainsFunc(here(s), func(x *jsonschema.Schema) bool { return !p.alone(x) })
	return p.steady[s]
}

// parts notes the schemas that hold for the same row.
func (p *planner) parts(e *expr, s *jsonschema.Schema) bool {
	ok := true
	of := func(list ...*jsonschema.Schema) []*expr {
		var out []*expr
		for _, x := range list {
			if x == nil {
				continue
			}
			part, plain := p.row(x)
			ok = ok && plain
			out = append(out, part)
		}
		return out
	}
	one := func(s *jsonschema.Schema) *expr {
		if s == nil {
			return nil
		}
		return of(s)[0]
	}
	e.all = of(append([]*jsonschema.Schema{s.Ref}, s.AllOf...)...)
	e.some, e.one = of(s.AnyOf...), of(s.OneOf...)
	e.not, e.when, e.then, e.other = one(s.Not), one(s.If), one(s.Then), one(s.Else)
	return ok
}

// blank is what the library makes of a schema that says nothing.
func blank() *jsonschema.Schema {
	return &jsonschema.Schema{MinProperties: -1, MaxProperties: -1, MinItems: -1, MaxItems: -1, MinContains: 1, MaxContains: -1,
		MinLength: -1, MaxLength: -1, ContainsEval: true}
}

// only tells whether a schema says nothing but in these of the library's fields, so that
// a keyword that is not thought of here is never passed over. The fields that it does
// not show only help those that it does.
func only(s *jsonschema.Schema, fields ...string) bool {
	is, nothing := reflect.ValueOf(s).Elem(), reflect.ValueOf(blank()).Elem()
	for i := range is.NumField() {
		f := is.Type().Field(i)
		if !f.IsExported() || f.Name == "Location" || f.Name == "Draft" || slices.Contains(fields, f.Name) {
			continue
		}
		if !reflect.DeepEqual(is.Field(i).Interface(), nothing.Field(i).Interface()) {
			return false
		}
	}
	return true
}

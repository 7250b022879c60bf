package aid

import (
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// names is what the sheets of a catalogue declare and other sheets refer to.
type names struct {
	by     map[schema.Holds]*list
	sizes  list // the traits that are sizes
	traits map[string]*trait
}

// list is names that can be picked, in the order in which they are declared.
type list struct {
	head    string // above it in a sheet of lists
	names   []string
	seen    map[string]bool
	sources []source
}

// source is where some of them stand: a column of the sheet that declares them.
type source struct {
	table  *table.Table
	column int
	rows   []int32 // those that declare one, from top to bottom
	names  int     // different ones
}

// trait is the list of a trait's values.
type trait struct {
	list
	kind   string // folded, as its first row says it
	ragged bool   // its rows do not stand together, or say more than its values
	last   int32
}

// gather collects the names that tables declare.
func gather(tables []*table.Table) *names {
	n := &names{by: map[schema.Holds]*list{}, sizes: list{head: "Size traits"}, traits: map[string]*trait{}}
	for _, t := range tables {
		for i := range t.Columns {
			n.column(t, i)
		}
		if t.Kind == schema.Traits {
			n.takeTraits(t)
		}
	}
	return n
}

// years heads rows of Traits that tell how to read the model year, which is no trait.
const years = "years"

// column takes what a column declares.
func (n *names) column(t *table.Table, i int) {
	c, known := schema.Find(t.Kind, t.Columns[i].Name)
	if !known || !c.Declares || c.Holds.DeclaredBy() == "" || c.Holds == schema.HoldsValue {
		return
	}
	l, own := n.list(c.Holds), list{}
	s := source{table: t, column: i}
	for r := range t.Records {
		if f := under(&t.Records[r], i); f != nil && !f.Broken && (c.Holds != schema.HoldsTrait || word.Fold(f.Text) != years) {
			l.add(f.Text)
			own.add(f.Text)
			s.rows = append(s.rows, f.At.Row)
		}
	}
	s.names = len(own.names)
	if t.Kind == c.Holds.DeclaredBy() && c.Holds != schema.HoldsFamily && c.Holds != schema.HoldsTrait { // these stand in many rows each
		l.sources = append(l.sources, s)
	}
}

// list gives the list of what columns hold.
func (n *names) list(h schema.Holds) *list {
	if h == schema.HoldsCautions {
		h = schema.HoldsCaution
	}
	if h == schema.HoldsFits {
		h = schema.HoldsPart
	}
	if n.by[h] == nil {
		n.by[h] = &list{head: schema.Title(h.DeclaredBy())}
		if h == schema.HoldsFamily {
			n.by[h].head = "Families"
		}
	}
	return n.by[h]
}

// add adds a name, and tells whether it is new.
func (l *list) add(name string) bool {
	key := word.Fold(name)
	if key == "" || l.seen[key] {
		return false
	}
	if l.seen == nil {
		l.seen = map[string]bool{}
	}
	l.seen[key] = true
	l.names = append(l.names, name)
	return true
}

func under(r *table.Record, column int) *table.Field {
	for i := range r.Fields {
		if int(r.Fields[i].Column) == column {
			return &r.Fields[i]
		}
	}
	return nil
}

// find gives the index of a column, -1 for none.
func find(t *table.Table, name string) int {
	for i := range t.Columns {
		if word.Fold(t.Columns[i].Name) == word.Fold(name) {
			return i
		}
	}
	return -1
}

// takeTraits takes the values of traits, without the rows that hold texts for one platform alone.
func (n *names) takeTraits(t *table.Table) {
	name, value, kind, platform := find(t, "Trait"), find(t, "Value"), find(t, "Kind"), find(t, "Platform")
	for i := range t.Records {
		r := &t.Records[i]
		called, v, of := under(r, name), under(r, value), under(r, platform)
		if called == nil || called.Broken {
			continue
		}
		x := n.traitOf(called.Text)
		if of != nil || v == nil || v.Broken {
			x.ragged = x.ragged || of == nil || len(x.names) == 0
			continue
		}
		if k := under(r, kind); k != nil && x.kind == "" {
			x.kind = word.Fold(k.Text)
		}
		x.take(t, value, called, v)
		if x.kind == model.Size.String() {
			n.sizes.add(called.Text)
		}
	}
}

// take takes a value, and sees whether it stands below the one before.
func (x *trait) take(t *table.Table, column int, called, v *table.Field) {
	own := called.At.Row == v.At.Row && called.Text == x.head // one merged cell for several rows is counted once
	if len(x.sources) == 0 {
		x.sources = append(x.sources, source{table: t, column: column})
	} else if x.sources[0].table != t || v.At.Row != x.last+1 {
		x.ragged = true
	}
	fresh := x.add(v.Text)
	x.ragged = x.ragged || !own || !fresh
	x.last = v.At.Row
}

func (n *names) traitOf(name string) *trait {
	key := word.Fold(name)
	if n.traits[key] == nil {
		n.traits[key] = &trait{list: list{head: name}}
	}
	return n.traits[key]
}

// position tells whether a heading is the name of a position.
func (n *names) position(heading string) bool {
	l := n.by[schema.HoldsPosition]
	return l != nil && l.seen[word.Fold(heading)]
}

// noteOf tells whether a heading is that of the notes on a position.
func (n *names) noteOf(heading string) bool {
	of, ok := strings.CutSuffix(word.Fold(heading), " note")
	return ok && n.position(of)
}

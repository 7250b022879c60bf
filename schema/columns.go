package schema

import (
	"bytes"
	"encoding/json"
	"strconv"
	"sync"

	"ferrule/schema/word"
)

// Column is a column that a kind of sheet defines. All of it stands in the schema of its
// rows, with the property of its name.
type Column struct {
	Name     string
	Required bool // the header must hold it
	Holds    Holds
	Declares bool     // what it holds is declared by it; without, it is declared by another
	Words    []string // the only ones that it may hold, as they are folded; nil for others
	About    string   // what is written in it, in a sentence or two for the people who do
}

// Columns gives the columns of a kind of sheet, in the order in which the format page
// names them; none for a kind that is not known. The slices are shared: they are only read.
func Columns(kind string) []Column { return layoutOf(kind).columns }

// Find gives the column of a kind of sheet that is called so, names folded.
func Find(kind, name string) (Column, bool) {
	l := layoutOf(kind)
	c, ok := l.named[name] // as most ask: nothing is folded
	if !ok {
		c, ok = l.named[word.Fold(name)]
	}
	return c, ok
}

// Like is Find which also looks at the other kinds, in their order, where this one defines
// no such column: what people write under a further column of that name is much the same.
func Like(kind, name string) (Column, bool) {
	if c, ok := Find(kind, name); ok {
		return c, true
	}
	c, ok := rows().anywhere[word.Fold(name)]
	return c, ok
}

// Words gives the words that a column of a kind of sheet may hold, in the order in which
// the format page names them. The column must be there.
func Words(kind, column string) []string {
	c, ok := Find(kind, column)
	if !ok || c.Words == nil {
		panic("schema: Words: " + kind + " has no words under " + column)
	}
	return c.Words
}

// layout is what the schema of its rows says of a kind of sheet.
type layout struct {
	columns []Column
	named   map[string]Column // by name, as it is spelled and folded
	further Further
}

// catalogue is what the schemas of all kinds say.
type catalogue struct {
	kinds    map[string]*layout
	anywhere map[string]Column // the first of each name, as it is spelled and folded
}

var noLayout layout

func layoutOf(kind string) *layout {
	if s := rows().kinds[kind]; s != nil {
		return s
	}
	return &noLayout
}

// rows reads the schemas of rows when they are first asked for.
var rows = sync.OnceValue(func() *catalogue {
	c := &catalogue{map[string]*layout{}, map[string]Column{}}
	for _, kind := range append(Kinds(), Fleet) {
		s, err := readLayout(rowFile(kind))
		if err != nil {
			panic("schema: rows: " + kind + ": " + err.Error())
		}
		c.kinds[kind] = s
		for name, column := range s.named {
			if _, ok := c.anywhere[name]; !ok {
				c.anywhere[name] = column
			}
		}
	}
	return c
})

func readLayout(data []byte) (*layout, error) {
	var doc struct {
		Properties properties
		Further    []string `json:"x-further"`
	}
	if err := json.Unmarshal(data, &doc); err != nil {
		return nil, err
	}
	s := &layout{columns: doc.Properties, named: map[string]Column{}}
	for _, c := range s.columns {
		s.named[c.Name], s.named[word.Fold(c.Name)] = c, c
	}
	for _, what := range doc.Further {
		if err := s.further.add(what); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// properties are the columns of a sheet, in the order of its schema.
type properties []Column

// UnmarshalJSON reads an object by its tokens, since a map has no order.
func (p *properties) UnmarshalJSON(data []byte) error {
	d := json.NewDecoder(bytes.NewReader(data))
	if _, err := d.Token(); err != nil {
		return err
	}
	for d.More() {
		name, err := d.Token()
		if err != nil {
			return err
		}
		var c property
		if err := d.Decode(&c); err != nil {
			return err
		}
		text, _ := name.(string)
		*p = append(*p, Column{text, c.Header, c.Holds, c.Declares, c.words(), c.About})
	}
	return nil
}

// property is what a schema says of one column.
type property struct {
	Holds    Holds  `json:"x-holds"`
	Declares bool   `json:"x-declares"`
	Header   bool   `json:"x-header"`
	About    string `json:"x-about"`
	Enum     []string
	Minimum  int
	Maximum  int
}

// words gives the words that a schema lists, or the numbers between two near bounds.
func (p *property) words() []string {
	if p.Holds != HoldsEffort {
		return p.Enum
	}
	var out []string
	for n := p.Minimum; n <= p.Maximum; n++ {
		out = append(out, strconv.Itoa(n))
	}
	return out
}

package schema

import (
	"slices"
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v5"

	"ferrule/schema/word"
)

// column gives verdicts about the cells of one column: a bit for each claim that holds.
type column struct {
	claims []claim
	alike  [forms]uint64 // the claims that all values of a form, or none, meet
	same   [forms]uint64 // those of them that they meet
	texts  map[string]uint64
	others map[Value]uint64
	room   int       // how many more verdicts are kept
	recent []verdict // those that were met last on values with a tag, by the tag's end
}

// verdict is the claims that a value with a tag meets.
type verdict struct {
	form form // isBlank: there is none yet
	tag  int32
	held uint64
}

// remembered is how many verdicts a column has at hand, which takes no more than a
// comparison, where the maps take a digest of the value.
const remembered = 32

// The verdicts that are kept: on so many values of one column, on so many of a sheet,
// and on texts of so many bytes. Beyond them the schemas are asked each time.
const (
	maxKept     = 4096
	maxKeptAll  = 1 << 17
	maxKeptText = 128
)

// newColumn makes one of the columns of a sheet.
func newColumn(claims []claim, columns int) column {
	c := column{claims: claims, room: min(maxKept, maxKeptAll/columns)}
	for _, v := range []Value{Text(""), Number(0.5), Bool(true)} {
		for i, claim := range claims {
			if !claim.alike(v.form) {
				continue
			}
			if holds, ok := claim.ask(v); ok {
				c.alike[v.form] |= 1 << i
				c.same[v.form] |= bit(holds) << i
			}
		}
	}
	return c
}

func bit(is bool) uint64 {
	if is {
		return 1
	}
	return 0
}

// verdict gives the claims that hold; not ok where no verdict can be had. Numbers that
// the library would panic on are not shown to it.
func (c *column) verdict(v Value) (held uint64, ok bool) {
	switch {
	case v.form == isNumber && !finite(v.number):
		return 0, false
	case c.alike[v.form] == 1<<len(c.claims)-1:
		return c.same[v.form], true
	}
	tag, ok := v.tag()
	if !ok {
		return c.kept(v)
	}
	if c.recent == nil {
		c.recent = make([]verdict, remembered)
	}
	last := &c.recent[uint32(tag)%remembered]
	if last.form == v.form && last.tag == tag {
		return last.held, true
	}
	if held, ok = c.kept(v); ok {
		*last = verdict{v.form, tag, held}
	}
	return held, ok
}

// kept is verdict by the maps.
func (c *column) kept(v Value) (held uint64, ok bool) {
	if v.form == isText {
		held, ok = c.texts[v.text]
	} else {
		held, ok = c.others[v]
	}
	if ok {
		return held, true
	}
	if held, ok = c.ask(v); ok {
		c.keep(v, held)
	}
	return held, ok
}

func (c *column) ask(v Value) (held uint64, ok bool) {
	held = c.same[v.form]
	for i, claim := range c.claims {
		if c.alike[v.form]>>i&1 == 1 {
			continue
		}
		holds, ok := claim.ask(v)
		if !ok {
			return 0, false
		}
		held |= bit(holds) << i
	}
	return held, true
}

func (c *column) keep(v Value, held uint64) {
	if c.room == 0 || len(v.text) > maxKeptText {
		return
	}
	c.room--
	if v.form != isText {
		if c.others == nil {
			c.others = map[Value]uint64{}
		}
		c.others[v] = held
		return
	}
	if c.texts == nil {
		c.texts = map[string]uint64{}
	}
	c.texts[strings.Clone(v.text)] = held // the text may be a part of something large
}

// claim is a schema that the values of a column are held against.
type claim struct {
	schema *jsonschema.Schema
	fold   bool // texts are folded first
	types  bool // it speaks of types and nothing else
}

// alike tells whether all values of a form, or none, meet a claim: it is about types
// alone, and whole numbers are not told from others.
func (c claim) alike(f form) bool {
	types := c.schema.Types
	return c.types && (f != isNumber || !slices.Contains(types, "integer") || slices.Contains(types, "number"))
}

// ask asks the library. What that cannot do, or panics on, is no answer: under a not it
// would count as a rule that is met.
func (c claim) ask(v Value) (holds, ok bool) {
	defer func() {
		if recover() != nil {
			holds, ok = false, false
		}
	}()
	value := v.plain()
	if c.fold && v.form == isText {
		value = word.Fold(v.text)
	}
	err := c.schema.Validate(value)
	if err == nil {
		return true, true
	}
	_, ok = errorAs[*jsonschema.ValidationError](err)
	return false, ok
}

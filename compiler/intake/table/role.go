package table

import (
	"strings"

	"ferrule/schema"
)

// role is what the values of a column are, as far as a value's own kind can tell that
// it is not what was typed.
type role uint8

const (
	code     role = iota // numbers of parts, alone or in a fitment cell
	name                 // other names
	value                // what stands under a trait or a position: a name, a size, a part
	size                 // a size
	years                // model years
	amount               // a number
	day                  // a date
	prose                // sentences
	property             // anything: what a catalogue keeps of its parts
)

// named tells whether the text must match another one.
func (r role) named() bool { return r <= years }

// roleOf gives the role of a column on a kind of sheet.
func roleOf(kind string, c Column) role {
	if !c.Known {
		return further(kind, c)
	}
	own, _ := schema.Find(kind, c.Name)
	switch own.Holds {
	case schema.HoldsPart, schema.HoldsNumber, schema.HoldsFits:
		return code
	case schema.HoldsYears:
		return years
	case schema.HoldsMeasured:
		return size
	case schema.HoldsQuantity, schema.HoldsPrecedence, schema.HoldsEffort, schema.HoldsOrder, schema.HoldsVehicles:
		return amount
	case schema.HoldsDate:
		return day
	case schema.HoldsSentence, schema.HoldsSource, schema.HoldsMaker, schema.HoldsPicture, schema.HoldsSetting:
		return prose
	case schema.HoldsFormula, schema.HoldsValue:
		return value
	}
	return name
}

// further gives the role of a column that the layout does not define.
func further(kind string, c Column) role {
	measured, is := c.Unit != "", schema.FurtherOf(kind)
	switch {
	case is.Traits && !is.Facts && measured:
		return size
	case is.Positions && strings.HasSuffix(strings.ToLower(c.Name), " note"):
		return prose
	case is.Traits && !measured:
		return value
	case measured:
		return amount
	}
	return property
}

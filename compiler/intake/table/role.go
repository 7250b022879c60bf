package table

import "strings"

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
	switch c.Name {
	case "Part", "Kit", "Number", "With", "Replaced by", "Fits":
		return code
	case "Years":
		return years
	case "Line size", "Nominal", "Outside diameter", "Tolerance", "Wall":
		return size
	case "Quantity", "Precedence", "Effort", "On the road":
		return amount
	case "Until":
		return day
	case "Name", "Maker", "Summary", "How to tell", "Question", "Picture", "Note", "Source",
		"Reason", "By", "Message", "Text":
		if kind == "calculated" && c.Name == "Name" {
			return name
		}
		return prose
	case "Left", "Right", "Formula":
		return value
	case "Value":
		if kind == "settings" {
			return prose
		}
		return value
	}
	return name
}

// further gives the role of a column that the layout does not define.
func further(kind string, c Column) role {
	measured := c.Unit != ""
	switch kind {
	case "vehicles", "positions", "fitment", "compatibility", "accepted":
		switch {
		case measured:
			return size
		case kind == "fitment" && strings.HasSuffix(strings.ToLower(c.Name), " note"):
			return prose
		}
		return value
	case "facts":
		if !measured {
			return value
		}
	}
	if measured {
		return amount
	}
	return property
}

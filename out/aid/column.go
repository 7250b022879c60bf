package aid

import (
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// column is what is known of a column.
type column struct {
	about string
	fixed []string // the only words that it takes; nil for others
	offer *list    // names that can be picked; nil for none
	trait *trait   // whose list that is, nil for none
}

// about gives what is known of a column. Of one that means nothing on its sheet nothing is.
func (n *names) about(t *table.Table, c *table.Column) column {
	own, known := schema.Find(t.Kind, c.Name)
	if !known {
		return n.further(t.Kind, c.Name)
	}
	out := column{about: own.About, fixed: own.Words}
	switch own.Holds {
	case schema.HoldsTrait:
		if out.offer = n.list(own.Holds); t.Kind == schema.Positions {
			out.offer = &n.sizes
		}
	case schema.HoldsPlatform, schema.HoldsPosition, schema.HoldsPart, schema.HoldsFits, schema.HoldsFamily, schema.HoldsCautions:
		out.offer = n.list(own.Holds)
	}
	if own.Declares {
		out.offer = nil
	}
	return out
}

// further is about for a column that the kind of sheet does not define.
func (n *names) further(kind, heading string) column {
	is := schema.FurtherOf(kind)
	x := n.traits[word.Fold(heading)]
	switch {
	case is.Positions && n.position(heading):
		return column{about: schema.MorePosition.About(), offer: n.list(schema.HoldsPart)}
	case is.Positions && n.noteOf(heading):
		return column{about: schema.MoreNote.About()}
	case is.Traits && x != nil:
		return x.column(kind)
	case is.Facts:
		return column{about: schema.MoreFact.About()}
	case is.Properties:
		return column{about: schema.MoreProperty.About()}
	}
	return column{}
}

// column is what is known of a column of the trait.
func (x *trait) column(kind string) column {
	more, line := schema.MoreChoice, false
	switch x.kind {
	case model.Ordered.String(), model.Size.String():
		more = schema.MoreOrdered
	case model.Serial.String():
		more, line = schema.MoreSerial, true
	case model.Date.String():
		more, line = schema.MoreDate, true
	}
	if kind == schema.Vehicles {
		more = schema.MoreVehicles
	}
	if line { // its value is all that there are
		return column{about: more.About()}
	}
	return column{about: more.About(), offer: &x.list, trait: x}
}

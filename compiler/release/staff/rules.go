package staff

import (
	"ferrule/compiler/model"
	"ferrule/compiler/wire"
)

// factRow is a Facts row.
type factRow struct {
	When       wire.When   `json:"when"`
	Precedence int         `json:"precedence"`
	Source     string      `json:"source,omitempty"`
	Facts      []factCell  `json:"facts"`
	Cell       *wire.Place `json:"cell,omitempty"`
}

type factCell struct {
	Fact  string      `json:"fact"`
	Text  string      `json:"text"`
	Value *wire.Value `json:"value,omitempty"`
	Cell  *wire.Place `json:"cell,omitempty"`
}

func factRowOf(r *model.FactRow) factRow {
	return factRow{wire.WhenOf(&r.When), r.Precedence, r.Source, wire.Each(r.Cells, factCellOf), wire.PlaceOf(r.At)}
}

func factCellOf(c *model.FactCell) factCell {
	return factCell{c.Fact.Name, c.Text, wire.ValueOf(c.Quantity), wire.PlaceOf(c.At)}
}

// limit is a Limits row.
type limit struct {
	Limit    string      `json:"limit"`
	Position string      `json:"position,omitempty"`
	Family   string      `json:"family,omitempty"`
	Left     string      `json:"left"`
	MustBe   string      `json:"must_be"`
	Right    string      `json:"right"`
	Effect   string      `json:"effect"`
	Message  string      `json:"message,omitempty"`
	Cell     *wire.Place `json:"cell,omitempty"`
}

func limitOf(l *model.Limit) limit {
	out := limit{l.Name, wire.PositionName(l.Position), l.Family, l.Left, l.Must, l.Right, "error", l.Message, wire.PlaceOf(l.At)}
	if l.Warning {
		out.Effect = "warning"
	}
	return out
}

// calculated is a Calculated row.
type calculated struct {
	Name    string      `json:"name"`
	Unit    string      `json:"unit,omitempty"` // left out for plain numbers
	Formula string      `json:"formula"`
	Family  string      `json:"family,omitempty"`
	Source  string      `json:"source,omitempty"`
	Note    string      `json:"note,omitempty"`
	Cell    *wire.Place `json:"cell,omitempty"`
}

func calculatedOf(c *model.Calculated) calculated {
	return calculated{c.Figure.Name, c.Unit.String(), c.Text, c.Family, c.Source, c.Note, wire.PlaceOf(c.At)}
}

// calculatedRows gives the rows of the Calculated sheets, value by value.
func calculatedRows(c *model.Catalogue) []*model.Calculated {
	var out []*model.Calculated
	for _, f := range c.Figures {
		out = append(out, f.Computed...)
	}
	return out
}

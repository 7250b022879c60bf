package propose

import (
	"fmt"

	"ferrule/compiler/propose/shape"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// splitParts writes how several parts of a cell are parted. Whether they are a choice, go together, or
// are a left and a right one stands nowhere, so it is remarked.
func (r *reading) splitParts(where string, c *column) {
	signs := map[string][]shape.Value{}
	for _, v := range c.Values {
		if sign, parts := shape.Separate(v.Text); len(parts) > 1 {
			signs[sign] = append(signs[sign], v)
		}
	}
	for _, sign := range []string{"", ";", "/", ",", "&", "+", "or", "and"} {
		values := signs[sign]
		if len(values) == 0 {
			continue
		}
		as, means := "or", "one or the other, the first preferred"
		if sign == "&" || sign == "+" || sign == "and" {
			as, means = "+", "both together"
		}
		if c.role == PartNo && r.across == nil && r.place.where != "" && as == "or" && r.place.sure != Certain {
			means += ", at the place of the row"
		}
		spelled := word.Quote(sign)
		if sign == "" {
			spelled = "line break"
		}
		r.rule("split", where+" "+spelled, as, Unsure, counted(len(values), "cell holds", "cells hold")+" several part numbers")
		var cells []cell.Pos
		for _, v := range values {
			cells = append(cells, v.At)
		}
		r.remark(cells, trimmed(values[0].Text), fmt.Sprintf("read as %s; nothing on the sheet says so", means),
			`in the row split of Layouts: "or" for a choice, "+" for both together, "each" for a row for each; a left and a right one need two columns`)
	}
}

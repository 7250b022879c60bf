package layout

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
)

// joinedParts writes what is marked together at one place into one record; where nobody says
// how it goes together, that is told.
func (g *reading) joinedParts() {
	for _, n := range slices.Sorted(maps.Keys(g.grid.more)) {
		g.joinAt(g.grid.more[n])
	}
}

func (g *reading) joinAt(all []member) {
	records := g.maker.Table().Records
	var texts []string
	var marked []member // of each part the first
	for _, m := range all {
		if t := records[m.record].Fields[0].Text; !slices.Contains(texts, t) {
			texts, marked = append(texts, t), append(marked, m)
		}
	}
	if len(texts) == 1 {
		return // one part that is marked twice
	}
	with := g.joined(marked[0].sign, marked[1].sign)
	for _, m := range marked[1:] {
		if w := g.joined(marked[0].sign, m.sign); w != with {
			with = ""
		}
	}
	first := &records[marked[0].record]
	switch {
	case with == "":
		g.several(marked, texts)
		first.Fields[0].Broken = true
	case len(texts) > maxJoined:
		g.fault("joined", first.Fields[0].At, g.by[g.cellsAt], table.Several, fmt.Sprintf("more than %d parts are marked at one place", maxJoined), "mark fewer of them, or read the sheet by several rows table")
		first.Fields[0].Broken = true
	default:
		first.Fields[0] = g.maker.Field(g.cellsAt, value(strings.Join(texts, " "+with+" ")), first.Fields[0].At)
		for _, m := range marked[1:] {
			g.bring(first, &records[m.record])
		}
	}
	for _, m := range all {
		if m.record != marked[0].record {
			records[m.record].Fields = nil
		}
	}
}

// maxJoined bounds how many parts are joined at one place.
const maxJoined = 200

// bring adds the note of one record to another.
func (g *reading) bring(to, from *table.Record) {
	if g.notes < 0 {
		return
	}
	for _, f := range from.Fields {
		if int(f.Column) != g.notes {
			continue
		}
		for i := range to.Fields {
			if n := &to.Fields[i]; int(n.Column) == g.notes {
				if !strings.Contains(n.Text, f.Text) {
					n.Text, n.Shared = n.Text+"\n"+f.Text, 0
				}
				return
			}
		}
		to.Fields = g.ordered(append(slices.Clip(to.Fields), f))
		return
	}
}

// several tells of parts that are marked at one place of one vehicle.
func (g *reading) several(all []member, texts []string) {
	t := g.maker.Table()
	f := &table.Fault{What: table.Several}
	var signs []string
	for _, m := range all {
		if at := t.Place(t.Records[m.record].Fields[0].At); len(f.Cells) < mostCells && !slices.Contains(f.Cells, at) {
			f.Cells, f.Notes = append(f.Cells, at), append(f.Notes, "")
		}
		if m.sign != nil && !slices.Contains(signs, m.sign.sign) {
			signs = append(signs, m.sign.sign)
		}
	}
	for i := range texts {
		texts[i] = table.Short(texts[i])
	}
	which := word.List(texts[:min(len(texts), 6)], "and")
	if len(texts) > 6 {
		which = strings.Join(texts[:6], ", ") + " and others"
	}
	f.Message = fmt.Sprintf("%d parts are marked at one place of one vehicle (%s): %s; whether one of them fits or all together is not said", len(texts), which, g.vehicle(&t.Records[all[0].record]))
	f.Constant = fmt.Sprintf("several parts are marked at one place of one vehicle: %s (%s)", which, g.vehicle(&t.Records[all[0].record]))
	x := "the mark"
	if len(signs) > 0 {
		x = word.Quote(signs[0])
	}
	f.Fix = fmt.Sprintf("write a row mark with %s under Where and or under As (one of them, in their order), or + (all of them together); or give each a mark with its condition", x)
	by := g.by[g.cellsAt]
	if len(all) > 0 && all[0].sign != nil {
		by = all[0].sign.row.WhereAt
	}
	f.Cells, f.Notes = append(f.Cells, by), append(f.Notes, "the row of Layouts that declares the mark")
	g.r.report(f)
}

// vehicle writes the conditions of a record.
func (g *reading) vehicle(rec *table.Record) string {
	var out []string
	for _, f := range rec.Fields[1:] {
		if c := &g.columns[f.Column]; g.condition(c.Name) {
			out = append(out, c.Name+" "+table.Short(f.Text))
		}
	}
	return strings.Join(out, ", ")
}

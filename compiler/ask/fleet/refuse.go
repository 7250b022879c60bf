package fleet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/finding"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// end takes over what was read of all sheets: rows that can be read, and what is wrong with others.
func (r *reader) end() {
	f := r.f
	for _, s := range r.sheets {
		r.headings(s)
		at := r.carried(s)
		for i := range s.rows {
			r.row(s, &s.rows[i], at)
		}
	}
	for _, w := range r.told {
		if r.used[w] || r.aside(w) {
			continue
		}
		ref := Refused{What: w.Message, Nearest: w.Fix}
		if len(w.Cells) > 0 && w.Cells[0].Sheet != nil {
			ref.At = At{w.Cells[0].Sheet.Name, w.Cells[0].Pos.Row}
		}
		f.Remarks = append(f.Remarks, ref)
	}
}

// aside tells whether a finding is about cells below the heading of a column that is carried along.
func (r *reader) aside(f *finding.Finding) bool {
	if len(f.Cells) == 0 {
		return false
	}
	at := f.Cells[0].Place
	for _, s := range r.sheets {
		for i := range s.columns {
			head := s.table.Place(s.table.Columns[i].At)
			if s.columns[i].carried && s.table.Sheet == at.Sheet && head.Pos.Col == at.Pos.Col && at.Pos.Row > head.Pos.Row {
				return true
			}
		}
	}
	return false
}

// carried gives for each column of a sheet that is carried along its number among those of all.
func (r *reader) carried(s *sheetRows) []int {
	var at []int
	for i := range s.columns {
		if !s.columns[i].carried {
			continue
		}
		name := s.table.Columns[i].Name
		k := slices.IndexFunc(r.f.Carried, func(c string) bool { return word.Fold(c) == word.Fold(name) })
		if k < 0 {
			k = len(r.f.Carried)
			r.f.Carried = append(r.f.Carried, name)
		}
		at = append(at, k)
	}
	return at
}

// headings tells of headings that may have been meant as conditions.
func (r *reader) headings(s *sheetRows) {
	var known []string
	for _, t := range r.f.cat.Traits {
		known = append(known, t.Name)
	}
	known = append(known, "Platform", "Years", "Quantity")
	for i := range s.columns {
		c, head := &s.columns[i], &s.table.Columns[i]
		if !c.carried {
			continue
		}
		ref := Refused{At: At{s.table.Sheet.Name, s.table.Place(head.At).Pos.Row}, What: fmt.Sprintf("the column %q is carried along, and nothing is read from it", head.Name)}
		switch near := word.Sole(head.Name, known); {
		case c.unclear != "":
			ref.Nearest = c.unclear
		case near != "":
			ref.Nearest = "did you mean " + near + "?"
		case slices.Contains([]string{"qty", "qty.", "count", "number of vehicles", "no. of vehicles", schema.Vehicles, "how many", "pcs"}, word.Fold(head.Name)):
			ref.Nearest = "call it Quantity if it says how many vehicles there are"
		default:
			continue
		}
		r.f.Remarks = append(r.f.Remarks, ref)
	}
}

// row takes over a row.
func (r *reader) row(s *sheetRows, raw *rawRow, at []int) {
	out := Row{At: At{s.table.Sheet.Name, raw.row}, Carried: make([]string, len(r.f.Carried)), group: raw.group}
	for i, text := range raw.carried {
		out.Carried[at[i]] = text
	}
	ref := Refused{At: out.At, Says: says(raw.group.told), Carried: out.Carried}
	refuse := func(what, nearest string) {
		ref.What, ref.Nearest = what, nearest
		r.f.Refused = append(r.f.Refused, ref)
	}
	told := slices.ContainsFunc(raw.broken, func(p cell.Place) bool { return r.faults[p] != nil })
	for _, place := range raw.broken {
		if !told || r.faults[place] != nil { // of a row that is broken as a whole one cell is told
			refuse(r.fault(place))
		}
	}
	for _, w := range raw.group.wrong {
		if len(raw.broken) > 0 && w.Text == "" {
			continue // what is missing may be what cannot be read
		}
		refuse(parted(w.Why))
	}
	var why string
	if out.Quantity, why = quantity(raw.quantity); why != "" {
		refuse(parted(why))
	}
	if ref.What != "" {
		return
	}
	g := raw.group
	if g.count == 0 {
		r.f.groups = append(r.f.groups, g)
	}
	g.count += out.Quantity
	r.f.Rows = append(r.f.Rows, out)
}

// fault gives what was told of a cell that cannot be used.
func (r *reader) fault(at cell.Place) (what, nearest string) {
	var f *finding.Finding
	if f = r.faults[at]; f == nil {
		return at.Pos.String() + " holds nothing that can be read", "type it again"
	}
	r.used[f] = true
	return fmt.Sprintf("%s: %s", at.Pos, f.Message), f.Fix
}

// quantity reads how many vehicles a row stands for; why is a sentence where it says no number.
func quantity(text string) (n int64, why string) {
	if text == "" {
		return 1, ""
	}
	n, err := strconv.ParseInt(text, 10, 64)
	switch {
	case err != nil:
		return 0, fmt.Sprintf("%q under Quantity is no whole number; write how many such vehicles there are, or nothing for one", text)
	case n == 0:
		return 0, "0 stands under Quantity; write how many such vehicles there are, or leave the row out"
	case n < 0 || n > maxQuantity:
		return 0, fmt.Sprintf("%s under Quantity is no number of vehicles; write one from 1 to %d", text, maxQuantity)
	}
	return n, ""
}

// parted cuts a sentence into what is wrong and what to write.
func parted(why string) (what, nearest string) {
	what, nearest, _ = strings.Cut(why, "; ")
	return what, nearest
}

// says gives what was told of a vehicle.
func says(told []pick.Told) string {
	var words []string
	for _, t := range told {
		switch {
		case t.Trait != nil:
			words = append(words, t.Trait.Name+" "+t.Text)
		default:
			words = append(words, t.Text)
		}
	}
	return strings.Join(words, ", ")
}

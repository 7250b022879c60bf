package sorted

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// leastBare is how many rows must be left bare: one comes of a cell that someone cleared.
const leastBare = 2

// A column that leaves no row bare is told of only where it has so many cells and different
// texts, so that the order is no chance, and so many of its cells are wrong, of so many parts.
const (
	leastCells  = 6
	leastValues = 4
	leastWrong  = 3
	leastParts  = 2
)

// wrong holds the codes that say that a part cannot be where it stands.
var wrong = map[finding.Code]bool{finding.LineSizeMismatch: true, finding.PartForbidden: true, finding.PartOutOfPlace: true, finding.FitmentConflict: true}

// sheet is what has been found in one Fitment sheet.
type sheet struct {
	rows      []*model.Fitment
	at        map[int32]*model.Fitment // by row
	gaps      []*model.Position        // without an answer on some vehicles of its platforms
	conflicts [][2]*model.Fitment
	wrong     map[cell.Place]string // cells that hold what cannot be there, with the part
	lost      []*model.Fitment      // rows that match no vehicle, or hold what cannot be there
}

// fitment tells of the columns of one sheet, at most of one: where several are in order,
// those that may be it are named.
func (l *look) fitment(columns []*Column) *finding.Finding {
	s := l.sheet(columns[0].Cells[0].Sheet)
	for _, c := range columns {
		if why := s.moved(c); why != "" {
			f := told(c, why)
			l.owe(f, l.at[c.Cells[0].Sheet], func(o *finding.Finding) bool { return wrong[o.Code] && slices.Contains(c.Cells, o.Cells[0].Place) })
			return f
		}
	}
	var may []*Column
	for _, c := range columns {
		if l.condition(c) && len(c.Cells) < c.Rows && s.loosened(c) {
			may = append(may, c)
		}
	}
	if likely := slices.DeleteFunc(slices.Clone(may), func(c *Column) bool { return !l.matters(c, s) }); len(likely) > 0 {
		may = likely
	}
	if len(may) == 0 {
		return nil
	}
	f := oneOf(may)
	l.owe(f, l.at[columns[0].Cells[0].Sheet], func(o *finding.Finding) bool { return wrong[o.Code] || o.Code == finding.RowUnreachable })
	return f
}

// condition tells whether a column states vehicles.
func (l *look) condition(c *Column) bool {
	return c.Name == "Years" || l.traits[word.Fold(c.Name)] != nil
}

// matters tells whether rows of other sheets name the trait where they are about a position
// of which rows of this one disagree.
func (l *look) matters(c *Column, s *sheet) bool {
	t := l.traits[word.Fold(c.Name)]
	if t == nil {
		return false
	}
	return slices.ContainsFunc(l.cat.Fitments, func(f *model.Fitment) bool {
		return f.At.Sheet != c.Cells[0].Sheet && on(&f.When, t) != nil && slices.ContainsFunc(f.Cells, func(fc *model.FitCell) bool {
			return slices.ContainsFunc(s.conflicts, func(p [2]*model.Fitment) bool { return about(p[0], fc.Position) && about(p[1], fc.Position) })
		})
	})
}

func about(r *model.Fitment, p *model.Position) bool {
	return slices.ContainsFunc(r.Cells, func(c *model.FitCell) bool { return c.Position == p })
}

// oneOf tells that one of some columns of conditions was sorted.
func oneOf(may []*Column) *finding.Finding {
	const why = "rows of the sheet disagree, and miss vehicles or meet the wrong ones, in a way that no single row explains"
	f := told(may[0], why)
	if len(may) == 1 {
		return f
	}
	var names []string
	f.Cells = nil
	for _, c := range may {
		names = append(names, c.Name)
		f.Cells = append(f.Cells, ends(c)...)
	}
	f.Message = fmt.Sprintf("%s are each in order at the top and blank in all rows below, and %s", model.List(names, "and"), why)
	f.Fix = "look which of the columns was sorted without the others, and copy it again from where it was right"
	return f
}

// sheet gathers what has been found in a sheet.
func (l *look) sheet(of *cell.Sheet) *sheet {
	s := &sheet{rows: l.rows[of], at: map[int32]*model.Fitment{}, wrong: map[cell.Place]string{}}
	places, seen := map[string]*model.Position{}, map[*model.Platform]bool{}
	var platforms []*model.Platform
	for _, r := range s.rows {
		s.at[r.Row] = r
		for _, p := range r.When.Platforms {
			if !seen[p] {
				seen[p] = true
				platforms = append(platforms, p)
			}
		}
		for _, c := range r.Cells {
			places[c.Position.Name] = c.Position
		}
	}
	for _, on := range platforms {
		for _, f := range l.gaps[on.Name] {
			if p := places[f.Position]; p != nil && !slices.Contains(s.gaps, p) {
				s.gaps = append(s.gaps, p)
			}
		}
	}
	for _, f := range l.at[of] {
		s.keep(of, f)
	}
	return s
}

// keep notes what is told of cells of the sheet.
func (s *sheet) keep(of *cell.Sheet, f *finding.Finding) {
	first := f.Cells[0].Place
	a := s.at[first.Pos.Row]
	if a != nil && (f.Code == finding.RowUnreachable || f.Severity == finding.Error && wrong[f.Code] && f.Code != finding.FitmentConflict) {
		s.lost = append(s.lost, a)
	}
	if f.Severity < finding.Error || !wrong[f.Code] {
		return
	}
	s.wrong[first] = f.Part
	if f.Code != finding.FitmentConflict || len(f.Cells) < 2 || f.Cells[1].Sheet != of {
		return
	}
	if b := s.at[f.Cells[1].Pos.Row]; a != nil && b != nil {
		s.conflicts = append(s.conflicts, [2]*model.Fitment{a, b})
	}
}

// moved says what tells that a column of parts was sorted alone; "" where nothing does.
func (s *sheet) moved(c *Column) string {
	for _, p := range s.gaps {
		if c.Bare >= leastBare && len(c.Cells) < c.Rows && word.Fold(p.Name) == word.Fold(c.Name) {
			return fmt.Sprintf("%d rows of the sheet fit nothing anywhere, while vehicles have no answer at %s", c.Bare, p.Name)
		}
	}
	n, parts := 0, map[string]bool{}
	for _, at := range c.Cells {
		if part, ok := s.wrong[at]; ok && s.says(at) {
			n++
			parts[part] = true
		}
	}
	if len(c.Cells) < leastCells || c.Values < leastValues || n < leastWrong || len(parts) < leastParts {
		return ""
	}
	return fmt.Sprintf("%d of its parts stand where they cannot be", n)
}

// says tells whether a cell is one of a position.
func (s *sheet) says(at cell.Place) bool {
	r := s.at[at.Pos.Row]
	return r != nil && slices.ContainsFunc(r.Cells, func(c *model.FitCell) bool { return c.At == at })
}

// loosened tells whether rows below a column of conditions have lost what they said there, and
// rows beside it have got what they did not say: rows in which the column is blank disagree;
// positions are without an answer, or rows in which it is filled match no vehicle or hold what
// cannot be there; and no row is concerned in all of it.
func (s *sheet) loosened(c *Column) bool {
	last := c.Cells[len(c.Cells)-1].Pos.Row
	below := slices.ContainsFunc(s.conflicts, func(p [2]*model.Fitment) bool { return p[0].Row > last && p[1].Row > last })
	beside := slices.ContainsFunc(s.lost, func(r *model.Fitment) bool { return r.Row <= last })
	return below && (beside || len(s.gaps) > 0) && !slices.ContainsFunc(s.rows, s.explains)
}

// explains tells whether a row is concerned in all that is found in the sheet.
func (s *sheet) explains(r *model.Fitment) bool {
	return !slices.ContainsFunc(s.conflicts, func(p [2]*model.Fitment) bool { return p[0] != r && p[1] != r }) &&
		!slices.ContainsFunc(s.gaps, func(p *model.Position) bool { return !about(r, p) }) &&
		!slices.ContainsFunc(s.lost, func(o *model.Fitment) bool { return o != r })
}

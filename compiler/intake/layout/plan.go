package layout

import (
	"slices"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Plan says how sheets are read: the rows of Layouts that are about them, understood.
type Plan struct {
	pattern
	rows      []*Row
	pieces    []*piece
	met       map[*Row]bool // rows that did something on some sheet
	matter    bool          // some sheet was read by it
	tableless *table.Fault  // that no row says where its tables are, told where there is such a sheet; nil: one does
}

// First gives the place of the plan's first row.
func (p *Plan) First() cell.Place { return p.rows[0].SheetAt }

// Set is what the Layouts sheets of a catalogue say.
type Set struct{ Plans []*Plan }

// New understands rows of Layouts sheets. What cannot be understood is reported, and left out.
func New(rows []*Row, report func(*table.Fault)) *Set {
	s := &Set{}
	by := map[string]*Plan{}
	for _, r := range rows {
		if r.Sheet == "" || r.Word == "" {
			continue // its schema says that both are needed
		}
		key := word.Fold(r.Sheet)
		p := by[key]
		if p == nil {
			p = &Plan{pattern: patternOf(r.Sheet), met: map[*Row]bool{}}
			by[key] = p
			s.Plans = append(s.Plans, p)
		}
		if !p.copied(r) {
			p.rows = append(p.rows, r)
		}
	}
	for _, p := range s.Plans {
		(&author{Plan: p, report: report}).write()
	}
	return s
}

// copied tells whether another Layouts sheet has the row as well: a copy, which is told as that.
func (p *Plan) copied(r *Row) bool {
	return slices.ContainsFunc(p.rows, func(q *Row) bool {
		return q.SheetAt.Sheet != r.SheetAt.Sheet && q.Word == r.Word && q.Where == r.Where && q.As == r.As
	})
}

// For gives the plan of a sheet; nil where no row is about it. A name that is written out comes
// before a pattern, and of patterns the longest counts. Sheets of a known kind, and those that
// are left alone on purpose, are read by a plan that writes their name out.
func (s *Set) For(file, sheet string) *Plan {
	kind, native := schema.KindOf(sheet)
	if kind == schema.Layouts && native {
		return nil
	}
	var best *Plan
	for _, p := range s.Plans {
		if !p.about(file, sheet) || !p.exact() && (native || strings.HasPrefix(sheet, "_")) {
			continue
		}
		if best == nil || p.before(best) {
			best = p
		}
	}
	return best
}

// before tells whether a plan says more exactly which sheets are meant than another.
func (p *Plan) before(q *Plan) bool {
	if p.exact() != q.exact() {
		return p.exact()
	}
	if (p.file != "") != (q.file != "") {
		return p.file != ""
	}
	return len(p.sheet) > len(q.sheet)
}

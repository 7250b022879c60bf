package pick

import (
	"context"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

// Focus narrows what is explained; the zero Focus is everything.
type Focus struct {
	Position *model.Position
	Part     *model.Part
	// Reference says that the number told is another one of the part; nil: its own.
	Reference *model.Reference
}

// Focus reads the names of a position and a part, "" for none. Another number of a part
// (References) stands for it.
func (d *Lookup) Focus(position, part string) (f Focus, err error) {
	if position != "" {
		if f.Position, err = d.words.Position(position); err != nil {
			return f, err
		}
	}
	if part != "" {
		f.Part, f.Reference, err = d.words.AnyPart(part)
	}
	return f, err
}

// Why is a pick list with its reasons.
type Why struct {
	*List
	Focus   Focus
	Reasons []Reasons
}

// Reasons says why a position is as it is on the vehicles asked about.
type Reasons struct {
	*Position
	Cells  []Standing  // that match some of the vehicles: those that decide first
	Others []Candidate // parts that other rows offer at the position, or the one in focus
}

// Standing is how a fitment cell stands to the vehicles asked about.
type Standing struct {
	Cell      *model.FitCell
	Decides   []model.Box      // where it decides, alone or with others; none: nowhere
	Overruled []model.Box      // where it matches, and cells of a higher precedence decide
	By        []*model.FitCell // those cells
	Misses    []Miss           // where it matches none of the vehicles: why
	SetAside  bool             // its row names something unknown and matches nothing
}

// Miss is a column of a row that none of the vehicles meets. Where each column is met by
// some of them, and never all together, all are named.
type Miss struct {
	Column     string
	Asks, Have string // in the words of cells
}

// Candidate is a part that is not offered there.
type Candidate struct {
	Part *model.Part
	Rows []Standing // of the cells that offer it at the position
	// Against is what would be found if a cell offered it on these vehicles.
	Against []*finding.Finding
}

// Why gives the reasons behind the pick list of a query.
func (d *Lookup) Why(ctx context.Context, q *Query, focus Focus) (*Why, error) {
	l, err := d.List(ctx, q)
	if err != nil || l.Configurations.Sign() == 0 {
		return &Why{List: l, Focus: focus}, err
	}
	p, err := d.platform(q)
	if err != nil {
		return nil, err
	}
	w := &Why{List: l, Focus: focus}
	e := &explainer{vehicles: &vehicles{Platform: p}, desk: d, local: d.cat.Of(q.Platform), query: q, focus: focus}
	for i := range l.Positions {
		pos := &l.Positions[i]
		if focus.Position != nil && pos.Position != focus.Position {
			continue
		}
		r, err := e.reasons(ctx, pos)
		if err != nil {
			return nil, err
		}
		if !r.Exact || focus.Part == nil || focus.Position != nil || len(r.Others) > 0 || r.offers(focus.Part) {
			w.Reasons = append(w.Reasons, r)
		}
	}
	return w, nil
}

// offers tells whether a cell that matches offers the part.
func (r *Reasons) offers(part *model.Part) bool {
	return slices.ContainsFunc(r.Cells, func(s Standing) bool { return offersPart(s.Cell, part) })
}

func offersPart(c *model.FitCell, part *model.Part) bool {
	found := false
	c.Fits.Parts(func(p *model.Part) { found = found || p == part })
	return found
}

// explainer finds reasons on the vehicles asked about.
type explainer struct {
	*vehicles
	desk  *Lookup
	local *model.Catalogue // the rows about the platform
	query *Query
	focus Focus
}

// reasons explains one position. With a part in focus only cells that decide or offer it
// are looked at, those of all platforms; else those of the platform.
func (e *explainer) reasons(ctx context.Context, pos *Position) (Reasons, error) {
	out := Reasons{Position: pos}
	if !pos.Exact {
		return out, nil
	}
	defer e.Release(e.Mark())
	var standings []Standing
	err := e.Try(func() { standings, pos.Exact = e.standings(pos.Position) })
	if err != nil || !pos.Exact {
		pos.Exact = false
		return out, nil
	}
	for _, s := range standings {
		if s.matches() {
			out.Cells = append(out.Cells, s)
		}
	}
	missed := e.missed(standings)
	for _, p := range e.desk.cat.Parts {
		rows, ok := missed[p]
		if !ok || p != e.focus.Part && !named(p, rows) {
			continue
		}
		against, err := e.against(ctx, pos.Position, p)
		if err != nil {
			return out, err
		}
		out.Others = append(out.Others, Candidate{p, rows, against})
	}
	return out, nil
}

// missed gives the cells that offer parts which no cell that decides offers. A part in
// focus is among them also where no cell of the position offers it, if that is asked.
func (e *explainer) missed(standings []Standing) map[*model.Part][]Standing {
	out, offered := map[*model.Part][]Standing{}, map[*model.Part]bool{}
	for _, s := range standings {
		if len(s.Decides) > 0 {
			s.Cell.Fits.Parts(func(p *model.Part) { offered[p] = true })
		}
	}
	for _, s := range standings {
		s.Cell.Fits.Parts(func(p *model.Part) {
			if !offered[p] && (e.focus.Part == nil || p == e.focus.Part) {
				out[p] = append(out[p], s)
			}
		})
	}
	if p := e.focus.Part; p != nil && e.focus.Position != nil && !offered[p] && out[p] == nil {
		out[p] = []Standing{}
	}
	return out
}

// named tells whether a cell names the part itself, and not a kit that holds it.
func named(p *model.Part, rows []Standing) bool {
	return slices.ContainsFunc(rows, func(s Standing) bool {
		return slices.ContainsFunc(s.Cell.Fits.Alternatives, func(a model.Alternative) bool {
			return slices.ContainsFunc(a, func(i model.Item) bool { return i.Part == p })
		})
	})
}

// against tries the part on the vehicles, above all other cells, and gives what is
// found because of it.
func (e *explainer) against(ctx context.Context, pos *model.Position, part *model.Part) ([]*finding.Finding, error) {
	top := 0
	for _, f := range e.local.Fitments {
		top = max(top, f.Precedence+1)
	}
	row := &model.Fitment{When: e.query.When, Precedence: top, At: trial}
	item := model.Item{Part: part}
	if part.Kit() {
		item.Quantity = 1
	}
	row.Cells = []*model.FitCell{{Row: row, Position: pos, At: trial,
		Fits: &model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{{item}}}}}
	_, all, err := run(ctx, e.local.With(row), &e.query.When)
	var out []*finding.Finding
	tried := func(c finding.Cell) bool { return c.Place == trial }
	for _, f := range all {
		if telling(f) && slices.ContainsFunc(f.Cells, tried) {
			f.Cells = slices.DeleteFunc(f.Cells, tried)
			out = append(out, f)
		}
	}
	return out, err
}

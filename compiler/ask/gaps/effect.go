package gaps

import (
	"context"
	"math/big"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Effect is what further rows would change.
type Effect struct {
	Rows    []*Row
	Changes []Change // platforms as declared, then positions
	// Findings are what checks would say because of the rows, conflicts left out, which
	// the changes tell.
	Findings []*finding.Finding
}

// Change is what the rows would change at one position of one platform. Each
// configuration that a row matches, and that has the position, is in exactly one of the
// sets.
type Change struct {
	Platform *model.Platform
	Position *model.Position
	Exact    bool // false: too irregular, and nothing else is filled

	Before, After [model.Outcomes]Amount // of the position as a whole
	Matched       Amount

	Covered       Set // a gap before, and none after
	Conflicts     Set // cells disagree that did not before
	StillConflict Set // cells disagree, and did before
	Agrees        Set // a cell says the same already
	Replaces      Set // a cell of a lower precedence decided before, or several that disagreed
	Overruled     Set // a cell of a higher precedence decides

	Clashes []Clash
}

// Set is some of the vehicles that a row matches, in boxes.
type Set struct {
	Amount
	Where []model.Box // at most 1,000; none where the set is empty
	Rest  *big.Int    // configurations outside all boxes; nil for none
}

// Clash is a cell that would disagree with a row.
type Clash struct {
	Amount
	Row  *Row
	Cell *model.FitCell // of a sheet, or of another row that is tried
}

// If works out what the rows would change. The error is the context's.
func If(ctx context.Context, cat *model.Catalogue, rows []*Row) (*Effect, error) {
	e := &Effect{Rows: rows}
	var fitments []*model.Fitment
	for _, r := range rows {
		fitments = append(fitments, r.Cell.Row)
	}
	with := cat.With(fitments...)
	index := decide.NewIndex(with)
	var arena *space.Space
	for _, p := range cat.Platforms {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if slices.ContainsFunc(fitments, func(f *model.Fitment) bool { return f.When.Concerns(p) }) {
			arena = e.platform(index, p, arena)
		}
	}
	return e, e.check(ctx, with)
}

func (e *Effect) platform(index *decide.Index, m *model.Platform, arena *space.Space) *space.Space {
	p, err := decide.NewPlatform(index, m, arena, 0)
	for _, pos := range p.Cat.Positions {
		if !slices.ContainsFunc(e.Rows, func(r *Row) bool { return r.Cell.Position == pos }) {
			continue
		}
		c := Change{Platform: m, Position: pos}
		if err == nil {
			mark := p.Mark()
			err := p.Try(func() { e.change(p, &c) })
			p.Release(mark)
			if err != nil {
				c = Change{Platform: m, Position: pos}
			} else if c.Matched.Empty() {
				continue
			}
		}
		e.Changes = append(e.Changes, c)
	}
	return p.Space
}

// row gives the row of a cell that is tried, nil for a cell of a sheet.
func (e *Effect) row(c *model.FitCell) *Row {
	for _, r := range e.Rows {
		if r.Cell == c {
			return r
		}
	}
	return nil
}

// change compares a position with and without the rows. It runs inside Try.
func (e *Effect) change(p *decide.Platform, c *Change) {
	before := decide.Without(p, c.Position, func(f *model.FitCell) bool { return e.row(f) != nil })
	after := decide.NewMount(p, c.Position)
	for o := range model.Outcomes {
		c.Before[o], c.After[o] = amount(p, before.Outcome[o]), amount(p, after.Outcome[o])
	}
	matched, decides, joined := space.Empty, space.Empty, space.Empty
	for i := range after.Levels {
		level := &after.Levels[i]
		tried, others := space.Empty, space.Empty
		for _, f := range level.Cells {
			if e.row(f.FitCell) == nil {
				others = p.Union(others, after.Decides(level, f))
				continue
			}
			matched = p.Union(matched, p.Intersect(after.Exists, p.Box(f.Box)))
			tried = p.Union(tried, after.Decides(level, f))
		}
		decides, joined = p.Union(decides, tried), p.Union(joined, p.Intersect(tried, others))
	}
	c.Exact, c.Matched = true, amount(p, matched)
	was, is := before.Outcome[model.Conflict], p.Intersect(decides, after.Outcome[model.Conflict])
	gap := before.Outcome[model.Gap]
	calm := p.Minus(p.Minus(decides, is), gap)
	m := after.Mentioned()
	set := func(r space.Region) Set { return e.set(p, r, m) }
	c.Covered = set(p.Minus(p.Intersect(decides, gap), is))
	c.Conflicts, c.StillConflict = set(p.Minus(is, was)), set(p.Intersect(is, was))
	c.Agrees, c.Replaces = set(p.Intersect(calm, joined)), set(p.Minus(calm, joined))
	c.Overruled = set(p.Minus(matched, decides))
	e.clashes(after, c)
}

func (e *Effect) set(p *decide.Platform, r space.Region, m decide.Mention) Set {
	out := Set{Amount: amount(p, r)}
	if r == space.Empty {
		return out
	}
	boxes, rest := p.Describe(r, m, maxPieces)
	for _, b := range boxes {
		out.Where = append(out.Where, p.Words(b))
	}
	if rest != space.Empty {
		out.Rest = p.Count(rest)
	}
	return out
}

// clashes lists the cells with which a row would disagree.
func (e *Effect) clashes(after *decide.Mount, c *Change) {
	for i := range after.Levels {
		level := &after.Levels[i]
		for k, x := range level.Cells {
			for _, y := range level.Cells[k+1:] {
				tried, other := e.row(x.FitCell), y
				if tried == nil {
					tried, other = e.row(y.FitCell), x
				}
				if tried == nil {
					continue
				}
				if r := after.Disagree(level, x, y); r != space.Empty {
					c.Clashes = append(c.Clashes, Clash{amount(after.Platform, r), tried, other.FitCell})
				}
			}
		}
	}
	slices.SortStableFunc(c.Clashes, func(a, b Clash) int { return a.compare(b.Amount) })
}

// check runs the checks with the rows and keeps what they say of them.
func (e *Effect) check(ctx context.Context, with *model.Catalogue) error {
	within := &model.When{Platforms: []*model.Platform{}}
	for _, c := range e.Changes {
		if c.Exact && !slices.Contains(within.Platforms, c.Platform) {
			within.Platforms = append(within.Platforms, c.Platform)
		}
	}
	if len(within.Platforms) == 0 {
		return nil
	}
	// Cells of workbooks stand in a sheet with a name, those of rows that are tried do not.
	tried := func(c finding.Cell) bool { return c.Sheet != nil && c.Sheet.Name == "" }
	_, err := judge.Platforms(ctx, with, judge.Options{Ledger: accept.New(&model.Catalogue{}, ""), Use: accept.Use{}, Within: within},
		func(f *finding.Finding) {
			if f.Severity != finding.Note && f.Code != finding.FitmentConflict && slices.ContainsFunc(f.Cells, tried) {
				f.Cells = slices.DeleteFunc(f.Cells, tried)
				e.Findings = append(e.Findings, f)
			}
		})
	finding.Sort(e.Findings)
	return err
}

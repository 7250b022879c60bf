package decide

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// ComplaintUse is a row of Complaints with the vehicles of the platform that it is about, and
// with its places there. Rows of one complaint follow on each other in the order in which their places are
// looked at, and no two of them have one place of one vehicle: it is that of the row that comes first.
type ComplaintUse struct {
	Row    *model.Complaint
	Where  []model.Box // tight; empty: all of the platform
	Places []PlaceUse
}

// PlaceUse is a place of a complaint with the vehicles on which it is one.
type PlaceUse struct {
	Position *model.Position
	Where    []model.Box // tight; empty: all of the platform
}

// InspectionUse is a row of Inspections with the vehicles of the platform that it is about.
type InspectionUse struct {
	Row   *model.Inspection
	Where []model.Box // tight; empty: all of the platform
}

// Lead is where a row of Complaints leads to at one position.
type Lead struct {
	Row      *model.Complaint
	At       *Mount
	Where    space.Region // vehicles of the row of which the position is a place of it
	Answered space.Region // those of them where something fits, or a question says what to find out
}

// Leads gives where the rows of Complaints lead to: position by position, and at each row by
// row. A row with a Family leads to where a part of it is fitted, and where some vehicles get one also to
// where nobody knows yet what is. It runs inside Try.
func (p *Platform) Leads() []Lead {
	var out []Lead
	for _, pos := range p.Cat.Positions {
		var at *Mount
		for _, c := range p.Complaints {
			if !c.Asks(pos) || c.Family != "" && !p.offersFor(pos, c) {
				continue
			}
			if at == nil {
				at = NewMount(p, pos)
			}
			if l := at.lead(c); l.Where != space.Empty {
				out = append(out, l)
			}
		}
	}
	return out
}

// offersFor tells whether a fitment cell of the platform has a part there that a complaint is about.
func (p *Platform) offersFor(pos *model.Position, c *model.Complaint) bool {
	return slices.ContainsFunc(p.Cells(pos), func(cell *Cell) bool { return answers(cell.Fits, c) })
}

func answers(f *model.Fits, c *model.Complaint) bool {
	found := false
	f.Parts(func(part *model.Part) { found = found || c.About(part) })
	return found
}

func (pl *Mount) lead(c *model.Complaint) Lead {
	in := pl.Intersect(pl.Exists, pl.Box(pl.Bounds(&c.When)))
	fits := pl.Outcome[model.Fitted]
	if c.Family != "" && in != space.Empty {
		fits = space.Empty
		for _, o := range pl.Offers() {
			if answers(o.Fits, c) {
				fits = pl.Union(fits, o.Where)
			}
		}
		other := pl.Union(pl.Minus(pl.Outcome[model.Fitted], fits), pl.Outcome[model.None])
		in = pl.Minus(in, other)
	}
	return Lead{Row: c, At: pl, Where: in, Answered: pl.Intersect(in, pl.Union(fits, pl.Outcome[model.Ask]))}
}

// ComplaintUses gives the rows of Complaints that hold for a vehicle of the platform. It runs
// inside Try.
func (p *Platform) ComplaintUses() []ComplaintUse {
	if len(p.Complaints) == 0 {
		return nil
	}
	leads := map[*model.Complaint][]Lead{}
	for _, l := range p.Leads() {
		leads[l.Row] = append(leads[l.Row], l)
	}
	var out []ComplaintUse
	for _, rows := range model.Named(p.Complaints) {
		taken, by := make([]space.Region, len(p.Cat.Positions)), p.mentionedBy(rows)
		for _, c := range rows {
			box, m := p.Bounds(&c.When), p.Mention()
			m.Box(box)
			if in := p.Intersect(p.All, p.Box(box)); in != space.Empty {
				out = append(out, ComplaintUse{c, p.listed(in, m), p.placesOf(leads[c], taken, by)})
			}
		}
	}
	return out
}

// placesOf gives the places that a row leads to, without those of vehicles that rows before it have taken.
func (p *Platform) placesOf(leads []Lead, taken []space.Region, by Mention) []PlaceUse {
	var out []PlaceUse
	for _, l := range leads {
		i := l.At.Position.Index
		if where := p.Minus(l.Where, taken[i]); where != space.Empty {
			taken[i] = p.Union(taken[i], where)
			m := l.At.Mentioned()
			m.Add(by)
			out = append(out, PlaceUse{l.At.Position, p.listed(where, m)})
		}
	}
	return out
}

// mentionedBy gives the traits that rows of Complaints name.
func (p *Platform) mentionedBy(rows []*model.Complaint) Mention {
	m := p.Mention()
	for _, c := range rows {
		m.Box(p.Bounds(&c.When))
	}
	return m
}

// Inspected gives the vehicles that an inspection is about. It runs inside Try.
func (p *Platform) Inspected(n *model.Inspection) (space.Region, Mention) {
	box, m := p.Bounds(&n.When), p.Mention()
	m.Box(box)
	in := p.Intersect(p.All, p.Box(box))
	if n.Position != nil && in != space.Empty {
		at := &Mount{Platform: p, Position: n.Position}
		at.exist()
		in = p.Intersect(in, at.Exists)
		for _, r := range p.RowsOf(n.Position) {
			m.Box(p.Bounds(&r.When))
		}
	}
	return in, m
}

// InspectionUses gives the rows of Inspections that hold for a vehicle of the platform, the
// gravest first. It runs inside Try.
func (p *Platform) InspectionUses() []InspectionUse {
	var out []InspectionUse
	for _, n := range p.Inspections {
		if in, m := p.Inspected(n); in != space.Empty {
			out = append(out, InspectionUse{n, p.listed(in, m)})
		}
	}
	slices.SortStableFunc(out, func(a, b InspectionUse) int { return model.Gravest(a.Row, b.Row) })
	return out
}

// listed says which vehicles are in a region; none where it is all of the platform.
func (p *Platform) listed(in space.Region, m Mention) []model.Box {
	if in == p.All {
		return nil
	}
	boxes, _ := p.Describe(in, m, listedAtMost)
	return p.tightAll(boxes)
}

// listedAtMost is more boxes than any condition of people has. What must be looked at is never left
// out because it takes many boxes to say of which vehicles.
const listedAtMost = 1 << 20

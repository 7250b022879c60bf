package view

import (
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/release/compare"
	"ferrule/out/data"
	"ferrule/out/report"
	"ferrule/sheets/cell"
)

// mostChanges is how many changes of a kind are shown.
const mostChanges = 200

// Changes is what differs for vehicles between two releases.
type Changes struct {
	Old, New, Outcome string
	Kinds             []ChangeKind // the gravest first
	Advice            []string     // how rows of Complaints and Inspections differ
	Advised, Unsaid   int          // how many such rows there are, and are not shown
	Others            []string     // names, traits, and what could not be compared
}

// ChangeKind is all changes of one kind.
type ChangeKind struct {
	Kind    string
	Entries int
	List    []Change
	Left    int
}

// Change is one difference.
type Change struct {
	Says     string
	Vehicles string
	Where    []string
	More     int // boxes that are not shown
	Example  string
	Old, New string // cells that say so
	Accepted string
}

// ChangesOf gives a comparison as it is shown.
func ChangesOf(c *data.Compared) *Changes {
	out := &Changes{Old: report.Release(c.Old), New: report.Release(c.New), Outcome: report.Outcome(c.Diff), Others: report.Others(c.Diff)}
	out.Advice = report.Advised(c.Diff)
	out.Advised = len(out.Advice)
	out.Unsaid = max(0, len(out.Advice)-mostChanges)
	out.Advice = out.Advice[:len(out.Advice)-out.Unsaid]
	sums := c.Sums()
	for k := range slices.Backward(sums[:]) {
		if sums[k].Entries == 0 {
			continue
		}
		kind := ChangeKind{Kind: compare.Kind(k).String(), Entries: sums[k].Entries, List: changesOf(c.Diff, compare.Kind(k))}
		kind.Left = max(0, len(kind.List)-mostChanges)
		kind.List = kind.List[:len(kind.List)-kind.Left]
		out.Kinds = append(out.Kinds, kind)
	}
	return out
}

func changesOf(d *compare.Diff, k compare.Kind) (out []Change) {
	for i := range d.Fleets {
		if f := &d.Fleets[i]; f.Kind == k {
			c := Change{Says: report.Moved(f)}
			c.vehicles(f.Region)
			out = append(out, c)
		}
	}
	for i := range d.Changes {
		if x := &d.Changes[i]; x.Kind == k {
			c := Change{Says: report.Changed(x), Old: report.CellsOf(x.Old), New: report.CellsOf(x.New)}
			c.vehicles(x.Region)
			c.accepted(x.Accepted)
			out = append(out, c)
		}
	}
	for i := range d.Losses {
		if k == compare.Unprotected {
			out = append(out, lossOf(&d.Losses[i]))
		}
	}
	return out
}

func lossOf(l *compare.Loss) Change {
	places := func(at []cell.Place) string { return report.CellsOf(compare.Answer{Cells: at}) }
	c := Change{Says: l.String(), Old: places(l.Old), New: places(l.New)}
	for _, b := range l.Where {
		if b.Region == nil {
			c.Where = append(c.Where, b.Platform)
			continue
		}
		f := Finding{}
		f.vehicles(b.Region)
		c.Where = append(c.Where, b.Platform+": "+f.Vehicles)
	}
	c.accepted(l.Accepted)
	return c
}

// vehicles says which they are, as findings do.
func (c *Change) vehicles(r *finding.Region) {
	f := Finding{}
	f.vehicles(r)
	c.Vehicles, c.Where, c.More, c.Example = f.Vehicles, f.Where, f.More, f.Example
}

func (c *Change) accepted(a *finding.Accepted) {
	if a != nil {
		c.Accepted = report.Acceptance(a)
	}
}

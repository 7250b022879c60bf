package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

// tally joins what is one finding: several rows can share a cell, since a merged range
// has the address of its first cell.
type tally struct {
	p     *Position
	limit int            // how many findings are told; 0: all
	by    decide.Mention // traits that the findings depend on, beside those of the position's rows
	index map[cause]int
	told  []entry
}

type cause struct {
	a, b cell.Place
	part string
}

type entry struct {
	finding finding.Finding
	region  space.Region
}

// add joins a region to the finding that the two cells and the part make; f makes the
// finding when it is the first.
func (t *tally) add(a, b cell.Place, part string, region space.Region, f func() finding.Finding) {
	if region == space.Empty {
		return
	}
	if t.index == nil {
		t.index = map[cause]int{}
	}
	key := cause{a, b, part}
	i, ok := t.index[key]
	switch {
	case !ok && t.full():
		t.index[key] = -1
	case !ok:
		t.index[key] = len(t.told)
		t.told = append(t.told, entry{f(), region})
	case i >= 0:
		t.told[i].region = t.p.Union(t.told[i].region, region)
	}
}

func (t *tally) full() bool { return t.limit > 0 && len(t.told) == t.limit }

// report tells the findings, in the order in which they came up.
func (t *tally) report() {
	for _, e := range t.told {
		t.p.ReportBy(e.finding, e.region, t.by)
	}
}

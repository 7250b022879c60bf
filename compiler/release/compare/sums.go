package compare

import (
	"math/big"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

// Sum adds up the differences of one kind. A vehicle counts once for each position.
type Sum struct {
	Entries        int
	Accepted       int // of the entries
	Configurations *big.Int
	OnTheRoad      *big.Rat
}

// Sums adds up all differences, by their Kind.
func (d *Diff) Sums() [Kinds]Sum {
	var out [Kinds]Sum
	for k := range out {
		out[k].Configurations, out[k].OnTheRoad = new(big.Int), new(big.Rat)
	}
	add := func(k Kind, r *finding.Region, accepted bool) {
		s := &out[k]
		s.Entries++
		s.Configurations.Add(s.Configurations, r.Configurations)
		s.OnTheRoad.Add(s.OnTheRoad, r.OnTheRoad)
		if accepted {
			s.Accepted++
		}
	}
	for _, f := range d.Fleets {
		add(f.Kind, f.Region, false)
	}
	for _, c := range d.Changes {
		add(c.Kind, c.Region, c.Accepted != nil)
	}
	for i := range d.Losses {
		l := &d.Losses[i]
		sum := &out[Unprotected]
		sum.Entries++
		if l.Accepted != nil {
			sum.Accepted++
		}
		for _, b := range l.Where {
			if b.Region != nil {
				sum.Configurations.Add(sum.Configurations, b.Region.Configurations)
				sum.OnTheRoad.Add(sum.OnTheRoad, b.Region.OnTheRoad)
			}
		}
	}
	return out
}

// Any tells whether there is a difference of one of some kinds that nobody has accepted.
func (d *Diff) Any(kinds []Kind) bool {
	sums := d.Sums()
	for _, k := range kinds {
		if sums[k].Entries > sums[k].Accepted {
			return true
		}
	}
	return false
}

// Unsound tells whether no part may be told: cells disagree, or a check has found the fit
// wrong.
func (a Answer) Unsound() bool {
	return a.Exists && (a.Outcome == model.Conflict || a.Outcome == model.Fitted && !a.Settled)
}

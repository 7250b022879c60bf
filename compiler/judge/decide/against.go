package decide

import (
	"math"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Cause names the findings that stand against a fit, as Accepted rows do: which of
// several with one name is meant makes no difference to them.
type Cause struct {
	Code     finding.Code
	Position string // "" for a finding about the platform as a whole
	Part     string // "" for one that names none
}

// Against is a cause with the vehicles on which it stands.
type Against struct {
	Cause
	Where []model.Box
}

// wrong is what a check has found wrong, and where.
type wrong struct {
	Cause
	where space.Region
}

// Unsettle keeps the configurations of a region from being published as a fit, for a
// finding that is told there; by holds the traits that the region depends on, apart from
// those that the position's rows name. It runs inside Try.
func (pl *Mount) Unsettle(r space.Region, by Mention, cause Cause) {
	if r == space.Empty {
		return
	}
	if pl.unsettledBy == nil {
		pl.unsettledBy = pl.Mention()
	}
	pl.unsettledBy.Add(by)
	for i := range pl.unsettled {
		if w := &pl.unsettled[i]; w.Cause == cause {
			w.where = pl.Union(w.where, r)
			return
		}
	}
	pl.unsettled = append(pl.unsettled, wrong{cause, r})
}

// bad gives all that must not be published as a fit. It runs inside Try.
func (pl *Mount) bad() space.Region {
	regions := make([]space.Region, len(pl.unsettled))
	for i, w := range pl.unsettled {
		regions[i] = w.where
	}
	return pl.UnionAll(regions)
}

// Unsettled gives where a check found what is fitted wrong, in the words of the
// catalogue. false says that it is too irregular to be listed. It runs inside Try.
func (pl *Mount) Unsettled() ([]model.Box, bool) { return pl.listed(pl.bad()) }

// Against gives each cause with where it stands against a fit, in the order in which the
// checks found them. false says that it is too irregular to be listed. It runs inside Try.
func (pl *Mount) Against() (out []Against, listed bool) {
	for _, w := range pl.unsettled {
		boxes, listed := pl.listed(w.where)
		if !listed {
			return nil, false
		}
		if len(boxes) > 0 {
			out = append(out, Against{w.Cause, boxes})
		}
	}
	return out, true
}

// listed gives a region as far as the position exists in it; false where it takes more
// boxes than there is room for.
func (pl *Mount) listed(region space.Region) ([]model.Box, bool) {
	region = pl.Intersect(region, pl.Exists)
	if region == space.Empty {
		return nil, true
	}
	boxes, rest := pl.Describe(region, pl.Mentions(), math.MaxInt)
	out := make([]model.Box, len(boxes))
	for i, b := range boxes {
		out[i] = pl.Words(b)
	}
	return out, rest == space.Empty
}

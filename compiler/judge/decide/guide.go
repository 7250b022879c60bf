package decide

import (
	"math/big"

	"ferrule/compiler/model"
)

// Guide is all that is known of one platform, in the words of the catalogue: what
// guides and reports are made from.
type Guide struct {
	Platform       *model.Platform
	Configurations *big.Int
	OnTheRoad      *big.Rat
	// Vehicles are few boxes that hold the vehicles that exist and nothing else: all of a
	// box exists. Only guides need them.
	Vehicles []model.Box
	Rows     []RowUse // what the Vehicles rows say. Only guides need them.
	// Traits are those that the platform's vehicles have, as declared, with the values that
	// occur.
	Traits  []model.TraitSet
	Answers []*Answer // one per position of the catalogue, as declared
	Rules   []RuleUse // compatibility rows that hold somewhere on the platform
	Finder  Finder
	// Complaints and Inspections are the rows that hold somewhere on the platform. Only guides need them.
	Complaints  []ComplaintUse
	Inspections []InspectionUse
}

// Finder is how to find out which vehicle of a platform one has. What may be asked has
// numbers: 0 is the model year, i+1 is trait i of the catalogue.
type Finder struct {
	// Order holds the traits that any of the answers depends on, those first that decide
	// much for their effort.
	Order []int
	// Effort is what it takes to see each trait, from 1 to 5; 0 where nobody can.
	Effort []int
}

// Questions are a way to find the case of one answer.
type Questions struct {
	// Tree ends in classes of cases; the class after the last one is that the position
	// does not exist on the vehicle. It is nil where it would be too large.
	Tree *Tree
	// Expected is the effort that a vehicle takes on average: one on the road where the
	// Vehicles rows state how many there are, else a configuration. Nil without a tree.
	Expected *big.Rat
	Least    *big.Rat // no tree takes less, which is proven; nil without a tree
	Exact    bool     // no other questions take less effort
}

// RuleUse is a compatibility row with the vehicles of the platform that it is about.
type RuleUse struct {
	Rule  *model.Rule
	Where []model.Box // tight; empty: all of the platform
}

// Answer is what the fitment rows say about one position of a platform.
type Answer struct {
	Position       *model.Position
	Exact          bool                     // false: over budget, and there are no counts and no cases
	Configurations *big.Int                 // in which the position exists
	Counts         [model.Outcomes]*big.Int // they add up to Configurations
	Road           [model.Outcomes]*big.Rat // how many vehicles of each are on the road
	Cases          []Case                   // in order of first configuration
	// Unsettled holds the vehicles on which a check found what is fitted wrong, whether or
	// not somebody accepted it; conflicts do not count. Unlisted says
	// that they are too irregular to be listed. Only comparing asks for them.
	Unsettled []model.Box
	Unlisted  bool
	// Against says which findings stand there. Comparing and the staff ask for them.
	Against   []Against
	Classes   int // how many different things the cases say in public
	Questions Questions
}

// Case is a box of configurations on which one thing is known. No two cases of an
// answer share a configuration, and together they hold every one in which the
// position exists. The boxes are tight (see Platform.Tight): each year and each value of
// one occurs in a vehicle of it, though not each in company of each.
type Case struct {
	Where          model.Box
	Configurations *big.Int // that exist in the box
	Outcome        model.Outcome
	Class          int // that it shares with all cases that say the same in public
	// Unsettled marks a case that must not be published as a fit: deciding cells
	// disagree, or a check found the part forbidden or the wrong size here, whether
	// or not somebody accepted it.
	Unsettled    bool
	Quantity     int                 // the position's quantity here
	Alternatives []model.Alternative // Fitted: quantities filled in, in order of preference
	With         *model.Position     // Fitted: the item there supplies this place
	Texts        []string            // reasons, notes of planned, what to ask: each once
	Notes        []model.Note        // of all deciding cells, each once
	Cells        []*model.FitCell    // that decide, in the order of file, sheet, row, column
}

// Withheld tells whether the world learns of a case only that it is not settled: where it is
// not, and where a cell does not name parts but says `see note` or `NLA`, which a draft would
// print as a part to be ordered.
func (c *Case) Withheld() bool {
	held := c.Unsettled
	for _, a := range c.Alternatives {
		for _, it := range a {
			held = held || it.Part.Misread
		}
	}
	return held
}

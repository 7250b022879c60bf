package judge

import (
	"context"
	"math/big"

	"ferrule/compiler/judge/check"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/judge/identify"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// way is the way of one platform: decided, checked, asked about, and written down.
type way struct {
	ctx     context.Context
	options Options
	checks  *check.Run
	found   *check.Platform
	asked   *identify.Platform // nil where no cases are asked for
	guide   *decide.Guide
	// What all positions together may take: to be decided and checked, and for their answers
	// besides, so that findings are the same where no answers are asked for.
	checking, answering *space.Purse
}

// platform works on a platform in an arena, nil for a new one, and gives the arena
// back. What is kept is in the words of the catalogue.
func (w *way) platform(index *decide.Index, m *model.Platform, arena *space.Space) *space.Space {
	p, err := decide.NewPlatform(index, m, arena, w.options.Budget)
	w.guide = &decide.Guide{Platform: m, Configurations: new(big.Int), OnTheRoad: new(big.Rat)}
	if err != nil {
		w.undecided(index, p)
		return p.Space
	}
	w.guide.Configurations, w.guide.OnTheRoad, w.guide.Traits = p.Count(p.All), p.Road(p.All), p.Uses()
	if w.options.Cases {
		w.guide.Vehicles, w.guide.Rows = p.Existing(), p.RowUses(index)
	}
	w.found = w.checks.On(p)
	if w.options.Cases {
		w.asked = identify.On(p)
	}
	w.checking, w.answering = p.Purse(), p.Purse()
	for _, pos := range p.Cat.Positions {
		if w.ctx.Err() != nil {
			return p.Space // and nothing of it is told
		}
		if answer := w.position(p, pos); w.options.guided() {
			w.guide.Answers = append(w.guide.Answers, answer)
		}
	}
	if w.options.Cases {
		w.guide.Finder = w.asked.Whole(w.guide.Answers)
	}
	if err := p.Try(func() { w.guide.Rules = p.RuleUses() }); err != nil {
		w.found.Irregular("", "the vehicles of "+m.Name+" that the Compatibility rows name", nil)
	}
	if w.options.Cases {
		w.complaints(p)
	}
	return p.Space
}

// complaints says which places complaints are about, and what to look at first, on which vehicles.
func (w *way) complaints(p *decide.Platform) {
	if err := p.Try(func() { w.guide.Complaints = p.ComplaintUses() }); err != nil {
		w.found.Irregular("", "the places of "+p.Model.Name+" that the Complaints rows are about", nil)
	}
	if err := p.Try(func() { w.guide.Inspections = p.InspectionUses() }); err != nil {
		w.found.Irregular("", "the vehicles of "+p.Model.Name+" that the Inspections rows are about", nil)
	}
}

// undecided is the way of a platform of which nobody can tell what vehicles there are.
func (w *way) undecided(index *decide.Index, p *decide.Platform) {
	w.found = w.checks.Undecided(p)
	if w.options.Cases {
		w.guide.Vehicles, w.guide.Rows = p.Listed(), p.RowUses(index)
	}
	for _, pos := range p.Cat.Positions {
		w.guide.Answers = append(w.guide.Answers, decide.NoAnswer(pos))
	}
}

// position works on one position and forgets its regions afterwards. The answer is nil where no
// guide is asked for.
func (w *way) position(p *decide.Platform, pos *model.Position) *decide.Answer {
	defer p.Release(p.Mark())
	place := w.checked(p, pos)
	switch {
	case place == nil:
		return decide.NoAnswer(pos)
	case !w.options.guided():
		return nil
	}
	var answer *decide.Answer
	p.Pay(w.answering, func() {
		answer = w.answer(place)
		if w.options.Cases {
			w.cases(place, answer)
		}
	})
	return answer
}

// checked decides and checks a position; nil says that it is too irregular, or all together are.
func (w *way) checked(p *decide.Platform, pos *model.Position) (place *decide.Mount) {
	if w.checking.Spent() {
		w.found.BeyondAt(pos)
		return nil
	}
	var err error
	p.Pay(w.checking, func() {
		if err = p.Try(func() { place = decide.NewMount(p, pos) }); err == nil {
			w.found.Position(place)
		}
	})
	if err != nil {
		w.checking.Forfeit()
		w.found.UndecidedAt(pos)
		return nil
	}
	return place
}

// answer says how many vehicles there are of each outcome, and what of it is not settled.
func (w *way) answer(place *decide.Mount) *decide.Answer {
	answer := &decide.Answer{Position: place.Position, Exact: true}
	if !w.options.Brief {
		answer = place.Counts()
	}
	if w.options.Unsettled {
		listed := false
		err := place.Try(func() { answer.Unsettled, listed = place.Unsettled() })
		answer.Unlisted = err != nil || !listed
	}
	if w.options.Unsettled || w.options.Cases {
		// Where what stands against a fit is too irregular to be listed nothing is, and
		// then nothing there can be held accepted.
		if err := place.Try(func() { answer.Against, _ = place.Against() }); err != nil {
			answer.Against = nil
		}
	}
	return answer
}

// cases says what is offered on which vehicles, and what to ask in order to know.
func (w *way) cases(place *decide.Mount, answer *decide.Answer) {
	var classes []space.Region
	if err := place.Try(func() { answer.Cases, classes = place.Cases() }); err != nil {
		w.found.IrregularAt(place.Position, "the cases of "+place.Position.Name+" on "+place.Model.Name)
		answer.Exact = false
		w.answering.Forfeit()
		return
	}
	answer.Classes = len(classes) - 1
	answer.Questions = w.asked.Place(classes, place.Mentions())
}

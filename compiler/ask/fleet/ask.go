package fleet

import (
	"iter"
	"slices"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// Ask is something to find out about a vehicle.
type Ask struct {
	// Column is the heading under which the answer is written: a trait, or Years. It is "" for a
	// question that a cell asks, and that no column answers.
	Column   string
	Question string
	HowTell  string
	May      string // what it may be, as it can be written there; "" where nobody knows
	Decides  []*model.Position
	Effort   int // from 1, a glance, to 5; 6 where no column answers it
}

// elsewhere is the effort of what no column answers.
const elsewhere = 6

// asksOf gives what would settle the places that are open, then what cells ask.
func (t *taker) asksOf(l *pick.List, places []*Place) []*Ask {
	var out []*Ask
	for _, o := range l.Open {
		a := &Ask{Column: pick.Name(o.Trait), Effort: t.effort(o.Trait)}
		for _, p := range places {
			if p.State == Open && slices.Contains(p.Depends, o.Trait) {
				a.Decides = append(a.Decides, p.Position)
			}
		}
		if a.Decides == nil {
			continue
		}
		a.May, a.HowTell, a.Question = may(o.Values), t.tell(l, o.Trait), "What is the chassis model year?"
		if o.Trait != nil {
			a.Question = o.Trait.Question
		}
		if a.Question == "" {
			a.Question = "What is the " + o.Trait.Name + "?"
		}
		out = append(out, a)
	}
	for _, p := range places {
		for _, text := range p.Ask {
			out = append(out, &Ask{Question: text, Decides: []*model.Position{p.Position}, Effort: elsewhere})
		}
	}
	slices.SortStableFunc(out, func(a, b *Ask) int { return a.Effort - b.Effort })
	return out
}

func (t *taker) effort(trait *model.Trait) int {
	if trait == nil {
		return t.cat.YearEffort(t.platform)
	}
	return trait.EffortOn(t.platform)
}

// tell gives how to see a trait, put together once.
func (t *taker) tell(l *pick.List, trait *model.Trait) string {
	text, known := t.tells[trait]
	if !known {
		text = l.HowToTell(trait)
		t.tells[trait] = text
	}
	return text
}

// Asks goes through what to find out about each row's vehicle: what takes the least to see first,
// and of equals in the order of the rows.
func (f *Fleet) Asks() iter.Seq2[*Row, *Ask] {
	return func(yield func(*Row, *Ask) bool) {
		for effort := 1; effort <= elsewhere; effort++ {
			for i := range f.Rows {
				for _, a := range f.Rows[i].group.asks {
					if a.Effort == effort && !yield(&f.Rows[i], a) {
						return
					}
				}
			}
		}
	}
}

// may says what something that is open may be, in words that can be written as the answer.
func may(values model.Box) string {
	if values.Years != nil {
		return model.SpanWords(values.Years)
	}
	var words []string
	for _, t := range values.Traits {
		names, absent := t.Names()
		if words = append(words, names...); absent {
			words = append(words, "n/a")
		}
	}
	return word.List(words, "or")
}

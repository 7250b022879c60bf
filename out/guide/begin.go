package guide

// begin is what the finder begins with, laid out as its script does it, so that a reader
// sees the first question before the script has come, and nothing moves when it does. An
// answer is an address that the script reads then.
type begin struct {
	Question  *question // nil: nothing needs to be asked
	Known, Of int       // how many places are known without an answer, of those that the finder knows
}

// begin gives nil where the script stays away: it does not know which vehicles exist, or
// there is no place to ask about.
func (p *platformPage) begin() *begin {
	if p.Exist == "" || len(p.Places) == 0 {
		return nil
	}
	out := &begin{}
	for i := range p.Questions {
		if p.Questions[i].Number == p.First {
			out.Question = &p.Questions[i]
		}
	}
	for _, place := range p.Places {
		if place.Steps == nil {
			continue
		}
		out.Of++
		if place.Steps.End != nil {
			out.Known++
		}
	}
	return out
}

// Key is what the question is called in an address.
func (q question) Key() string {
	if q.Year {
		return "Years"
	}
	return q.Trait
}

// Offered lists the values that are offered to be pressed: numbers and dates are typed.
func (q question) Offered() []answer {
	if q.Line == "" {
		return q.Values
	}
	var out []answer
	for _, a := range q.Values {
		if a.Absent {
			out = append(out, a)
		}
	}
	return out
}

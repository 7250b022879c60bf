package fleet

import (
	"fmt"
	"strings"

	"ferrule/compiler/model"
)

// Answer is what is known of all vehicles of which the same is known, and the same is to be asked.
type Answer struct {
	Platform *model.Platform
	Places   []*Place
	Asks     []*Ask
	Vehicles int64
}

// answers joins the groups of which the same is known, and numbers them.
func (f *Fleet) answers() {
	known := map[string]int{}
	for _, g := range f.groups {
		key := g.answerKey()
		k, ok := known[key]
		if !ok {
			k = len(f.Answers)
			known[key] = k
			f.Answers = append(f.Answers, Answer{Platform: g.query.Platform, Places: g.places, Asks: g.asks})
		}
		g.number, f.Answers[k].Vehicles = k, f.Answers[k].Vehicles+g.count
		g.places, g.asks = f.Answers[k].Places, f.Answers[k].Asks
	}
}

func (g *group) answerKey() string {
	var b strings.Builder
	for _, p := range g.places {
		fmt.Fprintf(&b, "%p ", p)
	}
	for _, a := range g.asks {
		b.WriteString("\x00" + a.Column + "\x00" + a.May)
	}
	return b.String()
}

// Answer gives the number of the answer about the vehicle of a row, among Fleet.Answers.
func (r *Row) Answer() int { return r.group.number }

package fleet

import (
	"fmt"
	"strings"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// miss is why a vehicle that was told does not exist, and what comes nearest.
type miss struct{ what, nearest string }

// shownNear is how many ways to a vehicle that exists are told of one row.
const shownNear = 4

func missOf(q *pick.Query, l *pick.List, crowd *pick.Crowd) *miss {
	if len(l.Near) == 0 {
		return &miss{what: fmt.Sprintf("no row of Vehicles is about %s, so nothing is known of it", q.Platform.Name)}
	}
	out := &miss{what: fmt.Sprintf("no such %s exists", q.Platform.Name), nearest: nearest(l.Near)}
	if years := outside(q); years != "" {
		out.what = fmt.Sprintf("the model years of %s are %s, and %s is none of them", q.Platform.Name, model.SpanWords(q.Platform.Spans(space.All(len(q.Platform.Years)))), years)
	}
	if crowd == nil {
		return out
	}
	var words []string
	for _, c := range crowd.Never(q) {
		if c.Trait != nil {
			words = append(words, fmt.Sprintf("no %s has %s", q.Platform.Name, c.Told))
		}
	}
	if words != nil {
		out.what = strings.Join(words, "; ")
	}
	return out
}

// outside gives the years that were told where none is one of the platform's, "" else.
func outside(q *pick.Query) string {
	if q.When.Years == nil || !q.Platform.YearSet(q.When.Years).IsEmpty() {
		return ""
	}
	return model.SpanWords(q.Box().Years)
}

// nearest says in which ways the vehicle would exist.
func nearest(near []pick.Near) string {
	var ways []string
	for _, n := range near[:min(len(near), shownNear)] {
		words := make([]string, len(n.Changes))
		for i, c := range n.Changes {
			words[i] = fmt.Sprintf("%s instead of %s", c.Instead, c.Told)
		}
		ways = append(ways, strings.Join(words, ", and "))
	}
	if more := len(near) - shownNear; more > 0 {
		ways = append(ways, fmt.Sprintf("%d more ways with as many changes", more))
	}
	return strings.Join(ways, "; or ")
}

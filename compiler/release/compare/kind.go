package compare

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// Kind says what became of vehicles, or of a position on them. They stand in the order
// in which reports tell them, the most important last.
type Kind uint8

const (
	Appeared    Kind = iota // vehicles that OLD does not have
	Vanished                // vehicles that NEW does not have
	Gained                  // a settled fit where there was neither a fit nor a conflict
	Settled                 // a settled fit where the fit was unsettled, or cells disagreed
	Changed                 // any other difference: another fit, or another outcome without one
	Unsettled               // a fit that is unsettled, where it was not and cells agreed
	Unprotected             // a rule, a limit, a caution or a size of line is gone, or weaker
	Conflict                // cells disagree where they did not
	Lost                    // no fit any more where there was one, and no conflict
	Kinds                   // how many there are
)

var kindNames = [...]string{"appeared", "vanished", "gained", "settled", "changed", "unsettled", "unprotected", "conflict", "lost"}

func (k Kind) String() string { return kindNames[k] }

// ParseKinds reads a list of kinds, separated by commas. The error is a sentence for the
// user.
func ParseKinds(list string) ([]Kind, error) {
	var out []Kind
	for _, name := range strings.Split(list, ",") {
		name = word.Fold(name)
		i := slices.Index(kindNames[:], name)
		switch {
		case name == "":
		case i < 0:
			return nil, fmt.Errorf("%q is no kind of change%s; write some of %s", name,
				word.DidYouMean(name, kindNames[:]), strings.Join(kindNames[:], ", "))
		default:
			out = append(out, Kind(i))
		}
	}
	return out, nil
}

// kindOf says what a difference is.
func kindOf(old, new Answer) Kind {
	was, is := old.condition(), new.condition()
	switch {
	case is == disagree && was != disagree:
		return Conflict
	case is == unsettled && was != unsettled && was != disagree:
		return Unsettled
	case is == settled && (was == unsettled || was == disagree):
		return Settled
	case is == settled && was == open:
		return Gained
	case is == open && (was == settled || was == unsettled):
		return Lost
	}
	return Changed
}

// condition is how much an answer can be relied on.
type condition uint8

const (
	open      condition = iota // no part is named: nothing there, a gap, none, planned, ask
	settled                    // a fit
	unsettled                  // a fit that a check has found wrong
	disagree                   // a conflict
)

func (a Answer) condition() condition {
	switch {
	case !a.Exists:
		return open
	case a.Outcome == model.Conflict:
		return disagree
	case a.Outcome != model.Fitted:
		return open
	case !a.Settled:
		return unsettled
	}
	return settled
}

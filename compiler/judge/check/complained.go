package check

import (
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// complained is what the rows of Complaints say together, whatever the platform.
type complained struct {
	slips []complaintSlip
	aside map[string]bool // complaints, folded, of which nobody knows where else they lead; that is told by itself
}

// complaintSlip is a complaint that is nearly called like another of as many rows or more; of two with as many
// rows the later one is taken for the slip.
type complaintSlip struct {
	rows []*model.Complaint
	near *model.Complaint
}

func newComplained(rows []*model.Complaint) complained {
	all, out := model.Named(rows), complained{aside: map[string]bool{}}
	for _, c := range rows {
		if c.When.SetAside {
			out.aside[word.Fold(c.Name)] = true
		}
	}
	names := make([]string, len(all))
	for i, list := range all {
		names[i] = list[0].Name
	}
	likes := word.NewLikes(names)
	for i, list := range all {
		k := likes.Slip(i, func(k int) bool { return len(all[k]) > len(list) || len(all[k]) == len(list) && k < i })
		if k >= 0 {
			out.slips = append(out.slips, complaintSlip{list, all[k][0]})
			out.aside[word.Fold(names[i])], out.aside[word.Fold(names[k])] = true, true
		}
	}
	return out
}

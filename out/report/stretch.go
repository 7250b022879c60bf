package report

import (
	"strings"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/model"
)

// taken says in which stretches numbers and dates are that were told.
func (p *page) taken(all []pick.Taken) {
	for _, t := range all {
		p.wrap("", 0, Taken(t))
	}
}

// unbuilt tells which Breaks rows say that there is no such vehicle.
func (p *page) unbuilt(l *pick.List) {
	const lead = "no such vehicle: "
	if len(l.Unbuilt) == 0 {
		p.wrap(lead, len(lead), "Breaks rows say of all that Vehicles lists that they were not built")
	}
	for i, u := range l.Unbuilt {
		label := lead
		if i > 0 {
			label = strings.Repeat(" ", len(lead))
		}
		p.wrap(label, len(lead), Unbuilt(u))
	}
}

// openValues says of what an answer is one: of numbers and dates the ends alone, since where rows
// divide them is nothing that stands on a vehicle.
func openValues(o pick.Open) string {
	if o.Trait == nil || !o.Trait.Kind.OnLine() {
		return o.Values.String()
	}
	set := o.Values.Traits[0]
	ranges, absent := set.Ranges()
	k := o.Trait.Kind
	what := "a number of "
	if k == model.Date {
		what = "a day or a month of "
	}
	words := o.Trait.Name + " (" + what + k.Line().Words(ranges)
	if absent {
		words += ", or it has none"
	}
	return words + ")"
}

package report

import (
	"fmt"
	"math/big"
	"strings"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/release"
	"ferrule/compiler/release/compare"
	"ferrule/schema/word"
)

// What answers say in single sentences, for texts here and for who lays them out otherwise.

// Asked says which vehicles a question is about.
func Asked(q *pick.Query) string {
	words := q.Platform.Name
	if box := q.Box().String(); box != "all" {
		words += ", " + box
	}
	return words
}

// HowMany says how many vehicles there are.
func HowMany(configurations *big.Int, onTheRoad *big.Rat) string {
	return count(configurations.String(), "configuration") + ", " + road(onTheRoad) + " on the road"
}

// Follows says what is certain of the vehicles of a list beyond what was told; "" for nothing.
func Follows(l *pick.List) string {
	if so := certain(l.So); so.Restricts() {
		return "then it is " + so.String() + ": check that"
	}
	return ""
}

// Nearest says what would have to be told differently.
func Nearest(n pick.Near) string {
	words := make([]string, len(n.Changes))
	for i, c := range n.Changes {
		words[i] = fmt.Sprintf("%s instead of %s", c.Instead, c.Told)
	}
	return strings.Join(words, ", and ")
}

// Unbuilt says which row of Breaks rules vehicles out.
func Unbuilt(u pick.Unbuilt) string {
	only := "only where"
	if u.More {
		only = "also where"
	}
	return fmt.Sprintf("%s has %s %s %s", u.Row.At, u.Value, only, u.Only)
}

// Taken says in which stretch a number or a date is that was told: `41350 is one of 41200 to 46999`.
func Taken(t pick.Taken) string {
	k := t.Trait.Kind.Line()
	is := "is one of"
	if n := t.Told.Count(); n.IsInt64() && n.Int64() > 1 {
		is = "is within"
	}
	return fmt.Sprintf("%s %s %s %s", t.Trait.Name, k.Words(t.Told), is, k.Write(t.Stretch))
}

// Ways says how many things may be known of a position, and what decides.
func Ways(p *pick.Position) string {
	return fmt.Sprintf("%s, by %s", count(len(p.Ways), "way"), dependence(p.Depends))
}

// Item says a part with how many of it.
func Item(part *model.Part, quantity int) string { return itemWords(part, quantity) }

// ItemName says a part with its name.
func ItemName(part *model.Part) string { return partWords(part) }

// Said says the outcome of a case that names no part, with its reasons.
func Said(c *decide.Case) string {
	if c.Outcome == model.Gap {
		return "nothing is listed yet (a gap)"
	}
	return strings.TrimSuffix(c.Outcome.String()+": "+strings.Join(c.Texts, "; "), ": ")
}

// Notes says what is printed with a case, the gravest first: what it is, and its text.
func Notes(c *decide.Case) (out [][2]string) {
	for _, n := range notesOf(c) {
		if n.Caution == nil {
			out = append(out, [2]string{"note", n.Text})
			continue
		}
		out = append(out, [2]string{model.Levels()[min(gravity(n), len(model.Levels())-1)], n.Caution.Text})
	}
	return out
}

// Care says where a Compatibility row asks for care.
func Care(c pick.Care) string {
	var words []string
	if c.Where.Restricts() {
		words = append(words, "where "+c.Where.String())
	}
	if c.With != nil {
		words = append(words, "with "+c.With.Number)
	}
	return strings.TrimPrefix(strings.Join(words, ", ")+": "+c.Reason, ": ")
}

// Against says what a check holds against parts: its sentence only where parts may be named.
func Against(f *finding.Finding, settled bool) string {
	words := string(f.Code)
	if settled {
		words += ": " + f.Message
	}
	if cells := cellsOf(f); cells != "" {
		words += " (" + cells + ")"
	}
	return words
}

// Standing says what a cell decides, and where it is overruled; "" for nothing.
func Standing(s pick.Standing) (decides, overruled string) {
	says := fmt.Sprintf("%s says %q", s.Cell.At, s.Cell.Fits.String())
	if len(s.Decides) > 0 {
		decides, says = says+precedence(s.Cell)+part(s.Decides), "the same cell"
	}
	if len(s.Overruled) > 0 {
		overruled = fmt.Sprintf("%s%s%s, by %s", says, precedence(s.Cell), part(s.Overruled), overruling(s.By))
	}
	return decides, overruled
}

// Missed says why a row that offers a part does not decide.
func Missed(s pick.Standing) string {
	at := s.Cell.At.String()
	switch {
	case s.SetAside:
		return at + " is set aside: the row names something unknown"
	case len(s.Overruled) > 0:
		return at + " is overruled by " + overruling(s.By)
	}
	words := make([]string, len(s.Misses))
	for i, m := range s.Misses {
		words[i] = fmt.Sprintf("%s is %s and the row has %q", m.Column, m.Have, m.Asks)
	}
	return at + ": " + strings.Join(words, "; ")
}

// OpenPositions says on which positions something has a say that was not told; "" for none.
func OpenPositions(o pick.Open) string {
	words := make([]string, len(o.Positions))
	for i, d := range o.Positions {
		words[i] = fmt.Sprintf("%s (%s)", d.Position.Name, count(d.Ways, "way"))
	}
	return strings.Join(words, ", ")
}

// OpenValues says of what an answer that was not told is one.
func OpenValues(o pick.Open) string { return openValues(o) }

// Changed says a change in a sentence of its own.
func Changed(c *compare.Change) string { return quote(plain).changed(c) }

// Moved says which vehicles appeared or vanished.
func Moved(f *compare.Fleet) string { return quote(plain).moved(f) }

// Others says what differs beside vehicles and positions: names, traits, and what could not be compared.
func Others(d *compare.Diff) (out []string) {
	q := quote(plain)
	for i := range d.Renames {
		out = append(out, q.renamed(&d.Renames[i]))
	}
	for i := range d.Splits {
		out = append(out, q.parted(&d.Splits[i]))
	}
	for i := range d.Irregular {
		out = append(out, q.tangled(&d.Irregular[i]))
	}
	return out
}

// Advised says how rows of Complaints and Inspections differ.
func Advised(d *compare.Diff) (out []string) {
	for i := range d.Advice {
		out = append(out, quote(plain).advised(&d.Advice[i]))
	}
	return out
}

// Outcome says in one line what differs, the most important first.
func Outcome(d *compare.Diff) string { return outcome(d) }

// Release says what a release was read from.
func Release(s release.State) string { return quote(plain).state(s) }

// CellsOf names the cells of one side of a change.
func CellsOf(a compare.Answer) string { return strings.Join(cells(a, shownCells), ", ") }

// Acceptance says who has accepted something.
func Acceptance(a *finding.Accepted) string { return "accepted " + acceptedBy(a) }

// Idle lists what was not told and makes no difference; "" for nothing.
func Idle(l *pick.List) string {
	var names []string
	for _, o := range l.Open {
		if len(o.Positions) == 0 {
			names = append(names, pick.Name(o.Trait))
		}
	}
	return word.List(names, "and")
}

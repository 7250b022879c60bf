package propose

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/propose/shape"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// tellCondition remarks on a limit that was read as a condition.
func (r *reading) tellCondition(c condition, cells []cell.Pos, says, word string) {
	means := fmt.Sprintf("read as the condition %s = %s: the fit holds for these vehicles alone", c.column, c.says)
	write := fmt.Sprintf("another condition in the row %s of Layouts if it means something else", word)
	if c.drafted {
		means = fmt.Sprintf("it may limit the vehicles, and the catalogue has no trait that it names: a drafted trait %q with Yes and No asks it, and the fit holds for %s alone", c.column, c.says)
		write = fmt.Sprintf("in the row %s of Layouts a condition on a trait of yours, such as Levelling = not Electronic, and no row of Traits for %q; or keep the drafted trait and say under How to tell how to see it", word, c.column)
	}
	r.remark(cells, says, means, write)
}

// hasYears tells whether the rows of the table have years already.
func (r *reading) hasYears() bool {
	return has(r.all, Years) || strings.Contains(r.vehicle.as, "Years") || r.across != nil && strings.Contains(r.across.as, "Years")
}

// sayNotes writes what a column of remarks says: notes where none may limit vehicles, one condition
// where all are about one trait, and else a drafted trait with the texts as its values.
func (r *reading) sayNotes() {
	for _, c := range r.all {
		if c.role == Note && c.Filled > 0 {
			r.notes(c)
		}
	}
}

func (r *reading) notes(c *column) {
	var limits, others []shape.Value
	for _, v := range c.Values {
		if restricts(v.Text) {
			limits = append(limits, v)
		} else {
			others = append(others, v)
		}
	}
	if len(limits) == 0 {
		if !r.taken("Note") {
			r.rule("is", r.where(c), "Note", Likely, "no text in it limits vehicles, as far as its words tell")
			r.remark(places(others), trimmed(others[0].Text), "read as notes, which guides print and which limit nothing", "a condition (a column of its own, or a row say of Layouts) where one does limit the fit")
		}
		return
	}
	conditions, one := r.oneTrait(limits)
	if !one || len(others) > 0 || r.taken(conditions[0].column) {
		r.asValues(c)
		return
	}
	r.rule("is", r.where(c), conditions[0].column, Unsure, conditions[0].why)
	for i, v := range limits {
		r.rule("say", r.where(c), trimmed(v.Text)+" = "+conditions[i].says, Unsure, conditions[i].why)
		r.tellCondition(conditions[i], r.cellsOf(c, v), trimmed(v.Text), "say")
		r.restrict(c, v, conditions[i])
	}
}

// taken tells whether some row of the reading fills a column already.
func (r *reading) taken(column string) bool {
	from := 0
	for i, rule := range r.rules {
		if rule.Word == "table" {
			from = i
		}
	}
	return slices.ContainsFunc(r.rules[from:], func(rule Rule) bool {
		return (rule.Word == "is" || rule.Word == "section" || rule.Word == "across") && word.Fold(rule.As) == word.Fold(column)
	})
}

// oneTrait reads texts as conditions and tells whether all are about one column.
func (r *reading) oneTrait(limits []shape.Value) (out []condition, one bool) {
	one = true
	for _, v := range limits {
		c := r.b.condition(v.Text, r.hasYears())
		one = one && (len(out) == 0 || c.column == out[0].column) && !strings.Contains(trimmed(v.Text), "=")
		out = append(out, c)
	}
	return out, one
}

// asValues makes a drafted trait of a column of remarks, with the texts as they stand as its values.
func (r *reading) asValues(c *column) {
	name := r.b.drafts.free("Restriction")
	r.rule("is", r.where(c), name, Unsure, "its texts may limit which vehicles are meant, each in its own way")
	for _, v := range c.Values {
		cond := condition{column: name, says: v.Text, drafted: true}
		r.restrict(c, v, cond)
		topic := r.b.meaning(v.Text, r.hasYears())
		r.remark(r.cellsOf(c, v), trimmed(v.Text),
			fmt.Sprintf("it may limit the vehicles. It is a value of the drafted trait %q, so the fit holds for vehicles alone of which somebody has answered it%s", name, topic),
			"a column for each thing that such texts are about, with conditions in it, in place of this one; or a row say of Layouts for each text where all are about one trait")
	}
}

// meaning tells what a text names of the catalogue, for a remark; "" for nothing.
func (b *builder) meaning(text string, years bool) string {
	topic, not := topicOf(text)
	found := b.within(topic)
	if len(found) != 1 {
		return ""
	}
	says := found[0].name
	if not {
		says = "not " + says
	}
	return fmt.Sprintf(". Probably it means %s = %s", found[0].trait, says)
}

// restrict drafts what a condition needs on the platforms of the rows that have it.
func (r *reading) restrict(c *column, v shape.Value, cond condition) {
	for row := range r.t.Each {
		if word.Fold(row.At(c.Col)) == word.Fold(v.Text) {
			for _, p := range r.platformsOf(row) {
				r.b.drafts.restricted(cond, p)
			}
		}
	}
}

// cellsOf gives the first cells of a column that say a text, and room for how many there are.
func (r *reading) cellsOf(c *column, v shape.Value) []cell.Pos {
	var out []cell.Pos
	for row := range r.t.Each {
		if word.Fold(row.At(c.Col)) == word.Fold(v.Text) {
			out = append(out, cell.Pos{Row: row.Number, Col: c.Col})
		}
	}
	return out
}

func places(values []shape.Value) []cell.Pos {
	var out []cell.Pos
	for _, v := range values {
		out = append(out, v.At)
	}
	return out
}

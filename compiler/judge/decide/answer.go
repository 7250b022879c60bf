package decide

import (
	"math/big"
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

// Cases puts what is said of the place into the words of the catalogue, and gives the
// configurations of each class of cases; those on which the position does not exist
// come last. It runs inside Try.
func (pl *Mount) Cases() ([]Case, []space.Region) {
	var out []Case
	var kept []class
	regions := []space.Region{}
	for _, c := range pl.classes() {
		if c.where != space.Empty {
			kept, regions = append(kept, c), append(regions, c.where)
		}
	}
	// Where the position does not exist is a class of its own, so that no box of the
	// others reaches over it.
	regions = append(regions, pl.Minus(pl.All, pl.Exists))
	view, care := view(pl.Space, pl.All, regions, pl.Mentions())
	for _, c := range pl.Partition(view, care) {
		if c.Class == len(kept) {
			continue
		}
		cs := kept[c.Class].words
		cs.Class = c.Class
		cs.Where = pl.Tight(c.Box)
		cs.Configurations = pl.CountIn(regions[c.Class], c.Box)
		out = append(out, cs)
	}
	return out, pl.shown(kept, regions, out)
}

// Mentions gives the traits that the cases can depend on: those that the position's
// rows name, and those on which a check unsettled a case.
func (pl *Mount) Mentions() Mention {
	m := pl.Mentioned()
	m.Add(pl.unsettledBy)
	return m
}

// Counts gives the answer without its cases.
func (pl *Mount) Counts() *Answer {
	a := &Answer{Position: pl.Position, Exact: true, Configurations: pl.Count(pl.Exists)}
	for o, r := range pl.Outcome {
		a.Counts[o] = pl.Count(r)
		a.Road[o] = pl.Road(r)
	}
	return a
}

// NoAnswer stands for a place that is over the budget.
func NoAnswer(p *model.Position) *Answer {
	a := &Answer{Position: p, Configurations: new(big.Int)}
	for o := range a.Counts {
		a.Counts[o], a.Road[o] = new(big.Int), new(big.Rat)
	}
	return a
}

// class is a set of configurations on which the same cells say the same.
type class struct {
	words Case
	where space.Region
}

// classes splits where the position exists by all that a guide prints: what the cells
// say, their texts and notes, and whether it is settled.
func (pl *Mount) classes() []class {
	out := []class{{Case{Outcome: model.Gap}, pl.Outcome[model.Gap]}}
	for i := range pl.Levels {
		for _, v := range pl.Variants {
			out = append(out, pl.levelClasses(&pl.Levels[i], v)...)
		}
	}
	return pl.settle(merge(pl.Platform, out))
}

// levelClasses splits what one level decides on one variant by the cells that decide
// it. Cells that say the same in the same words are not told apart.
func (pl *Mount) levelClasses(level *Level, v Variant) []class {
	at := pl.Intersect(level.Open, v.Where)
	if at == space.Empty {
		return nil
	}
	groups := pl.Agreeing(level, v.Row.Quantity)
	conflict := pl.Intersect(pl.Outcome[model.Conflict], at)
	var out []class
	if conflict != space.Empty {
		out = append(out, class{Case{Outcome: model.Conflict, Unsettled: true, Quantity: v.Row.Quantity}, conflict})
	}
	clear := pl.Minus(at, conflict)
	for _, g := range groups {
		out = append(out, pl.groupClasses(g, v, clear)...)
	}
	return out
}

// groupClasses splits where the cells of a group decide by the words they print.
func (pl *Mount) groupClasses(g []*Cell, v Variant, at space.Region) []class {
	first := caseOf(g[0].FitCell, v.Row.Quantity)
	classes := []class{{where: at}} // what no cell has been seen to decide yet
	for _, c := range g {
		box := pl.Box(c.Box)
		var next []class
		for _, k := range classes {
			in := pl.Intersect(k.where, box)
			if out := pl.Minus(k.where, in); out != space.Empty {
				next = append(next, class{k.words, out})
			}
			if in != space.Empty {
				next = append(next, class{add(k.words, first, c.FitCell), in})
			}
		}
		classes = merge(pl.Platform, next)
	}
	return slices.DeleteFunc(classes, func(k class) bool { return len(k.words.Cells) == 0 })
}

// caseOf is what a cell says, without its texts.
func caseOf(c *model.FitCell, quantity int) Case {
	cs := Case{Outcome: c.Fits.Outcome, Quantity: quantity, With: c.Fits.With}
	for _, a := range c.Fits.Alternatives {
		cs.Alternatives = append(cs.Alternatives, a.Filled(quantity))
	}
	return cs
}

// add puts one more deciding cell to a case, its texts and notes each once.
func add(k, first Case, c *model.FitCell) Case {
	out := k
	if len(k.Cells) == 0 {
		out = first
	}
	out.Cells = append(slices.Clone(k.Cells), c)
	out.Texts = slices.Clone(k.Texts)
	if t := c.Fits.Text; t != "" && !slices.Contains(out.Texts, t) {
		out.Texts = append(out.Texts, t)
	}
	out.Notes = slices.Clone(k.Notes)
	for _, n := range c.Notes.All() {
		if !slices.Contains(out.Notes, n) {
			out.Notes = append(out.Notes, n)
		}
	}
	return out
}

// merge joins classes that print the same; the cells of both are kept.
func merge(p *Platform, classes []class) []class {
	var out []class
	for _, c := range classes {
		i := slices.IndexFunc(out, func(o class) bool { return o.words.Same(&c.words) })
		if i < 0 {
			out = append(out, c)
			continue
		}
		out[i].where = p.Union(out[i].where, c.where)
		for _, fc := range c.words.Cells {
			if !slices.Contains(out[i].words.Cells, fc) {
				out[i].words.Cells = append(slices.Clone(out[i].words.Cells), fc)
			}
		}
		slices.SortFunc(out[i].words.Cells, func(a, b *model.FitCell) int { return cell.Compare(a.At, b.At) })
	}
	return out
}

// Same tells whether two cases print the same, wherever they hold.
func (c *Case) Same(o *Case) bool {
	return c.Outcome == o.Outcome && c.Unsettled == o.Unsettled && c.Quantity == o.Quantity && c.With == o.With &&
		(len(c.Cells) == 0) == (len(o.Cells) == 0) &&
		slices.Equal(c.Texts, o.Texts) && slices.Equal(c.Notes, o.Notes) &&
		slices.EqualFunc(c.Alternatives, o.Alternatives, func(x, y model.Alternative) bool { return slices.Equal(x, y) })
}

// settle splits off what must not be published as a fit.
func (pl *Mount) settle(classes []class) []class {
	bad := pl.bad()
	if bad == space.Empty {
		return classes
	}
	var out []class
	for _, c := range classes {
		in := pl.Intersect(c.where, bad)
		if in == space.Empty || c.words.Unsettled {
			out = append(out, c)
			continue
		}
		if rest := pl.Minus(c.where, in); rest != space.Empty {
			out = append(out, class{c.words, rest})
		}
		c.words.Unsettled, c.where = true, in
		out = append(out, c)
	}
	return merge(pl.Platform, out)
}

// Class is the vehicles on which one thing is known of a position. Its case has no boxes.
type Class struct {
	Case  Case
	Where space.Region
}

// Classes gives what is said of the place, each thing once, with the vehicles on which it is; those
// without the position are in none. It runs inside Try.
func (pl *Mount) Classes() []Class {
	var out []Class
	for _, c := range pl.classes() {
		if c.where != space.Empty {
			out = append(out, Class{c.words, c.where})
		}
	}
	return out
}

package compare

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// watched is a Compatibility row of OLD with what stands in its place in NEW.
type watched struct {
	*model.Rule
	groups []*ward
	bare   []Bare
	left   *model.Rule // of NEW: what is left of it, the strongest of what says less
	kept   *model.Rule // of NEW: what still says as much on other vehicles
}

// ward is parts of both releases that a row is about, with the rows of NEW that protect
// them all as much, and those that say less.
type ward struct {
	parts    []string
	by, less []*model.Rule
	bare     bool // somewhere
}

// ruleLosses gives the Compatibility rows of OLD that are gone or weaker for parts and
// vehicles of both releases.
func (c *comparison) ruleLosses(ctx context.Context) ([]Loss, error) {
	var open []*watched
	k := c.newKeeper()
	for _, r := range c.old.Catalogue.Rules {
		if w := k.watch(r); w != nil {
			open = append(open, w)
		}
	}
	pairs := slices.DeleteFunc(c.both(), func(v versions) bool {
		return !slices.ContainsFunc(open, func(r *watched) bool { return r.When.Concerns(v.old) })
	})
	found := make([][]bareRule, len(pairs))
	err := c.each(ctx, len(pairs), func(w *worker, i int) { found[i] = w.bareRules(pairs[i], open) })
	var out []Loss
	for _, list := range found {
		for _, b := range list {
			b.join()
		}
	}
	for _, r := range open {
		if len(r.bare) > 0 {
			out = append(out, r.loss())
		}
	}
	return out, err
}

// bareRule is what a row protects no more on one platform.
type bareRule struct {
	Bare
	rule   *watched
	groups []*ward // empty: it protects all of the platform still
	left   *model.Rule
	kept   *model.Rule
}

func (b *bareRule) join() {
	if b.rule.kept == nil {
		b.rule.kept = b.kept
	}
	if len(b.groups) == 0 {
		return
	}
	b.rule.bare = append(b.rule.bare, b.Bare)
	for _, g := range b.groups {
		g.bare = true
	}
	if old := b.rule.left; old == nil || b.left != nil && b.left.Effect < old.Effect {
		b.rule.left = b.left
	}
}

// bareRules works out on one platform where rows are gone. Where that is too irregular,
// nothing is taken to protect.
func (w *worker) bareRules(v versions, open []*watched) []bareRule {
	p, err := w.open(v)
	if err == nil {
		err = p.Try(p.settle)
	}
	var out []bareRule
	for _, r := range open {
		if r.When.SetAside || !r.When.Concerns(v.old) {
			continue
		}
		b := bareRule{Bare: Bare{Platform: p.platform.Name}, rule: r}
		if err != nil || p.tried(func() { p.bare(&b) }) != nil {
			b.Region, b.groups = nil, r.groups
		}
		if len(b.groups) > 0 || b.kept != nil {
			out = append(out, b)
		}
	}
	return out
}

// tried is Try, after which nothing is kept.
func (p *pair) tried(f func()) error {
	defer p.Release(p.Mark())
	return p.Try(f)
}

// bare finds the vehicles on which some part is protected no more. It runs inside Try.
func (p *pair) bare(b *bareRule) {
	was := p.Intersect(p.common(), p.Box(p.old.Bounds(&b.rule.When)))
	all := space.Empty
	for _, g := range b.rule.groups {
		rest := was
		for _, n := range p.rules(g.by) {
			if b.kept == nil && p.Meets(was, p.new.Bounds(&n.When)) {
				b.kept = n
			}
			rest = p.Minus(rest, p.Box(p.new.Bounds(&n.When)))
		}
		if rest == space.Empty {
			continue
		}
		all, b.groups = p.Union(all, rest), append(b.groups, g)
		for _, n := range p.rules(g.less) {
			if (b.left == nil || n.Effect < b.left.Effect) && p.Meets(rest, p.new.Bounds(&n.When)) {
				b.left = n
			}
		}
	}
	if all != space.Empty {
		b.Region, b.Whole = p.region(all, nil, p.traitsOf(b.rule, b.groups)), all == was
	}
}

// rules gives those of NEW that are about the platform.
func (p *pair) rules(all []*model.Rule) []*model.Rule {
	return slices.DeleteFunc(slices.Clone(all), func(r *model.Rule) bool { return !r.When.Concerns(p.new.Model) })
}

// traitsOf gives the traits that a row and what stands for it name.
func (p *pair) traitsOf(r *watched, groups []*ward) decide.Mention {
	by := make(decide.Mention, p.Traits())
	by.Box(p.old.Bounds(&r.When))
	for _, g := range groups {
		for _, n := range p.rules(g.by) {
			by.Box(p.new.Bounds(&n.When))
		}
	}
	return by
}

func (r *watched) loss() Loss {
	out := Loss{Sheet: "Compatibility", Was: ruleWords(r.Rule), Where: r.bare, Old: []cell.Place{r.At}}
	if r.Part != nil {
		out.Part = r.Part.Number
	}
	if slices.ContainsFunc(r.groups, func(g *ward) bool { return !g.bare }) {
		for _, g := range r.groups {
			if g.bare {
				out.Parts = append(out.Parts, g.parts...)
			}
		}
	}
	if out.Narrower = r.kept != nil && len(out.Parts) == 0; out.Narrower && r.left == nil {
		r.left = r.kept
	}
	if r.left != nil {
		out.Now, out.New = ruleWords(r.left), []cell.Place{r.left.At}
	}
	return out
}

// ruleWords says a Compatibility row: `forbid HD-20 with BK-4 where Levelling Electronic`.
func ruleWords(r *model.Rule) string {
	var about string
	switch {
	case r.Part == nil:
		about = "the family " + r.Family
	case r.Family != "":
		about = r.Part.Number + " of the family " + r.Family
	default:
		about = r.Part.Number
	}
	words := r.Effect.String() + " " + about
	if r.With != nil {
		words = fmt.Sprintf("%s %s with %s", r.Effect, about, r.With.Number)
	}
	if where := whenWords(&r.When); where != "" {
		words += " where " + where
	}
	return words
}

// whenWords says a condition, "" for any vehicle.
func whenWords(w *model.When) string {
	var words []string
	if w.Platforms != nil {
		var names []string
		for _, p := range w.Platforms {
			names = append(names, p.Name)
		}
		words = append(words, "Platform "+word.List(names, "or"))
	}
	if w.Years != nil {
		words = append(words, "Years "+yearWords(w.Years))
	}
	for _, t := range w.Traits {
		words = append(words, t.String())
	}
	return strings.Join(words, ", ")
}

func yearWords(y *model.Years) string {
	var words []string
	for _, s := range y.Spans {
		switch {
		case s.From == model.FirstYear:
			words = append(words, fmt.Sprintf("to %d", s.To))
		case s.To == model.LastYear:
			words = append(words, fmt.Sprintf("from %d", s.From))
		default:
			words = append(words, model.SpanWords([]model.Span{s}))
		}
	}
	if y.Not {
		return "not " + strings.Join(words, ", ")
	}
	return strings.Join(words, ", ")
}

// keeper finds the rows of NEW that may stand for one of OLD.
type keeper struct {
	*comparison
	parts    map[string]*model.Part // of NEW, by number
	byPart   map[*model.Part][]*model.Rule
	byFamily map[string][]*model.Rule
	families map[string][]*model.Part // of OLD
}

func (c *comparison) newKeeper() *keeper {
	k := &keeper{c, c.numbers(), map[*model.Part][]*model.Rule{}, map[string][]*model.Rule{}, map[string][]*model.Part{}}
	for _, r := range c.new.Catalogue.Rules {
		if r.Part != nil {
			k.byPart[r.Part] = append(k.byPart[r.Part], r)
		} else {
			k.byFamily[word.Fold(r.Family)] = append(k.byFamily[word.Fold(r.Family)], r)
		}
	}
	for _, p := range c.old.Catalogue.Parts {
		k.families[word.Fold(p.Family)] = append(k.families[word.Fold(p.Family)], p)
	}
	return k
}

// watch gives a row of OLD that is to be looked at on vehicles; nil where NEW has a row
// that says the same for every part, or where neither part is there any more.
func (k *keeper) watch(r *model.Rule) *watched {
	w := &watched{Rule: r}
	if r.With != nil && k.parts[k.number(isOld, r.With)] == nil && r.Effect != model.Require {
		return nil // there is nothing left to keep it from
	}
	seen, safe := map[string]*ward{}, true
	key := k.whenKey(isOld, &r.When)
	for _, p := range k.subjects(r) {
		g, mark := k.ward(r, p)
		if old := seen[mark]; old != nil {
			old.parts = append(old.parts, p.Number)
			continue
		}
		seen[mark] = g
		w.groups = append(w.groups, g)
		safe = safe && slices.ContainsFunc(g.by, func(n *model.Rule) bool { return k.whenKey(isNew, &n.When) == key })
	}
	if safe {
		return nil
	}
	return w
}

// subjects gives the parts of NEW that a row of OLD was about.
func (k *keeper) subjects(r *model.Rule) []*model.Part {
	list := k.families[word.Fold(r.Family)]
	if r.Part != nil {
		list = nil
		if r.Family == "" || word.Fold(r.Family) == word.Fold(r.Part.Family) {
			list = []*model.Part{r.Part}
		}
	}
	var out []*model.Part
	for _, p := range list {
		if now := k.parts[k.number(isOld, p)]; now != nil {
			out = append(out, now)
		}
	}
	return out
}

// ward sorts the rows of NEW about a part by whether they protect it as much as a row of
// OLD; mark is equal for parts of which that is the same.
func (k *keeper) ward(old *model.Rule, p *model.Part) (g *ward, mark string) {
	g = &ward{parts: []string{p.Number}}
	var b strings.Builder
	for _, n := range slices.Concat(k.byPart[p], k.byFamily[word.Fold(p.Family)]) {
		switch {
		case n.When.SetAside || n.Family != "" && word.Fold(n.Family) != word.Fold(p.Family):
			continue
		case k.asMuch(old, n):
			g.by = append(g.by, n)
		case k.sameCompany(old, n) && n.Effect > old.Effect:
			g.less = append(g.less, n)
		default:
			continue
		}
		fmt.Fprintf(&b, "%p ", n)
	}
	return g, b.String()
}

// sameCompany tells whether two rows name the same part under With, or none.
func (k *keeper) sameCompany(old, new *model.Rule) bool {
	if old.With == nil || new.With == nil {
		return old.With == nil && new.With == nil
	}
	return k.number(isOld, old.With) == k.number(isNew, new.With)
}

// asMuch tells whether a row of NEW protects a part that both are about at least as much,
// where both hold. What a part may not be fitted at all is stronger than any company.
func (k *keeper) asMuch(old, new *model.Rule) bool {
	alone := new.With == nil
	switch old.Effect {
	case model.Forbid:
		return new.Effect == model.Forbid && (alone || k.sameCompany(old, new))
	case model.Require:
		replaced := k.parts[k.number(isOld, old.With)] == nil
		return new.Effect == model.Forbid && alone || new.Effect == model.Require && (replaced || k.sameCompany(old, new))
	}
	return alone && new.Effect != model.Require || k.sameCompany(old, new)
}

// whenKey is equal for conditions of either release that say the same under the names of
// NEW. Unlike keys may still hold for the same vehicles.
func (c *comparison) whenKey(s which, w *model.When) string {
	var b strings.Builder
	for _, p := range w.Platforms {
		fmt.Fprintf(&b, "p%s ", mapped(s, p.Index, c.platforms.toNew))
	}
	if w.Years != nil {
		fmt.Fprintf(&b, "y%v %v ", w.Years.Not, w.Years.Spans)
	}
	var traits []string
	for _, t := range w.Traits {
		traits = append(traits, c.traitKey(s, t))
	}
	slices.Sort(traits)
	return b.String() + strings.Join(traits, " ")
}

func (c *comparison) traitKey(s which, t model.TraitSet) string {
	trait := mapped(s, t.Trait.Index, c.traits.toNew)
	var values []string
	for v := range t.Values.Values() {
		switch j := c.traits.toNew; {
		case v == t.Trait.Absent():
			values = append(values, "absent")
		case s == isOld && j[t.Trait.Index] >= 0:
			values = append(values, mapped(s, v, c.values[j[t.Trait.Index]].toNew))
		default:
			values = append(values, fmt.Sprint(v))
		}
	}
	slices.Sort(values)
	if t.Line != nil {
		values = []string{t.Cell()}
	}
	return fmt.Sprintf("t%s %v", trait, values)
}

// mapped is the number of a thing in NEW; -1, which nothing has there, of one that only OLD has.
func mapped(s which, i int, toNew []int) string {
	if s == isNew {
		return fmt.Sprint(i)
	}
	return fmt.Sprint(toNew[i])
}

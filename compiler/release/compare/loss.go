package compare

import (
	"context"
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Loss is something that protects in OLD, and in NEW not at all or less: a row of
// Compatibility, Limits, Cautions or Inspections, a part's Line size or cautions, a position's Air line.
// Where several went with one sheet or column they are one loss.
type Loss struct {
	Sheet    string   // where it stood: Compatibility, Limits, Cautions, Inspections, Parts or Positions
	Was      string   // what it said, or what went
	Now      string   // what is left of it; "" for nothing
	Parts    []string // that it protects no more, where it does others; all of them
	Rows     []string // of several in one: what each said
	Part     string   // "" where it is not about one part
	Position string   // "" where it is not about one position
	Old, New []cell.Place
	Where    []Bare // vehicles of both releases that it protected; nil where it is about no certain ones
	Narrower bool   // it protects other vehicles still
	Accepted *finding.Accepted
}

// Bare is vehicles of a platform that something protects no more.
type Bare struct {
	Platform string
	Region   *finding.Region // nil: too irregular to be compared
	Whole    bool            // all that it protected there
}

// mostInLoss is how many of several losses that went together are named.
const mostInLoss = 40

// Losses gives what protects in OLD and not in NEW, in the order of OLD's sheets:
// Compatibility, Limits, Cautions, Inspections, Parts, Positions. Rules and inspections are compared by the
// parts and vehicles that both releases have, so that one that was reworded, or split into several
// that say the same, is no loss; looks are those of inspections. The error is the context's.
func (c *comparison) losses(ctx context.Context, looks []Loss) ([]Loss, error) {
	rules, err := c.ruleLosses(ctx)
	if err != nil {
		return nil, err
	}
	lines, err := c.airLines(ctx)
	if err != nil {
		return nil, err
	}
	a := c.new.Catalogue
	out := slices.Concat(
		together(rules, len(a.Rules) == 0, "all rows of Compatibility"),
		together(c.limitLosses(), len(a.Limits) == 0, "all rows of Limits"),
		together(c.cautionLosses(), len(a.Cautions) == 0, "all rows of Cautions"),
		together(looks, len(a.Inspections) == 0, "all rows of Inspections"),
		together(c.partCautions(), true, "cautions of parts"),
		together(c.lineSizes(), true, "the Line size of several parts"),
		lines)
	for i := range out {
		c.accept(&out[i])
	}
	return out, nil
}

// together makes one loss of several that went with one sheet or column.
func together(all []Loss, one bool, was string) []Loss {
	if !one || len(all) < 2 {
		return all
	}
	out := Loss{Sheet: all[0].Sheet, Was: fmt.Sprintf("%s (%d)", was, len(all))}
	for i := range all {
		l := &all[i]
		if i < mostInLoss {
			out.Rows = append(out.Rows, l.sentence())
			out.Old, out.New = append(out.Old, l.Old...), append(out.New, l.New...)
		}
	}
	if n := len(all) - mostInLoss; n > 0 {
		out.Rows = append(out.Rows, fmt.Sprintf("and %d more", n))
	}
	return []Loss{out}
}

// sentence says a loss in a few words.
func (l *Loss) sentence() string {
	words := l.Was
	if l.Now != "" {
		words += " (now " + l.Now + ")"
	}
	if len(l.Parts) > 0 {
		words += " of " + few(l.Parts)
	}
	return words
}

// mostParts is how many parts a sentence names.
const mostParts = 8

func few(parts []string) string {
	if n := len(parts) - mostParts; n > 0 {
		parts = append(slices.Clone(parts[:mostParts]), fmt.Sprintf("%d more", n))
	}
	return word.List(parts, "and")
}

// accept marks what an Accepted row without years and traits names.
func (c *comparison) accept(l *Loss) {
	f := finding.Finding{Code: finding.ProtectionLost, Part: l.Part, Position: l.Position, Platform: l.platform()}
	c.ledger.Whole(&f, accept.Use{})
	l.Accepted = f.Accepted
}

// platform names the platform of a loss that is about one alone.
func (l *Loss) platform() string {
	if len(l.Where) == 1 {
		return l.Where[0].Platform
	}
	return ""
}

// numbers gives the parts of NEW by their folded numbers.
func (c *comparison) numbers() map[string]*model.Part {
	out := map[string]*model.Part{}
	for _, p := range c.new.Catalogue.Parts {
		out[c.number(isNew, p)] = p
	}
	return out
}

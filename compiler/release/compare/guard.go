package compare

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// GuardKinds describes the codes that a comparison with an earlier release tells.
func GuardKinds() []finding.Kind {
	return []finding.Kind{
		{Code: finding.ProtectionLost, Severity: "warning",
			Summary: "with --since: something that protected in the earlier release is gone, or weaker",
			Doc: "A row of Compatibility, Limits, Cautions or Inspections (of the levels danger and warning), a part's Line size or cautions, or a position's Air line that the earlier release has and this one has not, or has weaker: forbid became require or caution, an error a warning, the conditions hold for fewer vehicles. " +
				"Nothing else would tell, since what is not there breaks no rule. Rules and inspections are compared by the parts and vehicles that both releases have, so that one that was reworded or split is not told. Put it back, or accept the finding where it is meant; such an Accepted row has neither Years nor traits.",
			Before: "(earlier)  Compatibility!A5  HD-20  C5  BK-4  F5  forbid\n(now)      Compatibility!A5  HD-20  C5  BK-4  F5  caution",
			After:  "(now)      Compatibility!A5  HD-20  C5  BK-4  F5  forbid"},
		{Code: finding.ColumnPublished, Severity: "note",
			Summary: "with --since: columns of Parts are published that were not in the earlier release",
			Doc:     "Texts are for you only unless public columns in Settings lists their column; measured and calculated values are published unless internal columns lists it. The note names what the world can see now and could not before, so that no cost or supplier gets out by an oversight.",
			Before:  "Settings!A8  public columns  B8  Thread, Supplier",
			After:   "Settings!A8  public columns  B8  Thread"},
		{Code: finding.UnitChanged, Severity: "warning",
			Summary: "with --since: the header of a column has another unit, over the same numbers",
			Doc:     "Whoever writes another unit into a header says something else with every number below it. Where all of them are wrong alike, none looks odd beside the others, so that only the earlier release can tell. Rows count that are the same in both releases. Where the header was wrong before, accept the finding until the release after.",
			Before:  "(earlier)  Parts!G1  Extended length [mm]   G4  612\n(now)      Parts!G1  Extended length [in]   G4  612",
			After:   "(now)      Parts!G1  Extended length [mm]   G4  612"},
		{Code: finding.TranslationStale, Severity: "warning",
			Summary: "with --since: a text has changed, and its translation has not",
			Doc:     "The translation stood beside another text in the earlier release, which is gone. Readers of the other language would be told what the workbook no longer says. Where the change made no difference to the translation (a comma, a spelling), accept the finding until the release after.",
			Before:  "(earlier)  Translations!A4  Tighten it.           B4  Serrez.\n(now)      Translations!A4  Never tighten it.     B4  Serrez.",
			After:   "(now)      Translations!A4  Never tighten it.     B4  Ne serrez jamais."},
	}
}

// Guard tells what no longer protects in NEW, what it publishes that OLD did not, and which
// columns a slip of the hand has moved; now is what NEW is told anyway. The error is the context's.
func Guard(ctx context.Context, old, new *Release, now []*finding.Finding, o Options) ([]*finding.Finding, error) {
	return until(ctx, func() ([]*finding.Finding, error) { return guarded(ctx, old, new, now, o) })
}

func guarded(ctx context.Context, old, new *Release, now []*finding.Finding, o Options) ([]*finding.Finding, error) {
	c := newComparison(old, new, o)
	if err := c.rename(ctx); err != nil {
		return nil, err
	}
	return c.guard(ctx, now)
}

func (c *comparison) guard(ctx context.Context, now []*finding.Finding) ([]*finding.Finding, error) {
	looks, err := c.inspectionLosses(ctx)
	if err != nil {
		return nil, err
	}
	losses, err := c.losses(ctx, looks)
	if err != nil {
		return nil, err
	}
	out := c.slips(now)
	for i := range losses {
		out = append(out, losses[i].finding())
	}
	if f := c.published(); f != nil {
		c.ledger.Whole(f, accept.Use{})
		out = append(out, f)
	}
	for _, f := range c.stale() {
		c.ledger.Whole(f, accept.Use{})
		out = append(out, f)
	}
	return out, nil
}

// finding puts a loss into the words of a finding.
func (l *Loss) finding() *finding.Finding {
	f := &finding.Finding{Code: finding.ProtectionLost, Severity: finding.Warning, Message: l.String(),
		Platform: l.platform(), Position: l.Position, Part: l.Part, Accepted: l.Accepted,
		Fix: "put it back, or accept the finding where it is meant"}
	if len(l.Where) == 1 {
		f.Region = finding.Pack(l.Where[0].Region)
	}
	for _, at := range once(l.New) {
		f.Cells = append(f.Cells, finding.Cell{Place: at})
	}
	if len(f.Cells) == 0 {
		for _, at := range once(l.Old) {
			f.Cells = append(f.Cells, finding.Cell{Place: at, Note: "of the earlier release"})
		}
	}
	return f
}

// mostPlaces is how many cells a finding names.
const mostPlaces = 5

// once gives the first few of some places, each once.
func once(list []cell.Place) []cell.Place {
	var out []cell.Place
	for _, at := range list {
		if len(out) < mostPlaces && !slices.Contains(out, at) {
			out = append(out, at)
		}
	}
	return out
}

// String says what went, in a sentence.
func (l *Loss) String() string {
	said := "had " + l.Was
	if l.Sheet == "Compatibility" || l.Sheet == "Limits" {
		said = "said " + l.Was
	}
	words := fmt.Sprintf("the earlier release %s, and this one does not", said)
	switch {
	case len(l.Rows) > 0:
		words = fmt.Sprintf("%s went since the earlier release: %s", l.Was, strings.Join(l.Rows, "; "))
	case l.Now != "" && len(l.Parts) == 0:
		words = fmt.Sprintf("the earlier release %s, and this one has only %s", said, l.Now)
	}
	if len(l.Parts) > 0 {
		words += " for " + few(l.Parts)
	}
	if where := l.where(); where != "" {
		words += ": it is gone for " + where
	}
	return words
}

// mostBoxes is how many boxes of a platform a sentence names.
const mostBoxes = 3

// where names the vehicles, "" where all are meant that there were.
func (l *Loss) where() string {
	if !l.Narrower && !slices.ContainsFunc(l.Where, func(b Bare) bool { return !b.Whole }) {
		return ""
	}
	var out []string
	for _, b := range l.Where {
		out = append(out, b.words())
	}
	if n := len(out) - mostInLoss; n > 0 {
		out = append(out[:mostInLoss], fmt.Sprintf("%d platforms more", n))
	}
	return strings.Join(out, "; ")
}

func (b *Bare) words() string {
	switch {
	case b.Region == nil:
		return b.Platform + ", whose vehicles are too irregular to be compared"
	case b.Whole:
		return b.Platform
	}
	var boxes []string
	for _, box := range b.Region.Where[:min(mostBoxes, len(b.Region.Where))] {
		boxes = append(boxes, box.String())
	}
	if len(boxes) < len(b.Region.Where) || len(boxes) == 0 {
		boxes = append(boxes, "and others")
	}
	return b.Platform + " " + strings.Join(boxes, ", or ")
}

// published names the properties that NEW publishes and OLD did not; nil for none.
func (c *comparison) published() *finding.Finding {
	before, seen := map[string]bool{}, map[string]bool{}
	for _, p := range c.old.Catalogue.Parts {
		for i := range p.Properties {
			if q := &p.Properties[i]; q.Public {
				before[word.Fold(q.Name)] = true
			}
		}
	}
	var names []string
	var at []cell.Place
	for _, p := range c.new.Catalogue.Parts {
		for i := range p.Properties {
			q := &p.Properties[i]
			if key := word.Fold(q.Name); q.Public && q.Text != "" && !before[key] && !seen[key] {
				seen[key] = true
				names, at = append(names, q.Name), append(at, q.At)
			}
		}
	}
	if len(names) == 0 {
		return nil
	}
	return &finding.Finding{Code: finding.ColumnPublished, Severity: finding.Note,
		Message: "the earlier release did not publish " + word.List(names, "and") + " of Parts, and this one does",
		Cells:   finding.At(at...),
		Fix:     "list under internal columns in Settings what is for you only"}
}

package report

import (
	"fmt"
	"io"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/release/compare"
	"ferrule/out/data"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// DiffFormats are the names that Diff takes.
func DiffFormats() []string { return []string{"text", "json", "markdown"} }

// NewDiff gives what writes a comparison in the format of that name. The error is a
// sentence for the user.
func NewDiff(name string, o Options) (func(io.Writer, *data.Compared) error, error) {
	switch name {
	case "text":
		return func(w io.Writer, c *data.Compared) error { return diffText(w, c, newText(o).Options) }, nil
	case "json":
		return data.Diff, nil
	case "markdown":
		return diffMarkdown, nil
	}
	known := DiffFormats()
	last := len(known) - 1
	return nil, fmt.Errorf("there is no format %q%s, write %s or %s", name,
		word.DidYouMean(name, known), strings.Join(known[:last], ", "), known[last])
}

// shownChanges is how many changes of a kind are shown to people; JSON tells all.
const shownChanges = 20

// diffText tells a comparison to people, the most important last.
func diffText(w io.Writer, c *data.Compared, o Options) error {
	p := &page{w: w, width: max(o.Width, narrowest), color: o.Color}
	p.wrap("old ", 4, quote(plain).state(c.Old))
	p.wrap("new ", 4, quote(plain).state(c.New))
	listed(p, "renamed", c.Renames, quote(plain).renamed)
	listed(p, "told apart", c.Splits, quote(plain).parted)
	for k := range compare.Kinds {
		p.kind(k, c.Diff)
	}
	listed(p, "said differently", c.Advice, quote(plain).advised)
	listed(p, "not compared", c.Irregular, quote(plain).tangled)
	p.line("")
	p.title(outcome(c.Diff))
	return p.err
}

func listed[T any](p *page, title string, list []T, say func(*T) string) {
	if len(list) == 0 {
		return
	}
	p.line("")
	p.title(fmt.Sprintf("%s: %d", title, len(list)))
	for i := range list[:min(len(list), shownChanges)] {
		p.wrap("  ", 2, say(&list[i]))
	}
	if n := len(list) - shownChanges; n > 0 {
		p.line(fmt.Sprintf("  +%d more", n))
	}
}

// kind tells the differences of one kind.
func (p *page) kind(k compare.Kind, d *compare.Diff) {
	sum := d.Sums()[k]
	if sum.Entries == 0 {
		return
	}
	p.line("")
	p.title(fmt.Sprintf("%s: %d%s", k, sum.Entries, acceptedOf(sum)))
	shown := 0
	for i := range d.Fleets {
		if f := &d.Fleets[i]; f.Kind == k && shown < shownChanges {
			shown++
			p.wrap("  ", 2, quote(plain).moved(f))
			p.region(f.Region)
		}
	}
	for i := range d.Changes {
		if c := &d.Changes[i]; c.Kind == k && shown < shownChanges {
			shown++
			p.differs(c)
		}
	}
	for i := range d.Losses {
		if k == compare.Unprotected && shown < shownChanges {
			shown++
			p.bare(&d.Losses[i])
		}
	}
	if n := sum.Entries - shown; n > 0 {
		p.line(fmt.Sprintf("  +%d more, which --format json tells", n))
	}
}

func (p *page) differs(c *compare.Change) {
	p.wrap("  ", 2, quote(plain).changed(c))
	p.region(c.Region)
	p.said("old", c.Old)
	p.said("new", c.New)
	if c.Accepted != nil {
		p.aside("accepted", acceptedBy(c.Accepted))
	}
}

// said lists the cells of one side.
func (p *page) said(label string, a compare.Answer) {
	if len(a.Cells) > 0 {
		p.aside(label, strings.Join(cells(a, shownCells), ", "))
	}
}

// cells names the cells that say so, at most n, each sheet once in a row.
func cells(a compare.Answer, n int) []string {
	var words []string
	var last *cell.Sheet
	for _, c := range a.Cells[:min(n, len(a.Cells))] {
		if c.Sheet == last {
			words = append(words, c.Pos.String())
		} else {
			words = append(words, c.String())
		}
		last = c.Sheet
	}
	if more := len(a.Cells) + a.More - len(words); more > 0 {
		words = append(words, fmt.Sprintf("+%d more", more))
	}
	return words
}

func acceptedBy(a *finding.Accepted) string {
	until := ""
	if a.Until != "" {
		until = " until " + a.Until
	}
	return fmt.Sprintf("by %s%s: %s (%s)", a.By, until, a.Reason, a.Cell)
}

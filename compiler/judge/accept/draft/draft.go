// Package draft writes Accepted rows for findings that stand, so that someone can answer
// for them: a baseline for a catalogue that is not clean yet.
//
// The rows of a finding name its code, platform, position and part, and its boxes in the
// words of cells. Years are always written, so that a row never reaches to model years
// that come later. What no row can name alone is left out and told.
package draft

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"ferrule/compiler/bind"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema/word"
)

// Options say what is accepted, and who answers for it.
type Options struct {
	Select Selection // which findings
	Reason string    // as Accepted has it
	By     string    // who answers for it
	Until  string    // ISO date, "" for no end
	// Broad also accepts findings of which a row can name nothing but the code: it quiets
	// every finding of that code, later ones as well.
	Broad bool
}

// Selection picks findings; an empty list picks all.
type Selection struct {
	Severity  finding.Severity // the least
	Codes     []finding.Code   // none: all
	Platforms []string         // names as declared
	Positions []string         // none: all
	Parts     []string         // none: all
}

func (s *Selection) picks(f *finding.Finding) bool {
	return f.Accepted == nil && f.Severity >= s.Severity && holds(s.Codes, f.Code) && holds(s.Platforms, f.Platform) &&
		holds(s.Positions, f.Position) && holds(s.Parts, f.Part)
}

func holds[T comparable](list []T, v T) bool { return len(list) == 0 || slices.Contains(list, v) }

// Draft is Accepted rows as text, with what they stand for.
type Draft struct {
	Columns []string
	Rows    [][]string
	Entries []Entry
	Left    []Left
}

// Entry is a finding that the rows accept.
type Entry struct {
	Finding *finding.Finding
	Rows    int // how many of the rows it needs; findings may share rows
}

// Left is a finding that was picked and that no row accepts.
type Left struct {
	Finding *finding.Finding
	Why     string
}

// New drafts rows for findings, in their order.
func New(cat *model.Catalogue, findings []*finding.Finding, o Options) *Draft {
	d := &drafter{cat: cat, words: bind.NewWords(cat), options: o, seen: map[string]bool{}, crowded: map[class]bool{}, out: &Draft{}}
	for _, f := range findings {
		if o.Select.picks(f) && crowded(f) {
			d.crowded[classOf(f)] = true
		}
	}
	for _, f := range findings {
		if !o.Select.picks(f) {
			continue
		}
		rows, why := d.rows(f)
		if why != "" {
			d.out.Left = append(d.out.Left, Left{f, why})
			continue
		}
		for _, r := range rows {
			d.add(r)
		}
		d.out.Entries = append(d.out.Entries, Entry{f, len(rows)})
	}
	d.table()
	return d.out
}

// Configurations adds up the vehicles of all entries; one that is in several findings
// counts for each.
func (d *Draft) Configurations() (n *big.Int, road *big.Rat) {
	n, road = new(big.Int), new(big.Rat)
	for _, e := range d.Entries {
		if r := e.Finding.Region.Open(); r != nil && r.Exact {
			n.Add(n, r.Configurations)
			road.Add(road, r.OnTheRoad)
		}
	}
	return n, road
}

type drafter struct {
	cat     *model.Catalogue
	words   *bind.Words
	options Options
	seen    map[string]bool
	crowded map[class]bool // findings that one row cannot tell apart, of which one takes too many rows
	list    []row
	out     *Draft
}

// row is one Accepted row: what stands under each column.
type row map[string]string

// key is the same for rows that say the same.
func (r row) key(columns []string) string {
	var b strings.Builder
	for _, c := range columns {
		b.WriteString(r[c])
		b.WriteByte(0)
	}
	return b.String()
}

// rows gives the rows of a finding, or why there can be none.
func (d *drafter) rows(f *finding.Finding) ([]row, string) {
	if why := d.unnameable(f); why != "" {
		return nil, why
	}
	base := row{"Finding": string(f.Code), "Platform": f.Platform, "Position": f.Position, "Part": f.Part}
	region := f.Region.Open()
	if region == nil || !region.Exact {
		return []row{base}, ""
	}
	switch {
	case crowded(f):
		return nil, fmt.Sprintf("its vehicles take more than %d rows", len(region.Where))
	case d.crowded[classOf(f)]:
		return nil, "its rows would quiet a part of a finding that takes too many rows"
	}
	var out []row
	for _, b := range region.Where {
		out = append(out, d.boxed(base, f.Platform, b)...)
	}
	return out, ""
}

// class is what a row can name of a finding beside its vehicles.
type class struct {
	code                     finding.Code
	platform, position, part string
}

func classOf(f *finding.Finding) class { return class{f.Code, f.Platform, f.Position, f.Part} }

// crowded tells whether the boxes of a finding leave out some of its vehicles.
func crowded(f *finding.Finding) bool {
	r := f.Region.Open()
	return r != nil && r.Exact && r.Rest != nil
}

// unnameable says why no row can accept a finding alone; "" where one can.
func (d *drafter) unnameable(f *finding.Finding) string {
	switch {
	case f.Code == finding.AcceptedExpired || f.Code == finding.AcceptedUnused:
		return "it is about an Accepted row: mend or delete that row"
	case f.Position != "" && word.Fold(f.Position) == "any":
		return "a row cannot name a position that is called any"
	case f.Region == nil && f.Platform == "" && f.Position == "" && f.Part == "" && !d.options.Broad:
		return fmt.Sprintf("it is about no certain vehicles, so a row would quiet every %s, later ones as well (--broad does that)", f.Code)
	}
	if f.Part != "" {
		if _, err := d.words.Part(f.Part); err != nil {
			return fmt.Sprintf("a row cannot name %s, which nothing declares", f.Part)
		}
	}
	return ""
}

// boxed gives the rows of one box: several where a value can only stand alone in a cell.
func (d *drafter) boxed(base row, platform string, b model.Box) []row {
	years := b.Years
	if years == nil {
		p, err := d.words.Platform(platform)
		if err != nil {
			panic("draft: a finding about vehicles names a platform: " + err.Error())
		}
		years = p.Spans(space.All(len(p.Years)))
	}
	rows := []row{base.with("Years", bind.YearCell(years))}
	for _, t := range b.Traits {
		var next []row
		for _, text := range d.words.Cells(t) {
			for _, r := range rows {
				next = append(next, r.with(t.Trait.Name, text))
			}
		}
		rows = next
	}
	return rows
}

func (r row) with(column, text string) row {
	out := row{column: text}
	for k, v := range r {
		if k != column {
			out[k] = v
		}
	}
	return out
}

func (d *drafter) add(r row) {
	if key := r.key(d.columns()); !d.seen[key] {
		d.seen[key] = true
		d.list = append(d.list, r)
	}
}

// columns gives all columns of a row, in the order of the sheet.
func (d *drafter) columns() []string {
	out := []string{"Finding", "Platform", "Years"}
	for _, t := range d.cat.Traits {
		out = append(out, t.Name)
	}
	return append(out, "Position", "Part")
}

// table gives the rows the columns that any of them fills, and who answers for them.
func (d *drafter) table() {
	for _, c := range d.columns() {
		if c == "Finding" || slices.ContainsFunc(d.list, func(r row) bool { return r[c] != "" }) {
			d.out.Columns = append(d.out.Columns, c)
		}
	}
	o := d.options
	for _, r := range d.list {
		var line []string
		for _, c := range d.out.Columns {
			line = append(line, r[c])
		}
		d.out.Rows = append(d.out.Rows, append(line, o.Reason, o.By, o.Until))
	}
	d.out.Columns = append(d.out.Columns, "Reason", "By", "Until")
}

package enumerate

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// joint is what rows-mergeable tells: some rows, and what one row would say
// under one column instead of them.
type joint struct {
	rows         []*fit
	column, text string
}

var jointWords = regexp.MustCompile(`^rows ([0-9]+(?:, [0-9]+)* and [0-9]+) .*could be one row with ("(?:[^"\\]|\\.)*") under (.+)$`)

func (c *catalogue) joint(f finding) (joint, error) {
	var j joint
	m := jointWords.FindStringSubmatch(f.Message)
	if m == nil {
		return j, fmt.Errorf("the message gives no row to write: %s", f.Message)
	}
	text, err := strconv.Unquote(m[2])
	if err != nil {
		return j, fmt.Errorf("%s: %w", m[2], err)
	}
	j.text, j.column = text, m[3]
	cells := map[ref]bool{}
	for _, number := range regexp.MustCompile("[0-9]+").FindAllString(m[1], -1) {
		r := c.fitAt(f.Cells[0], number)
		if r == nil || slices.Contains(j.rows, r) {
			return j, fmt.Errorf("row %s is no fitment row, or is named twice: %s", number, f.Message)
		}
		j.rows = append(j.rows, r)
		cells[r.first] = true
	}
	for _, at := range f.Cells {
		if !cells[at] {
			return j, fmt.Errorf("%v is the leftmost cell of no row of these, or is told twice: %s", at, f.Message)
		}
		delete(cells, at)
	}
	if len(cells) > 0 {
		return j, fmt.Errorf("%v lack %v", f.Cells, cells)
	}
	return j, nil
}

// fitAt is the fitment row with a number on the sheet of a cell.
func (c *catalogue) fitAt(at ref, number string) *fit {
	for _, r := range c.fits {
		if !r.gone && r.first.File == at.File && r.first.Sheet == at.Sheet && strconv.Itoa(r.line) == number {
			return r
		}
	}
	return nil
}

// row is the one row to write.
func (j joint) row(c *catalogue) (*fit, error) {
	one := *j.rows[0]
	one.traits = slices.Clone(one.traits)
	if j.column == "Years" {
		years, err := plainYears(j.text)
		one.years = years
		return &one, err
	}
	for i, t := range c.traits {
		if t.name == j.column {
			values, err := t.plain(j.text)
			one.traits[i] = values
			return &one, err
		}
	}
	return nil, fmt.Errorf("no column %q", j.column)
}

// plainYears reads one range of years: any, 2004, 2004-2008, 2004+, to 2008.
func plainYears(text string) (cond, error) {
	if text == "any" {
		return cond{form: "any"}, nil
	}
	from, to, both := strings.Cut(text, "-")
	switch {
	case strings.HasPrefix(text, "to "):
		from, to = strconv.Itoa(earliest), text[len("to "):]
	case strings.HasSuffix(text, "+"):
		from, to = text[:len(text)-1], strconv.Itoa(last)
	case !both:
		to = from
	}
	lo, err := strconv.Atoi(from)
	if err != nil {
		return cond{}, err
	}
	hi, err := strconv.Atoi(to)
	return cond{form: "list", spans: [][2]int{{lo, hi}}}, err
}

// plain reads a list of declared values, n/a among them, or any.
func (t trait) plain(text string) (cond, error) {
	if text == "any" {
		return cond{form: "any"}, nil
	}
	c := cond{form: "list"}
	if t.line != nil {
		return t.plainLine(text)
	}
	for _, name := range strings.Split(text, ", ") {
		v := slices.IndexFunc(t.values, func(v value) bool { return v.name == name })
		switch {
		case name == "n/a":
			v = never
		case v < 0:
			return c, fmt.Errorf("%s has no value %q", t.name, name)
		}
		c.spans = append(c.spans, [2]int{v, v})
	}
	return c, nil
}

// mergeable wants each set of rows that rows-mergeable names to be replaceable
// by the row that it gives: everywhere the same is decided and printed.
func (k *checker) mergeable() {
	used := map[*fit]bool{}
	for _, f := range k.out.findings {
		if f.Code != "rows-mergeable" {
			continue
		}
		j, err := k.c.joint(f)
		if err != nil {
			k.failf(f.Code, "%v: %v", f.Cells, err)
			continue
		}
		one, err := j.row(k.c)
		if err != nil {
			k.failf(f.Code, "%v: %v", f.Cells, err)
			continue
		}
		for _, r := range j.rows {
			if used[r] || r.fault != "" || !k.o.exists(r.conds) || f.Severity != "note" {
				k.failf(f.Code, "%v: %s, told before, or it matches nothing", r.first, f.Severity)
			}
			used[r] = true
		}
		k.joined(f, j, one)
	}
	k.missed(used)
}

func (k *checker) joined(f finding, j joint, one *fit) {
	d := *k.c
	d.fits = slices.Clone(k.c.fits)
	d.fits[slices.Index(d.fits, j.rows[0])] = one
	d.fits = slices.DeleteFunc(d.fits, func(r *fit) bool { return slices.Contains(j.rows[1:], r) })
	changed := append([]*fit{one}, j.rows...)
	for _, w := range k.o.worlds {
		for i, g := range w.configs {
			if !slices.ContainsFunc(changed, func(r *fit) bool { return r.meets(w.platform, g) }) {
				continue
			}
			for pos := range k.c.positions {
				was, is := k.o.verdicts[w][i][pos].whole(), d.judge(w.platform, g, pos).whole()
				if was != is {
					k.failf(f.Code, "%v, %s at %s, %s: %s, and with the row of the message %s", f.Cells, k.c.platforms[w.platform].name, k.c.positions[pos].name, k.c.show(g), was, is)
					return
				}
			}
		}
	}
}

// whole is the answer with everything that is printed beside it.
func (v verdict) whole() string {
	return v.answer() + " " + strings.Join(v.distinct(func(d deciding) []string { return []string{d.fit.note, d.note} }), " / ")
}

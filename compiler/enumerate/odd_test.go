package enumerate

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// oddly gives the part of which a cell says an odd quantity where its position takes so
// many, "" for none: more than twice as many, or fewer and nothing noted.
func (c *catalogue) oddly(f *fit, pos int, st *statement, takes int) string {
	noted := f.note != "" || pos < len(f.notes) && f.notes[pos] != ""
	if st.kind != "parts" {
		return ""
	}
	for _, items := range c.written(f.cells[f.columns[pos]]) {
		sum, stated, ones := 0, true, len(items) > 1
		for i, it := range items {
			if it.quantity > 2*takes && (i == 0 || c.belongs(it.name, pos)) {
				return it.name
			}
			sum += it.quantity
			stated = stated && it.quantity > 0 && c.kit(it.name) == nil
			ones = ones && it.quantity == 1
		}
		if stated && sum < takes && !noted && !ones {
			return items[0].name
		}
	}
	return ""
}

var oneItem = regexp.MustCompile(`^(?:(\d+) ?x )?(.*)$`)

// written reads the choices of a cell in the order in which they are written; a part that
// is joined to others without a quantity is there once.
func (c *catalogue) written(cell any) [][]item {
	var out [][]item
	text := strings.Join(strings.Fields(strings.ReplaceAll(fmt.Sprint(cell), "+", " + ")), " ")
	for _, choice := range regexp.MustCompile("(?i) or ").Split(text, -1) {
		var items []item
		joined := strings.Split(choice, " + ")
		for _, one := range joined {
			m := oneItem.FindStringSubmatch(one)
			n, _ := strconv.Atoi(m[1])
			if n == 0 && len(joined) > 1 {
				n = 1
			}
			items = append(items, item{c.declared(m[2]), n})
		}
		out = append(out, items)
	}
	return out
}

// declared gives a number as it is declared, whatever its case.
func (c *catalogue) declared(name string) string {
	for _, p := range c.parts {
		if strings.EqualFold(p.name, name) {
			return p.name
		}
	}
	for _, k := range c.kits {
		if strings.EqualFold(k.name, name) {
			return k.name
		}
	}
	return name
}

// amiss notes the quantities that are odd at a position of a configuration.
func (c *catalogue) amiss(o *outlook, w *world, i, pos int, v verdict) {
	row := c.positions[pos].place(w.platform, w.configs[i])
	for _, d := range v.cells {
		if name := c.oddly(d.fit, pos, d.st, v.quantity); name != "" {
			at := pair(d.fit.at[d.fit.columns[pos]], row.first)
			o.add(key{"quantity-odd", c.platforms[w.platform].name, c.positions[pos].name, at}, "warning", w, i, name)
		}
	}
}

// belongs reports whether one of the families that a position lists is that of a part or,
// of a kit, that of something it holds.
func (c *catalogue) belongs(name string, pos int) bool {
	into := map[string]bool{}
	c.contents(name, into)
	for held := range into {
		if p := c.part(held); p != nil && p.family != "" && slices.Contains(c.positions[pos].families, p.family) {
			return true
		}
	}
	return false
}

// latestHere is the last year that is not too far ahead of the day of the build.
const latestHere = 2029

var fourDigits = regexp.MustCompile(`\b\d{4}\b`)

// ahead lists the Years cells with a year that is too far ahead. One that a platform has
// is told there, once, and nowhere else.
func (c *catalogue) ahead() map[ref]bool {
	out, told := map[ref]bool{}, map[int]bool{}
	for _, platforms := range []bool{true, false} {
		for _, s := range c.sheets {
			if (s.name == "Platforms") != platforms || s.name == "Accepted" {
				continue
			}
			for _, r := range s.rows {
				if y := latestYear(r.cells["Years"]); !r.gone && y > latestHere && !told[y] {
					out[r.at["Years"]] = true
					told[y] = platforms
				}
			}
		}
	}
	return out
}

func latestYear(text any) int {
	most := 0
	if text != nil {
		for _, digits := range fourDigits.FindAllString(fmt.Sprint(text), -1) {
			y, _ := strconv.Atoi(digits)
			most = max(most, y)
		}
	}
	return most
}

// outside lists the Years cells of Vehicles of which a range begins or ends in a year that none
// of the row's platforms has. A row about no platform is told as such.
func (c *catalogue) outside() map[ref]bool {
	out := map[ref]bool{}
	for _, v := range c.vehicles {
		if v.gone || v.years.form != "list" || v.fault == "Years" {
			continue
		}
		on := v.platform
		if v.fault == "Platform" {
			if !strings.HasPrefix(v.cells["Platform"].(string), "not ") {
				continue // it is about another platform
			}
			on = cond{}
		}
		made := map[int]bool{earliest: true, last: true}
		for p := range c.platforms {
			if on.meets(p) {
				for _, y := range c.platforms[p].years() {
					made[y] = true
				}
			}
		}
		if len(made) > 2 && slices.ContainsFunc(v.years.spans, func(s [2]int) bool { return !made[s[0]] || !made[s[1]] }) {
			out[v.at["Years"]] = true
		}
	}
	return out
}

// yearsAhead compares years-outside and years-ahead: each cell once, and no other. What is
// told as no year of the platform is not told again.
func (k *checker) yearsAhead() {
	outside, ahead := k.c.outside(), k.c.ahead()
	for at := range outside {
		delete(ahead, at)
	}
	k.cells("years-outside", "warning", outside)
	k.cells("years-ahead", "warning", ahead)
}

// cells compares the cells that the findings of a code name: each once, and no other.
func (k *checker) cells(code, severity string, want map[ref]bool) {
	seen := map[ref]bool{}
	for _, f := range k.out.findings {
		if f.Code != code {
			continue
		}
		if f.Severity != severity {
			k.failf(code, "%s: %s", f.Severity, f.Message)
		}
		for _, at := range f.Cells {
			if !want[at] || seen[at] {
				k.failf(code, "not expected, or twice: %v: %s", at, f.Message)
			}
			seen[at] = true
		}
	}
	for at := range want {
		if !seen[at] {
			k.failf(code, "not told: %v", at)
		}
	}
}

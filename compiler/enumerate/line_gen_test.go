package enumerate

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"time"
)

func lineDays(y, m, d int) int64 {
	return time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC).Unix() / 86400
}

// generateLines makes a random catalogue with a serial trait, a date trait, or both.
func generateLines(seed uint64) *lineCatalogue {
	c := &lineCatalogue{Rand: rand.New(rand.NewPCG(seed, 77))}
	c.huge = c.IntN(5) == 0
	which := c.IntN(3)
	if which != 1 {
		t := &lineTrait{name: "Chassis number", kind: "serial"}
		general := []reach{{"", 101, 140}, {"B", 7, 19}}
		if c.huge {
			general = []reach{{"", 1, 1_000_000_000}}
		}
		own := []reach{{"AB", 30, 60}}
		if c.IntN(2) == 0 {
			own = general
		}
		t.extent = [][]reach{general, own}
		c.lines = append(c.lines, t)
	}
	if which != 0 {
		all := []reach{{"", lineDays(2009, 11, 1), lineDays(2010, 3, 31)}}
		c.lines = append(c.lines, &lineTrait{name: "Built", kind: "date", extent: [][]reach{all, all}})
	}
	for range 1 + c.IntN(3) {
		r := c.row(true)
		c.vehicles = append(c.vehicles, r)
	}
	for range c.IntN(4) {
		r := c.row(false)
		r.trait, r.axles = c.IntN(len(c.lines)+1), c.IntN(2)
		if r.trait < len(c.lines) {
			for r.value = c.cond(r, r.trait); r.value.form == "" || r.value.na; r.value = c.cond(r, r.trait) {
			}
		}
		c.breaks = append(c.breaks, r)
	}
	for range 1 + c.IntN(5) {
		r := c.row(false)
		r.rank, r.says = c.IntN(3), []string{"P-10", "P-20", "none: no room", "planned"}[c.IntN(4)]
		c.fits = append(c.fits, r)
	}
	return c
}

func (c *lineCatalogue) row(vehicles bool) *lineRow {
	r := &lineRow{axle: -1, platform: c.IntN(linePlatforms+1) - 1}
	if vehicles {
		r.road = 1 + c.Int64N(900)
	}
	if c.IntN(2) == 0 {
		from := lineFirst + c.IntN(4)
		r.years = [2]int{from, min(from+c.IntN(3), lineLast)}
	}
	if vehicles || c.IntN(3) == 0 {
		r.axle = c.IntN(2)
	}
	for t := range c.lines {
		k := lineCond{}
		if vehicles || c.IntN(2) == 0 {
			k = c.cond(r, t)
		}
		for vehicles && k.form == "not" && k.na {
			k = c.cond(r, t)
		}
		r.on = append(r.on, k)
	}
	return r
}

// cond writes a condition within the extent, and outside of it now and then (never in Vehicles,
// whose rows all have an axle at this point).
func (c *lineCatalogue) cond(r *lineRow, t int) lineCond {
	switch c.IntN(8) {
	case 0:
		return lineCond{}
	case 1:
		return lineCond{form: "any", text: "any"}
	case 2:
		return lineCond{form: "list", na: true, text: "n/a"}
	}
	p := max(r.platform, 0)
	var words []string
	out := lineCond{form: "list"}
	for range 1 + c.IntN(2) {
		run, word := c.piece(c.lines[t], p)
		if r.road == 0 && c.IntN(12) == 0 {
			run, word = c.lines[t].beyond()
		}
		out.runs, words = append(out.runs, run), append(words, word)
	}
	text := strings.Join(words, ", ")
	if len(words) == 1 && c.IntN(2) == 0 && c.lines[t].kind == "serial" && !strings.ContainsAny(text, " +-ABabZ") {
		out.text = out.runs[0].low // a number as spreadsheets keep it
		return out
	}
	// A date cell. Of the first of January excelize makes one that shows no day, which is a month.
	day := time.Unix(out.runs[0].low*86400, 0).UTC()
	if run := out.runs[0]; len(words) == 1 && c.IntN(2) == 0 && c.lines[t].kind == "date" && run.low == run.top && day.YearDay() > 1 {
		out.text, out.outside = day, run.outside()
		return out
	}
	if c.IntN(5) == 0 {
		out.form, text = "not", "not "+text
	} else {
		out.outside = slices.ContainsFunc(out.runs, reach.outside)
	}
	if c.IntN(6) == 0 && r.axle < 0 {
		out.na, text = true, text+", n/a"
	}
	out.text = text
	return out
}

// beyond is a number or day that no platform has.
func (t *lineTrait) beyond() (reach, string) {
	if t.kind == "date" {
		return reach{"", lineDays(2031, 5, 4), lineDays(2031, 5, 4)}, "2031-05-04"
	}
	return reach{"Z", 5, 5}, "Z-0005"
}

func (r reach) outside() bool { return r.letters == "Z" || r.low == lineDays(2031, 5, 4) }

// piece is one range in one of the ways of writing.
func (c *lineCatalogue) piece(t *lineTrait, p int) (reach, string) {
	e := t.extent[p][c.IntN(len(t.extent[p]))]
	const ever = int64(1e15)
	low := e.low + c.Int64N(e.top-e.low+1)
	top := low + c.Int64N(e.top-low+1)
	say := func(n int64) string { return t.write(e, n) }
	switch c.IntN(6) {
	case 0:
		if t.kind == "date" && c.IntN(2) == 0 {
			return reach{"", low, low}, say(low)
		}
		if t.kind == "date" {
			m := 1 + c.IntN(3)
			at := time.Date(2010, time.Month(m), 1, 0, 0, 0, 0, time.UTC)
			form := []string{"2006-01", "January 2006", "Jan 2006", "01/2006"}[c.IntN(4)]
			return reach{"", lineDays(2010, m, 1), lineDays(2010, m+1, 1) - 1}, at.Format(form)
		}
		return reach{e.letters, low, low}, strings.ToLower(e.letters) + fmt.Sprintf("0%d", low)
	case 1:
		return reach{e.letters, low, ever}, "from " + say(low)
	case 2:
		return reach{e.letters, low, ever}, say(low) + "+"
	case 3:
		return reach{e.letters, -ever, low}, "to " + say(low)
	case 4:
		if low > e.low {
			return reach{e.letters, -ever, low - 1}, "before " + say(low)
		}
	}
	if t.kind == "serial" && c.IntN(2) == 0 {
		return reach{e.letters, low, top}, say(low) + "-" + say(top)
	}
	return reach{e.letters, low, top}, say(low) + " to " + say(top)
}

package guide

import (
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/ask/yearmap"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// yearMap shows what is said of the vehicles of a place: model years across, and down the values
// of the trait that tells most apart. Values of which the same is said share a row.
type yearMap struct {
	Place link // on the page of a part, where it fits at that place; no text: it is about lines of a table
	By    link // the trait; no text where there is one row
	Rows  []mapRow
	Ticks []tick
	Looks []string // that occur, for the legend
}

// mapRow is vehicles with certain values of the trait.
type mapRow struct {
	Of   *term // nil: all vehicles
	Runs []mapRun
}

// mapRun is a range of years in which one thing is said. Places are in per cent of the width.
type mapRun struct {
	From, Wide, Middle, End string
	Years                   string
	// Look is fitted, with, none, planned, ask, absent, nobody where no such vehicle exists, or mixed
	// where several of them are said; on the page of a part here, some or other.
	Look  string
	Lines []int  // of the table, that hold there
	Label string // what stands in it; "" where there is no room
}

// looks are all there are, in the order of the legend.
func looks() []string {
	return []string{"fitted", "here", "some", "with", "planned", "none", "ask", "mixed", "other", "absent", "nobody"}
}

// newYearMap draws a place of a guide; nil where there is nothing to be told apart by a picture, or
// the vehicles are not known or too irregular.
func newYearMap(f *finder, a *decide.Answer, t *table) *yearMap {
	ground := yearmap.GroundOf(f.guide, a)
	if ground == nil {
		return nil
	}
	chart := ground.Chart(func(c int) int { return a.Cases[c].Class })
	out := &yearMap{}
	for _, b := range chart.Bands(t.alike) {
		out.Rows = append(out.Rows, mapRow{Runs: t.mapRuns(f.has.edition, f.guide.Platform.Years, b)})
		if chart.Trait != nil {
			if of, says := f.has.term(chart.Trait.Is(b.Values...)); says {
				out.Rows[len(out.Rows)-1].Of = &of
				out.By = f.link(chart.Trait.Declared())
			}
		}
	}
	return out.finished(f.guide.Platform.Years)
}

// finished adds what goes around the rows; nil where they tell nothing apart.
func (m *yearMap) finished(years []int) *yearMap {
	for _, r := range m.Rows {
		for _, run := range r.Runs {
			if !slices.Contains(m.Looks, run.Look) {
				m.Looks = append(m.Looks, run.Look)
			}
		}
	}
	if !m.differs() {
		return nil
	}
	slices.SortFunc(m.Looks, func(a, b string) int { return slices.Index(looks(), a) - slices.Index(looks(), b) })
	m.Ticks = m.ticks(years)
	return m
}

// differs tells whether two runs say different things.
func (m *yearMap) differs() bool {
	first := m.Rows[0].Runs[0]
	for _, r := range m.Rows {
		for _, run := range r.Runs {
			if run.Look != first.Look || !slices.Equal(run.Lines, first.Lines) {
				return true
			}
		}
	}
	return false
}

// alike tells whether a picture shows two squares alike: what is said, and which line where there
// is one.
func (t *table) alike(a, b yearmap.Square) bool {
	one := func(s yearmap.Square) int {
		if len(s.Cases) == 1 {
			return s.Cases[0]
		}
		return -1
	}
	return t.look(a) == t.look(b) && one(a) == one(b)
}

func (t *table) mapRuns(e *edition, years []int, b yearmap.Band) []mapRun {
	var out []mapRun
	squares := b.Rows[0].Squares
	for _, r := range yearmap.RunsOf(years, squares, t.alike) {
		run := e.placed(years, r.Span)
		run.Look = t.look(squares[r.First])
		run.Lines = linesIn(b, r)
		run.Label = run.label(share(years, r.To+1) - share(years, r.From))
		out = append(out, run)
	}
	return out
}

// linesIn lists the lines that hold somewhere in a run of a band, counted from 1.
func linesIn(b yearmap.Band, r yearmap.Stretch) (out []int) {
	for _, l := range b.Rows {
		for _, s := range l.Squares[r.First:][:r.To-r.From+1] {
			for _, c := range s.Cases {
				if !slices.Contains(out, c+1) {
					out = append(out, c+1)
				}
			}
		}
	}
	slices.Sort(out)
	return out
}

// placed gives a run of years its place in the picture.
func (e *edition) placed(years []int, s model.Span) mapRun {
	from, to := share(years, s.From), share(years, s.To+1)
	return mapRun{From: percent(from), Wide: percent(to - from), Middle: percent((from + to) / 2), End: percent(to), Years: e.spans([]model.Span{s})}
}

// look tells what is said in a square in one word.
func (t *table) look(s yearmap.Square) string {
	look := ""
	for _, c := range s.Cases {
		kind := t.Rows[c].Fit.Kind
		if kind == "gap" || kind == "unsettled" {
			kind = "ask"
		}
		if look != "" && look != kind {
			return "mixed"
		}
		look = kind
	}
	switch {
	case look == "" && s.Away:
		return "absent"
	case look == "":
		return "nobody"
	case s.Away:
		return "mixed"
	}
	return look
}

// sign stands before the lines of what is not simply fitted, for those who see no colours.
func (r *mapRun) sign() string {
	return map[string]string{"planned": "◇ ", "none": "– ", "ask": "? ", "some": "◐", "here": "●", "with": "+ "}[r.Look]
}

// letterWide and smallest are about how wide a letter is and a picture on the smallest screen, in pixels.
const letterWide, smallest = 8, 280

// label gives the numbers of the lines with the sign of the look, as much of it as there is room for.
func (r *mapRun) label(share float64) string {
	lines := make([]string, len(r.Lines))
	for i, n := range r.Lines {
		lines[i] = strconv.Itoa(n)
	}
	all := strings.Join(lines, ", ")
	for _, text := range []string{r.sign() + all, all, r.sign()} {
		text = strings.TrimSpace(text)
		if wide := (len([]rune(text)) + 1) * letterWide; text != "" && float64(wide) <= share*smallest/100 {
			return text
		}
	}
	return ""
}

// tickApart is how far two years that are written stand apart at least, in per cent.
const tickApart = 14

type tick struct{ At, Year string }

// ticks are the years in which something begins, as far as there is room.
func (m *yearMap) ticks(years []int) (out []tick) {
	starts := map[string]bool{}
	for _, r := range m.Rows {
		for _, run := range r.Runs {
			starts[run.From] = true
		}
	}
	last := -100.0
	for _, y := range years {
		if at := share(years, y); starts[percent(at)] && at-last >= tickApart && at <= 100-tickApart/2 {
			out = append(out, tick{percent(at), strconv.Itoa(y)})
			last = at
		}
	}
	return out
}

// share says where a year begins, in per cent of all years from the first to the last.
func share(years []int, year int) float64 {
	first, last := years[0], years[len(years)-1]
	return 100 * float64(year-first) / float64(last-first+1)
}

func percent(p float64) string { return strconv.FormatFloat(p, 'g', 4, 64) + "%" }

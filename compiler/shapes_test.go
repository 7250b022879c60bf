package compiler_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/tidy/share"
	"ferrule/out/markup"
	"ferrule/sheets/cell"
)

// TestRandomShapes writes random rows of Fitment in random shapes, with the rows of Layouts that
// read them, and holds that both publish the same.
func TestRandomShapes(t *testing.T) {
	for seed := range share.Of(t, 300) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			s := &shaper{Rand: rand.New(rand.NewPCG(uint64(seed), 20))}
			rows := s.rows()
			native := s.native(rows)
			laid, layouts := s.laid(rows)
			want := s.compile(t, map[string]string{"Fitment": native})
			laid["Layouts"] = "Sheet\tWord\tWhere\tAs\n" + layouts
			got := s.compile(t, laid)
			for _, f := range got.Findings {
				if f.Severity == finding.Error {
					assert.NotContains(t, layoutCodes, f.Code, line(f))
				}
			}
			if !assert.Equal(t, public(t, want), public(t, got)) {
				for name, text := range laid {
					t.Logf("%s:\n%s", name, text)
				}
				t.Logf("native:\n%s", native)
			}
		})
	}
}

// fitRow is a row of Fitment with one position.
type fitRow struct {
	platform, years, axle, position string
	parts                           []string // one or another, in the order of the catalogue
}

type shaper struct {
	*rand.Rand
}

var (
	shapePlatforms = []string{"H7", "H9", "C4"}
	shapePlaces    = []string{"Front damper", "Rear damper", "Front bar"}
	shapeParts     = map[string][]string{"Front damper": {"HD-10", "HD-20", "HD-30"}, "Rear damper": {"RD-5", "RD-6"}, "Front bar": {"FB-1", "FB-2"}}
	shapeYears     = map[string][]string{"H7": {"2001-2003", "2004-2006"}, "H9": {"2003-2005", "2006-2008"}, "C4": {"2002-2003", "2004-2005"}}
)

func one[T any](r *rand.Rand, of []T) T { return of[r.IntN(len(of))] }

// rows makes rows of which no two are about one vehicle in the same words.
func (s *shaper) rows() []fitRow {
	var out []fitRow
	for _, platform := range shapePlatforms {
		for _, place := range shapePlaces {
			years := []string{""}
			if s.IntN(2) == 0 {
				years = shapeYears[platform]
			}
			for _, y := range years {
				axles := []string{""}
				if s.IntN(3) == 0 {
					axles = []string{"Drum", "Disc"}
				}
				for _, axle := range axles {
					if s.IntN(5) == 0 {
						continue
					}
					parts := slices.Clone(shapeParts[place])
					parts = parts[s.IntN(len(parts)):]
					parts = parts[:1+s.IntN(len(parts))]
					out = append(out, fitRow{platform, y, axle, place, parts})
				}
			}
		}
	}
	if len(out) == 0 {
		return s.rows()
	}
	return out
}

func (s *shaper) native(rows []fitRow) string {
	out := "Platform\tYears\tFront axle\tPosition\tFits\n"
	for _, r := range rows {
		out += strings.Join([]string{r.platform, r.years, r.axle, r.position, strings.Join(r.parts, " or ")}, "\t") + "\n"
	}
	return out
}

// sheetWriter writes a sheet and the rows of Layouts that read it.
type sheetWriter struct {
	s       *shaper
	name    string
	rows    [][]string
	layouts string
}

func (w *sheetWriter) row(cells ...string) { w.rows = append(w.rows, cells) }
func (w *sheetWriter) lay(cells ...string) {
	for len(cells) < 3 {
		cells = append(cells, "")
	}
	w.layouts += w.name + "\t" + strings.Join(cells, "\t") + "\n"
}

// above writes a title or two, which are left out.
func (w *sheetWriter) above() (header int) {
	for range w.s.IntN(3) {
		w.row(fmt.Sprintf("Chart %d of the workshop", len(w.rows)+1))
	}
	if len(w.rows) > 0 {
		defer func() { w.lay("skip", `row "Chart"`) }()
	}
	return len(w.rows) + 1
}

func (w *sheetWriter) text() string {
	var b strings.Builder
	for _, r := range w.rows {
		b.WriteString(strings.Join(r, "\t") + "\n")
	}
	return b.String()
}

func (s *shaper) laid(rows []fitRow) (map[string]string, string) {
	shapes := []func([]fitRow, *sheetWriter){s.marks, s.across, s.places, s.sections, s.list}
	w := &sheetWriter{s: s, name: "Chart"}
	one(s.Rand, shapes)(rows, w)
	return map[string]string{"Chart": w.text()}, w.layouts
}

// vehicle gives what a column of a grid is about, in one of two ways to write it.
func (r *fitRow) vehicle() string { return strings.TrimSpace(r.platform + " " + r.years) }

func unique(rows []fitRow, by func(*fitRow) string) []string {
	var out []string
	for i := range rows {
		if k := by(&rows[i]); !slices.Contains(out, k) {
			out = append(out, k)
		}
	}
	return out
}

// marks writes a grid with parts down and vehicles across; axles are footnotes.
func (s *shaper) marks(rows []fitRow, w *sheetWriter) {
	vehicles := unique(rows, (*fitRow).vehicle)
	n := w.above()
	two := s.IntN(2) == 0
	first := []string{"Place", "Number"}
	if two {
		upper, lower := []string{"Place", "Number"}, []string{"", ""}
		last := ""
		for _, v := range vehicles {
			p, y, _ := strings.Cut(v, " ")
			if p == last {
				upper = append(upper, "")
			} else {
				upper = append(upper, p)
			}
			last = p
			if y == "" {
				y = "all"
			}
			lower = append(lower, y)
		}
		w.row(upper...)
		w.row(lower...)
	} else {
		w.row(append(first, vehicles...)...)
	}
	mark := one(s.Rand, []string{"x", "●", "1", "Y"})
	for _, place := range shapePlaces {
		for i, part := range shapeParts[place] {
			cells := []string{place, part}
			if i > 0 {
				cells[0] = ""
			}
			filled := false
			for _, v := range vehicles {
				var said []string
				for _, r := range rows {
					if r.vehicle() == v && r.position == place && slices.Contains(r.parts, part) {
						said = append(said, map[string]string{"": mark, "Drum": mark + "²", "Disc": mark + "*"}[r.axle])
					}
				}
				filled = filled || len(said) > 0
				cells = append(cells, strings.Join(said, ","))
			}
			if filled || i == 0 {
				w.row(cells...)
			}
		}
	}
	switch {
	case two:
		w.lay("table", fmt.Sprintf("header %d-%d", n, n+1), "Fitment")
		w.lay("across", "column C … column "+cell.Column(int32(2+len(vehicles))), "Platform / Years")
		w.lay("say", "Years", "all = any")
	default:
		w.lay("table", fmt.Sprintf("header %d", n), "Fitment")
		w.lay("across", vehicles[0]+" … "+vehicles[len(vehicles)-1], "Platform, Years")
	}
	w.lay("is", "Place", "Position")
	w.lay("down", "Place")
	w.lay("is", "Number", "Part")
	w.lay("split", "cells ,", "each")
	w.lay("mark", mark, "this row")
	w.lay("mark", "", "or")
	w.lay("mark", "²", "Front axle = Drum")
	w.lay("mark", "*", "Front axle = Disc")
}

// across writes a list of places with vehicles across, whose cells hold numbers.
func (s *shaper) across(rows []fitRow, w *sheetWriter) {
	vehicles := unique(rows, (*fitRow).vehicle)
	sign := one(s.Rand, []string{"/", ";", "&"})
	n := w.above()
	w.row(append([]string{"Where", "Axle"}, vehicles...)...)
	for _, place := range shapePlaces {
		for _, axle := range []string{"", "Drum", "Disc"} {
			cells, filled := []string{place, strings.ToUpper(axle)}, false
			for _, v := range vehicles {
				said := ""
				for _, r := range rows {
					if r.vehicle() == v && r.position == place && r.axle == axle {
						said, filled = strings.Join(r.parts, sign), true
					}
				}
				cells = append(cells, said)
			}
			if filled {
				w.row(cells...)
			}
		}
	}
	w.row("Total", "", "9")
	w.lay("table", fmt.Sprintf(`header %d until "Total"`, n), "Fitment")
	w.lay("is", "Where", "Position")
	w.lay("is", "Axle", "Front axle")
	w.lay("across", strings.Join(vehicles, ", "), "Platform, Years")
	w.lay("cells", "", "Fits")
	w.lay("split", "cells "+sign, "or")
}

// places writes vehicles down and places across.
func (s *shaper) places(rows []fitRow, w *sheetWriter) {
	n := w.above()
	w.row("Chassis", "Built", "Axle", "FRONT DAMPER", "REAR", "BAR", "Stock")
	keys := unique(rows, func(r *fitRow) string { return r.platform + "\t" + r.years + "\t" + r.axle })
	last := ""
	for _, k := range keys {
		cells := strings.Split(k, "\t")
		platform := cells[0]
		if platform == last {
			cells[0] = ""
		}
		last = platform
		for _, place := range shapePlaces {
			said := ""
			for _, r := range rows {
				if r.position == place && r.platform+"\t"+r.years+"\t"+r.axle == k {
					said = strings.Join(r.parts, " or ")
				}
			}
			cells = append(cells, said)
		}
		if cells[1] != "" {
			cells[1] = cells[1][2:4] + "-" + cells[1][7:]
		}
		w.row(append(cells, fmt.Sprint(s.IntN(9)))...)
	}
	w.lay("table", fmt.Sprintf("header %d", n), "Fitment")
	w.lay("is", "Chassis", "Platform")
	w.lay("down", "Chassis")
	w.lay("is", "Built", "Years")
	w.lay("say", "Years", "century = 1980")
	w.lay("is", "column C", "Front axle")
	w.lay("skip", "Stock")
	if s.IntN(2) == 0 {
		w.lay("across", "Front damper … bar", "Position")
		w.lay("say", "heads", "rear = Rear damper")
		w.lay("say", "heads", "bar = Front bar")
		return
	}
	w.lay("is", "Front damper", "Front damper")
	w.lay("is", "Rear", "Rear damper")
	w.lay("is", "Bar", "Front bar")
}

// sections writes a list with headings between its rows.
func (s *shaper) sections(rows []fitRow, w *sheetWriter) {
	n := w.above()
	w.row("Place", "Axle", "Number")
	for _, v := range unique(rows, (*fitRow).vehicle) {
		w.row(v)
		for _, r := range rows {
			if r.vehicle() == v {
				w.row(r.position, r.axle, strings.Join(r.parts, "/"))
			}
		}
	}
	w.lay("table", fmt.Sprintf("header %d", n), "Fitment")
	w.lay("section", "", "Platform, Years")
	w.lay("is", "Place", "Position")
	w.lay("is", "Axle", "Front axle")
	w.lay("is", "Number", "Fits")
	w.lay("split", "Number /", "or")
}

// list writes one table a platform, one below the other.
func (s *shaper) list(rows []fitRow, w *sheetWriter) {
	for _, platform := range unique(rows, func(r *fitRow) string { return r.platform }) {
		w.row("For " + platform)
		w.row("Years", "Axle", "Place", "Numbers")
		from := len(w.rows) + 1
		for _, r := range rows {
			if r.platform == platform {
				w.row(strings.Replace(r.years, "-", " thru ", 1), r.axle, r.position, strings.Join(r.parts, "; "))
			}
		}
		w.lay("table", fmt.Sprintf("header %d, rows %d-%d", from-1, from, len(w.rows)), "Fitment")
		w.lay("is", fmt.Sprintf("cell A%d", from-2), "Platform")
		w.lay("say", "Platform", "For "+platform+" = "+platform)
		w.lay("is", "Years", "Years")
		w.lay("is", "Axle", "Front axle")
		w.lay("is", "Place", "Position")
		w.lay("is", "Numbers", "Fits")
		w.lay("split", "Numbers ;", "or")
		w.row()
	}
}

func (s *shaper) compile(t *testing.T, sheets map[string]string) *compiler.Result {
	t.Helper()
	dir := t.TempDir()
	base, err := txtar.ParseFile("testdata/twins/base.txtar")
	require.NoError(t, err)
	for _, name := range []string{"Fitment", "Chart", "Layouts"} {
		if text, ok := sheets[name]; ok {
			base.Files = append(base.Files, txtar.File{Name: "c.xlsx/" + name, Data: []byte(text)})
		}
	}
	books, err := markup.Books(txtar.Format(base))
	require.NoError(t, err)
	require.NoError(t, markup.WriteAll(dir, books, markup.Options{Plain: true}))
	res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: "2027-03-01", Guides: true})
	require.NoError(t, err)
	require.True(t, res.Whole)
	return res
}

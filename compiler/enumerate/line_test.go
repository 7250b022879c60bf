package enumerate

import (
	"encoding/json"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

func linePlatform(p int) string { return []string{"H7", "K2"}[p] }

// write puts the catalogue into one workbook.
func (c *lineCatalogue) write(dir string) error {
	book := excelize.NewFile()
	defer book.Close()
	put := func(sheet string, rows ...[]any) error {
		if _, err := book.NewSheet(sheet); err != nil {
			return err
		}
		for i, row := range rows {
			if err := book.SetSheetRow(sheet, fmt.Sprintf("A%d", i+1), &row); err != nil {
				return err
			}
		}
		return nil
	}
	years := fmt.Sprintf("%d-%d", lineFirst, lineLast)
	traits := [][]any{{"Trait", "Value", "Kind", "Platform", "Question"}}
	heads := []any{"Platform", "Years", "Axle"}
	for _, t := range c.lines {
		heads = append(heads, t.name)
		traits = append(traits, []any{t.name, t.extentText(0), t.kind, nil, "What is on the plate?"})
		if t.extentText(0) != t.extentText(1) {
			traits = append(traits, []any{t.name, t.extentText(1), nil, linePlatform(1), nil})
		}
	}
	traits = append(traits, []any{"Axle", "Solid", "choice", nil, "Which axle?"}, []any{"Axle", "Split"})
	sheets := map[string][]*lineRow{"Vehicles": c.vehicles, "Breaks": c.breaks, "Fitment": c.fits}
	all := map[string][][]any{
		"Platforms": {{"Platform", "Years"}, {"H7", years}, {"K2", years}},
		"Traits":    traits,
		"Positions": {{"Position"}, {"Front"}},
		"Parts":     {{"Part"}, {"P-10"}, {"P-20"}},
	}
	more := map[string][]any{"Vehicles": {"On the road"}, "Breaks": {"Trait", "Value"}, "Fitment": {"Precedence", "Front"}}
	for name, rows := range sheets {
		if len(rows) == 0 {
			continue
		}
		head := slices.Concat(heads, more[name])
		if name == "Breaks" { // a break's own columns come first, for the same letters in every catalogue
			head = slices.Concat(more[name], heads)
		}
		all[name] = [][]any{head}
		for i, r := range rows {
			r.line = i + 2
			all[name] = append(all[name], c.cells(name, r))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(all)) {
		if err := put(name, all[name]...); err != nil {
			return err
		}
	}
	if err := book.DeleteSheet("Sheet1"); err != nil {
		return err
	}
	return book.SaveAs(filepath.Join(dir, "lines.xlsx"))
}

func (t *lineTrait) extentText(p int) string {
	var out []string
	for _, e := range t.extent[p] {
		out = append(out, t.write(e, e.low)+" to "+t.write(e, e.top))
	}
	return strings.Join(out, ", ")
}

func (c *lineCatalogue) cells(sheet string, r *lineRow) []any {
	out := []any{"any", nil, nil}
	if r.platform >= 0 {
		out[0] = linePlatform(r.platform)
	}
	if r.years[0] > 0 {
		out[1] = fmt.Sprintf("%d-%d", r.years[0], r.years[1])
	}
	if r.axle >= 0 {
		out[2] = lineAxles()[r.axle]
	}
	for _, k := range r.on {
		out = append(out, k.text)
	}
	switch sheet {
	case "Vehicles":
		return append(out, r.road)
	case "Fitment":
		return append(out, r.rank, r.says)
	}
	if r.trait == len(c.lines) {
		return append([]any{"Axle", lineAxles()[r.axles]}, out...)
	}
	return append([]any{c.lines[r.trait].name, r.value.text}, out...)
}

// lineBox is a box whose values are texts, closed ranges of texts, or null.
type lineBox struct {
	Years  [][2]int                     `json:"years"`
	Traits map[string][]json.RawMessage `json:"traits"`
}

type lineFinding struct {
	Code           string    `json:"code"`
	Platform       string    `json:"platform"`
	Configurations int       `json:"configurations"`
	OnTheRoad      float64   `json:"on_the_road"`
	Where          []lineBox `json:"where"`
	Example        *example  `json:"example"`
	Cells          []ref     `json:"cells"`
}

func (t *lineTrait) number(text string) reach {
	if t.kind == "date" {
		var y, m, d int
		if _, err := fmt.Sscanf(text, "%d-%d-%d", &y, &m, &d); err != nil {
			panic(err)
		}
		return reach{"", lineDays(y, m, d), lineDays(y, m, d)}
	}
	digits := strings.TrimLeft(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
	n, err := strconv.ParseInt(digits, 10, 64)
	if err != nil {
		panic(err)
	}
	return reach{strings.TrimSuffix(text, digits), n, n}
}

// holds tells whether a box holds a vehicle: all of its stretch, or none of it.
func (c *lineCatalogue) holds(b lineBox, g lineCar) bool {
	if len(b.Years) > 0 && !slices.ContainsFunc(b.Years, func(s [2]int) bool { return s[0] <= g.year && g.year <= s[1] }) {
		return false
	}
	for name, values := range b.Traits {
		ok := false
		for _, raw := range values {
			at := slices.IndexFunc(c.lines, func(t *lineTrait) bool { return t.name == name })
			if at < 0 {
				ok = ok || string(raw) == strconv.Quote(lineAxles()[g.axle])
				continue
			}
			v := g.vals[at]
			if string(raw) == "null" {
				ok = ok || v.na
				continue
			}
			var ends [2]string
			if err := json.Unmarshal(raw, &ends); err != nil {
				panic(err)
			}
			from, to := c.lines[at].number(ends[0]), c.lines[at].number(ends[1])
			ok = ok || !v.na && from.letters == v.letters && from.low <= v.low && v.top <= to.low
		}
		if !ok {
			return false
		}
	}
	return true
}

func (c *lineCatalogue) exampleIs(e *example, g lineCar) bool {
	if e == nil || e.Year != g.year {
		return false
	}
	for i, t := range c.lines {
		v, got := g.vals[i], e.Traits[t.name]
		if (got == nil) != v.na || got != nil && *got != t.write(v.reach, v.low) {
			return false
		}
	}
	return e.Traits["Axle"] != nil && *e.Traits["Axle"] == lineAxles()[g.axle]
}

// TestLinesAgainstEnumeration compares existence, outcomes, counts, shares, boxes, examples and
// findings of random catalogues with traits on a line and Breaks.
func TestLinesAgainstEnumeration(t *testing.T) {
	seen := map[string]int{}
	for seed := range uint64(*seeds) {
		if *only >= 0 && seed != uint64(*only) {
			continue
		}
		c := generateLines(seed)
		dir, to := t.TempDir(), filepath.Join(t.TempDir(), "out")
		require.NoError(t, c.write(dir))
		require.NoError(t, checkInto(dir, to), "seed %d", seed)
		k := &lineChecker{lineCatalogue: c, seen: seen, worlds: c.lineWorlds()}
		require.NoError(t, k.load(to))
		k.check()
		require.NoError(t, k.guides(to))
		if len(k.problems) > 0 {
			t.Errorf("seed %d: %q", seed, k.problems)
		}
	}
	t.Log(seen)
	if *only < 0 && *seeds >= 60 {
		for _, what := range []string{"serial", "date", "both", "huge", "number by number", "breaks exclude", "break-idle", "vehicles-empty", "row-unreachable", "value-outside", "guide", "gap", "fitted", "conflict", "planned", "none"} {
			require.GreaterOrEqual(t, seen[what], 4, "%s: not met often enough", what)
		}
	}
}

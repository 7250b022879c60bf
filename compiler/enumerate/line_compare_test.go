package enumerate

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
)

// lineChecker holds a build against the enumeration of traits on a line.
type lineChecker struct {
	*lineCatalogue
	worlds   []*lineWorld
	seen     map[string]int
	problems []string
	findings []lineFinding
	coverage []platformCoverage
}

func (k *lineChecker) failf(format string, args ...any) {
	if len(k.problems) < 8 {
		k.problems = append(k.problems, fmt.Sprintf(format, args...))
	}
}

func (k *lineChecker) load(dir string) error {
	var found struct {
		Findings []lineFinding `json:"findings"`
	}
	var covered struct {
		Platforms []platformCoverage `json:"platforms"`
	}
	if err := loadFile(filepath.Join(dir, "staff", "findings.json"), &found); err != nil {
		return err
	}
	err := loadFile(filepath.Join(dir, "staff", "coverage.json"), &covered)
	k.findings, k.coverage = found.Findings, covered.Platforms
	return err
}

func (k *lineChecker) check() {
	for _, t := range k.lines {
		k.seen[t.kind]++
	}
	if len(k.lines) > 1 {
		k.seen["both"]++
	}
	for p, w := range k.worlds {
		k.runs(p)
		k.platform(p, w)
		if len(w.left) < len(w.stated) {
			k.seen["breaks exclude"]++
		}
	}
	if k.huge && k.lines[0].kind == "serial" {
		k.seen["huge"]++
	}
	k.rows()
}

// runs finds the stretches of small extents again, number by number.
func (k *lineChecker) runs(p int) {
	for i, t := range k.lines {
		if k.huge && t.kind == "serial" {
			continue
		}
		k.seen["number by number"]++
		if quick, slow := k.stretches(p, i, false), k.stretches(p, i, true); !slices.Equal(quick, slow) {
			k.failf("%s of %s: %v, number by number %v", t.name, linePlatform(p), quick, slow)
		}
	}
}

func (k *lineChecker) platform(p int, w *lineWorld) {
	sets := map[string][]int{}
	for i, g := range w.left {
		what, _ := k.outcome(p, g)
		sets[what] = append(sets[what], i)
	}
	at := slices.IndexFunc(k.coverage, func(c platformCoverage) bool { return c.Platform == linePlatform(p) })
	if at < 0 {
		k.failf("no coverage of %s", linePlatform(p))
		return
	}
	told := k.coverage[at]
	if told.Configurations != len(w.left) || !near(told.OnTheRoad, lineShare(w, count(len(w.left)))) {
		k.failf("%s: %d configurations, %v on the road; want %d, %v", told.Platform, told.Configurations, told.OnTheRoad, len(w.left), lineShare(w, count(len(w.left))))
	}
	for _, pos := range told.Positions {
		for _, what := range outcomes() {
			if len(sets[what]) > 0 {
				k.seen[what]++
			}
			if n := pos.counts()[what]; n != len(sets[what]) || !near(pos.OnTheRoad[what], lineShare(w, sets[what])) {
				k.failf("%s: %s %d, %v on the road; want %d, %v", told.Platform, what, n, pos.OnTheRoad[what], len(sets[what]), lineShare(w, sets[what]))
			}
		}
	}
	for what, code := range map[string]string{"gap": "coverage-gap", "conflict": "fitment-conflict", "planned": "coverage-planned"} {
		k.found(p, w, code, sets[what])
	}
}

func lineShare(w *lineWorld, set []int) float64 {
	sum := 0.0
	for _, i := range set {
		sum += w.road[i]
	}
	return sum
}

// found holds the boxes, the count, the share and the example of every finding of a code, and
// what all of them are about together.
func (k *lineChecker) found(p int, w *lineWorld, code string, want []int) {
	all := map[int]bool{}
	for _, f := range k.findings {
		if f.Code != code || f.Platform != linePlatform(p) {
			continue
		}
		var set []int
		for i, g := range w.left {
			if slices.ContainsFunc(f.Where, func(b lineBox) bool { return k.holds(b, g) }) {
				set, all[i] = append(set, i), true
			}
		}
		if len(set) == 0 || f.Configurations != len(set) || !near(f.OnTheRoad, lineShare(w, set)) {
			k.failf("%s on %s: %d, %v on the road; its boxes hold %d, %v", code, f.Platform, f.Configurations, f.OnTheRoad, len(set), lineShare(w, set))
			continue
		}
		if !slices.ContainsFunc(set, func(i int) bool { return k.exampleIs(f.Example, w.left[i]) }) {
			k.failf("%s on %s: the example %v is none of them", code, f.Platform, f.Example)
		}
	}
	for i, g := range w.left {
		if all[i] != slices.Contains(want, i) {
			k.failf("%s on %s: told %v of %v", code, linePlatform(p), all[i], g)
		}
	}
}

// rows holds what is told of single rows.
func (k *lineChecker) rows() {
	want := map[string]bool{}
	add := func(code, sheet string, r *lineRow) {
		want[fmt.Sprintf("%s %s %d", code, sheet, r.line)] = true
		k.seen[code]++
	}
	for _, r := range k.vehicles {
		if stated, left := k.held(r, lineCond.states); stated > 0 && left == 0 {
			add("vehicles-empty", "Vehicles", r)
		}
	}
	left := 0
	for _, w := range k.worlds {
		left += len(w.left)
	}
	if left == 0 {
		add("row-unreachable", "Positions", &lineRow{line: 2})
	}
	for _, r := range k.fits {
		if k.unlisted(r) {
			continue
		}
		if _, left := k.held(r, lineCond.meets); left == 0 {
			add("row-unreachable", "Fitment", r)
		}
	}
	for _, r := range k.breaks {
		if !k.unlisted(r) && k.excludes(r) == 0 {
			add("break-idle", "Breaks", r)
		}
	}
	for sheet, rows := range map[string][]*lineRow{"Fitment": k.fits, "Breaks": k.breaks} {
		for _, r := range rows {
			if slices.ContainsFunc(append(slices.Clone(r.on), r.value), func(c lineCond) bool { return c.outside }) {
				add("value-outside", sheet, r)
			}
		}
	}
	got := map[string]bool{}
	for _, f := range k.findings {
		if slices.Contains([]string{"value-outside", "vehicles-empty", "row-unreachable", "break-idle"}, f.Code) {
			c := f.Cells[0]
			got[fmt.Sprintf("%s %s %d", f.Code, c.Sheet, lineOf(c.Cell))] = true
		}
	}
	for id := range want {
		if !got[id] {
			k.failf("%s is not told", id)
			for _, f := range k.findings {
				for _, c := range f.Cells {
					if strings.HasSuffix(id, fmt.Sprintf("%s %d", c.Sheet, lineOf(c.Cell))) {
						k.failf("  but %s %v %s", f.Code, f.Cells, f.Platform)
					}
				}
			}
		}
	}
	for id := range got {
		if !want[id] {
			k.failf("%s is told", id)
		}
	}
}

func lineOf(cell string) (n int) {
	for _, r := range cell {
		if r >= '0' && r <= '9' {
			n = n*10 + int(r-'0')
		}
	}
	return n
}

func (k *lineChecker) held(r *lineRow, how func(lineCond, lineValue) bool) (stated, left int) {
	for p, w := range k.worlds {
		for _, g := range w.stated {
			if r.meets(p, g, how) {
				stated++
			}
		}
		for _, g := range w.left {
			if r.meets(p, g, how) {
				left++
			}
		}
	}
	return stated, left
}

// unlisted tells of a row about platforms only of which Vehicles say nothing, which is told by
// itself.
func (k *lineChecker) unlisted(r *lineRow) bool {
	for p := range k.worlds {
		if r.about(p) && slices.ContainsFunc(k.vehicles, func(v *lineRow) bool { return v.about(p) }) {
			return false
		}
	}
	return true
}

// excludes counts the vehicles that Vehicles state with a value of a Breaks row and that the rows
// about the value rule out.
func (k *lineChecker) excludes(r *lineRow) (n int) {
	for p, w := range k.worlds {
		for _, g := range w.stated {
			if r.about(p) && r.names(len(k.lines), g) && !k.allowed(p, g, r.trait) {
				n++
			}
		}
	}
	return n
}

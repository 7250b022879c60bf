package intake

import (
	"crypto/sha256"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// rowSum is equal for rows that say the same under columns of the same names.
type rowSum [16]byte

// sums holds the rows of a sheet by what they say.
type sums struct {
	*table.Table
	rows []rowSum // by record
}

func sumsOf(t *table.Table) *sums {
	s := &sums{t, make([]rowSum, len(t.Records))}
	names := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		names[i] = word.Fold(c.Name)
	}
	var line []byte
	for i := range t.Records {
		line = line[:0]
		for k := range t.Records[i].Fields {
			f := &t.Records[i].Fields[k]
			for _, text := range [...]string{names[f.Column], strings.TrimSpace(f.Text)} {
				line = append(strconv.AppendInt(line, int64(len(text)), 10), ' ')
				line = append(line, text...)
			}
		}
		sum := sha256.Sum256(line)
		s.rows[i] = rowSum(sum[:len(rowSum{})])
	}
	return s
}

// count gives how often each row stands in the sheet.
func (s *sums) count() map[rowSum]int {
	out := make(map[rowSum]int, len(s.rows))
	for _, r := range s.rows {
		out[r]++
	}
	return out
}

// twin is two sheets of a kind of which most rows say the same.
type twin struct {
	first, second *sums
	common        int
	differ        int        // rows of the longer one that the other lacks
	at            cell.Place // the first row that only one of them has; no sheet where there is none
}

// leastAlike is how many rows two sheets that differ must share: two short sheets may
// have a row or two in common.
const leastAlike = 3

// twinOf gives how alike two sheets are; false where they are not the same sheet twice.
func twinOf(a, b *sums) (*twin, bool) {
	if len(a.rows) == 0 || len(b.rows) == 0 {
		return nil, false
	}
	left := a.count()
	t := &twin{first: a, second: b}
	for _, r := range b.rows {
		if left[r] > 0 {
			left[r]--
			t.common++
		}
	}
	small, large := min(len(a.rows), len(b.rows)), max(len(a.rows), len(b.rows))
	t.differ = large - t.common
	same := t.common == large && large > 1
	return t, same || t.common >= leastAlike && 2*t.common > small && 4*t.common > large
}

// locate finds the first row that only one of the two sheets has.
func (t *twin) locate() {
	only := func(in, other *sums) int {
		left := other.count()
		return slices.IndexFunc(in.rows, func(r rowSum) bool {
			left[r]--
			return left[r] < 0
		})
	}
	if i := only(t.second, t.first); i >= 0 {
		t.at = t.second.First(&t.second.Records[i])
	} else if i := only(t.first, t.second); i >= 0 {
		t.at = t.first.First(&t.first.Records[i])
	}
}

// twins finds sheets that stand in the catalogue twice, and takes the second of each two
// out of the tables. What would say the same a second time is not told.
func (r *Reader) twins() []Aside {
	several := map[string]int{}
	for _, t := range r.Tables {
		several[t.Kind]++
	}
	var found []*twin
	var pairs []books
	kept := map[string]*originals{}
	for _, t := range r.Tables {
		if several[t.Kind] < 2 || !t.Headed {
			continue
		}
		if kept[t.Kind] == nil {
			kept[t.Kind] = &originals{holders: map[rowSum][]int{}}
		}
		w, near := kept[t.Kind].add(sumsOf(t))
		pairs = append(pairs, near...)
		if w != nil {
			w.locate()
			found = append(found, w)
		}
	}
	if len(found) == 0 && len(pairs) == 0 {
		return nil
	}
	return r.tellTwins(found, pairs)
}

// originals holds the sheets of a kind that are no twins of one another.
type originals struct {
	sheets  []*sums
	holders map[rowSum][]int // which of them hold a row, as far as a few do
}

// manyHolders is how many sheets a row is looked for in: one that so many hold tells
// nothing of any of them that the first few do not tell.
const manyHolders = 8

// add gives the sheet that one is a twin of, with most rows in common; where there is
// none, it is put among the others. It gives as well which other workbooks have a row of it
// on a sheet of its name.
func (h *originals) add(s *sums) (*twin, []books) {
	hits := map[int]int{}
	for _, r := range s.rows {
		for _, i := range h.holders[r] {
			hits[i]++
		}
	}
	var best *twin
	var near []books
	at := len(h.sheets)
	for i, o := range h.sheets {
		if o.Sheet.File == s.Sheet.File && o.Sheet.Name == s.Sheet.Name {
			continue // several tables of one sheet, which a layout reads
		}
		if hits[i] > 0 && o.Sheet.Name == s.Sheet.Name {
			near = append(near, booksOf(o.Sheet, s.Sheet))
		}
		if 2*hits[i] <= min(len(o.rows), len(s.rows)) {
			continue
		}
		if t, ok := twinOf(o, s); ok && (best == nil || t.common > best.common) {
			best, at = t, i
		}
	}
	switch {
	case best == nil:
		h.sheets = append(h.sheets, s)
	case !plainer(s.Sheet, best.first.Sheet):
		return best, near
	default:
		best.first, best.second = best.second, best.first
		h.sheets[at] = s
	}
	for _, r := range s.rows {
		if in := h.holders[r]; len(in) < manyHolders && (len(in) == 0 || in[len(in)-1] != at) {
			h.holders[r] = append(in, at)
		}
	}
	return best, near
}

// plainer tells whether a sheet has a shorter name than another one: copies are called
// like what they are copies of, and more.
func plainer(a, b *cell.Sheet) bool {
	if a.File != b.File {
		return len(a.File) < len(b.File)
	}
	return len(a.Name) < len(b.Name)
}

// tellTwins reports twins, and takes the second of each two out of the tables. Where two
// workbooks say mostly the same, that is told once, and the second is left out whole.
func (r *Reader) tellTwins(found []*twin, pairs []books) []Aside {
	groups := map[books][]*twin{}
	var order []books
	for _, t := range found {
		key := books{t.first.Sheet.File, t.second.Sheet.File}
		if groups[key] == nil {
			order = append(order, key)
		}
		groups[key] = append(groups[key], t)
	}
	shared := map[books]int{}
	for _, key := range pairs {
		if shared[key]++; shared[key] == leastSheets && groups[key] == nil {
			order = append(order, key)
		}
	}
	causes, gone := map[*table.Table]*finding.Finding{}, map[string]bool{}
	for _, key := range order {
		twins := groups[key]
		if gone[key.first] || gone[key.second] {
			continue
		}
		if all := r.alike(key, twins); all != nil {
			gone[key.second] = true
			f := r.bookTwice(all)
			r.report(f)
			for _, t := range r.Tables {
				if t.Sheet.File == key.second {
					causes[t] = f
				}
			}
			continue
		}
		for _, t := range twins {
			if causes[t.second.Table] == nil {
				causes[t.second.Table] = sheetTwice(t)
				r.report(causes[t.second.Table])
			}
		}
	}
	r.unused(causes)
	var out []Aside
	r.Tables = slices.DeleteFunc(slices.Clone(r.Tables), func(t *table.Table) bool {
		if causes[t] != nil {
			out = append(out, Aside{Table: t, Cause: causes[t]})
		}
		return causes[t] != nil
	})
	return out
}

// unused writes down that sheets are left alone.
func (r *Reader) unused(causes map[*table.Table]*finding.Finding) {
	for t := range causes {
		for i := range r.Read.Files {
			for k := range r.Read.Files[i].Sheets {
				if s := &r.Read.Files[i].Sheets[k]; r.Read.Files[i].Name == t.Sheet.File && s.Name == t.Sheet.Name {
					s.Kind = ""
				}
			}
		}
	}
}

// about tells whether a finding is about a cell of a sheet that is not used.
func about(f *finding.Finding, lost []Aside) bool {
	return len(f.Cells) > 0 && slices.ContainsFunc(lost, func(a Aside) bool { return a.Table.Sheet == f.Cells[0].Sheet })
}

func sheetTwice(t *twin) *finding.Finding {
	a, b := cell.Place{Sheet: t.first.Sheet}, cell.Place{Sheet: t.second.Sheet}
	f := twice(fmt.Sprintf("the sheets %s and %s", a, b), t.differ, max(len(t.first.rows), len(t.second.rows)), t.at)
	f.Cells = append(finding.At(b, a), f.Cells...)
	f.Fix = "delete the one that does not hold, or put _ before its name; until then the one with the longer name is not read"
	return f
}

// twice says how much two things differ that are nearly the same.
func twice(names string, differ, rows int, at cell.Place) *finding.Finding {
	f := &finding.Finding{Code: finding.SheetTwice, Severity: finding.Error, Constant: names + " are nearly the same"}
	switch {
	case differ == 0:
		f.Constant = names + " say the same"
		f.Message = fmt.Sprintf("%s in all of their rows (%d)", f.Constant, rows)
		return f
	case differ == 1:
		f.Message = fmt.Sprintf("%s: one of %d rows differs, %s", f.Constant, rows, at)
	default:
		f.Message = fmt.Sprintf("%s: %d of %d rows differ, the first is %s", f.Constant, differ, rows, at)
	}
	f.Cells = []finding.Cell{{Place: at, Note: "the other does not have this row"}}
	return f
}

package sorted

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/written"
)

// So many cells must have moved: two that change places may be put in order on purpose where
// only a part of the column is looked at, and where the column has stayed and the rows have not.
const (
	leastMoved   = 2
	leastOfSpan  = 4
	leastOfStays = 3
	spanValues   = 3
)

// Since tells of columns of a sheet that were sorted alone since an earlier release: their
// texts stand in other rows, of which nothing else has changed, and are in order now. Where
// there is none, a column may be the one that was left out as the others were sorted. alone
// holds the columns of the pair that are told.
func Since(p *written.Pair) (fs []*finding.Finding, alone map[int]bool) {
	alone = map[int]bool{}
	if p.Untouched() {
		return nil, alone
	}
	for _, how := range []func(*move) string{(*move).sorted, (*move).stayed} {
		for k := range p.Columns {
			m := newMove(p, k)
			if m == nil {
				continue
			}
			if words := how(m); words != "" {
				fs, alone[k] = append(fs, m.finding(words)), true
			}
		}
		if len(fs) > 0 {
			break
		}
	}
	return fs, alone
}

// move is a column of which texts stand in other rows than they did.
type move struct {
	*written.Changes
	pair   *written.Pair
	column written.Both
	old    []string // what it says in the rows of both releases, from the top
	new    []string
	from   int // the first of new that has changed
	to     int // the one behind the last
}

// newMove looks at a column; nil where its texts are others than before.
func newMove(p *written.Pair, k int) *move {
	m := &move{Changes: p.Changes(k), pair: p, column: p.Columns[k]}
	if len(m.Cells) < leastMoved || !m.permuted() {
		return nil
	}
	for row := range p.Old.Rows {
		if !m.Other[0][row] {
			m.old = append(m.old, p.Old.Text(row, m.column.Old))
		}
	}
	next := 0
	for row := range p.New.Rows {
		if m.Other[1][row] {
			continue
		}
		if next < len(m.Cells) && m.Cells[next].Row == row {
			if next == 0 {
				m.from = len(m.new)
			}
			next++
			m.to = len(m.new) + 1
		}
		m.new = append(m.new, p.New.Text(row, m.column.New))
	}
	return m
}

// permuted tells whether the cells say what they said before, in other rows. Rows that were
// added or taken out in the same step may have got or left a text; two thirds must be there.
func (m *move) permuted() bool {
	left := map[string]int{}
	for _, c := range m.Cells {
		left[c.Was]++
	}
	kept := 0
	for _, c := range m.Cells {
		if left[c.Now] > 0 {
			left[c.Now]--
			kept++
		}
	}
	strange := len(m.Cells) - kept
	return kept >= leastMoved && strange <= len(m.Other[0])+len(m.Other[1]) && 3*kept >= 2*len(m.Cells)
}

// sorted says how the column is in order and was not; "" where it is not.
func (m *move) sorted() string {
	name := m.column.Name
	if orders(m.new)&^orders(m.old) != 0 {
		return name + " is in order now and was not in the earlier release"
	}
	span := m.new[m.from:m.to]
	if len(m.Cells) >= leastOfSpan && values(span) >= spanValues && orders(span) != 0 {
		return name + " is in order in these rows now and was not in the earlier release"
	}
	return ""
}

// stayed says that the column is as it was while the rows beside it are in another order.
func (m *move) stayed() string {
	if len(m.Cells) < leastOfStays || !slices.Equal(m.old, m.new) {
		return ""
	}
	return m.column.Name + " has stayed as it was while the rows beside it were put in another order"
}

// mostMoved is how many cells a finding names.
const mostMoved = 5

func (m *move) finding(words string) *finding.Finding {
	f := &finding.Finding{Code: finding.ColumnSorted, Severity: finding.Warning,
		Message:  fmt.Sprintf("%s: %d cells say what other rows said, and nothing else in their rows has changed", words, len(m.Cells)),
		Constant: words, Fix: "look whether the column was sorted without the others, or left out, and copy it again from the earlier release"}
	var now []string
	for i, c := range m.Cells {
		if now = append(now, c.Now); i < mostMoved {
			f.Cells = append(f.Cells, finding.Cell{Place: m.pair.New.Place(c.Row, m.column.New), Note: written.Earlier(c.Was)})
		}
	}
	known := m.pair.New.Columns[m.column.New].Known
	if len(m.Cells) >= longOrder && values(now) >= longValues && !(known && written.Prose(m.pair.New.Kind, m.column.Name)) {
		f.Severity = finding.Error
	}
	return f
}

// values counts the different texts.
func values(texts []string) int {
	seen := map[string]bool{}
	for _, s := range texts {
		seen[s] = true
	}
	return len(seen)
}

// byLetters moves ways to be in order behind the others: some programs look at hyphens and
// apostrophes last (from memory).
const byLetters = 3

// orders gives the ways in which texts are in order, with all blanks below.
func orders(texts []string) int {
	filled := texts
	for len(filled) > 0 && filled[len(filled)-1] == "" {
		filled = filled[:len(filled)-1]
	}
	out := eitherWay | eitherWay<<byLetters
	bare := strings.NewReplacer("-", "", "'", "")
	for i, s := range filled {
		if s == "" {
			return 0
		}
		if i > 0 && s != filled[i-1] {
			out &= ways(filled[i-1], s) | ways(bare.Replace(filled[i-1]), bare.Replace(s))<<byLetters
		}
	}
	return out
}

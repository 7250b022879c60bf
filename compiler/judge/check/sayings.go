package check

import (
	"cmp"
	"slices"
	"strconv"

	"ferrule/compiler/model"
)

// candidate is a row with what it says and prints, as a number.
type candidate struct {
	*model.Fitment
	says int
}

// alike gives the rows that say and print what another may.
func alike(rows []*model.Fitment) []candidate {
	says := sayings{index: map[string]int{}, words: map[*model.Fits]string{}}
	said := newTwins()
	said.begin(len(rows))
	for _, f := range rows {
		said.add(says.text(f))
	}
	n := 0
	for i := range rows {
		if said.may(i) {
			n++
		}
	}
	out := make([]candidate, 0, n)
	for i, f := range rows {
		if said.may(i) {
			out = append(out, candidate{f, says.of(f)})
		}
	}
	return out
}

// sayings numbers what rows say and print, and of which platforms: two rows of one sheet have
// one number exactly if all that is the same.
type sayings struct {
	index map[string]int
	words map[*model.Fits]string // what a cell says, made once: cells with one text share their Fits
	key   []byte
}

func (s *sayings) of(f *model.Fitment) int {
	key := s.text(f)
	n, ok := s.index[string(key)]
	if !ok {
		n = len(s.index)
		s.index[string(key)] = n
	}
	return n
}

// text writes all that a row says and prints, and its platforms, until the next is asked for.
func (s *sayings) text(f *model.Fitment) []byte {
	key := append(append(s.key[:0], f.At.Sheet.File...), 0)
	key = append(append(key, f.At.Sheet.Name...), 0)
	key = append(strconv.AppendInt(key, int64(f.Precedence), 10), 0)
	for _, p := range f.When.Platforms {
		key = append(strconv.AppendInt(key, int64(p.Index), 10), 1)
	}
	key = append(key, 0)
	cells := f.Cells
	if byPosition := func(x, y *model.FitCell) int { return cmp.Compare(x.Position.Index, y.Position.Index) }; !slices.IsSortedFunc(cells, byPosition) {
		cells = slices.Clone(cells)
		slices.SortFunc(cells, byPosition)
	}
	for _, c := range cells {
		key = append(strconv.AppendInt(key, int64(c.Position.Index), 10), 1)
		key = append(append(key, s.says(c.Fits)...), 1)
		for _, n := range c.Notes.All() {
			key = append(append(key, n.Text...), 2)
		}
	}
	s.key = key
	return key
}

func (s *sayings) says(f *model.Fits) string {
	w, ok := s.words[f]
	if !ok {
		w = Says(f) + "\x01" + f.Text
		s.words[f] = w
	}
	return w
}

package written

import (
	"slices"

	"ferrule/schema/word"
)

// Pair is a sheet in two releases.
type Pair struct {
	Old, New *Sheet
	Columns  []Both      // that both have, in the order of New
	old, new []int       // rows that are not the same in the other release, in order
	sums     [2][]sum    // of these, by release
	common   [2][]uint32 // by release and text: its number in both
}

// Both is a column of both releases.
type Both struct {
	Name     string
	Old, New int // its index
}

// sum stands for all texts of a row: equal rows have equal sums, and sums can be taken apart.
type sum uint64

// Pairs gives the sheets that both releases have: those of the same workbook and name; of the
// rest, those of the same name; and a kind's only sheet that is left in either.
func Pairs(old, new []*Sheet) []*Pair {
	keys := []func(*Sheet) string{
		func(s *Sheet) string { return s.Kind + "\x00" + word.Fold(s.Of.Name) + "\x00" + s.Of.File },
		func(s *Sheet) string { return s.Kind + "\x00" + word.Fold(s.Of.Name) },
		func(s *Sheet) string { return s.Kind },
	}
	of := map[*Sheet]*Sheet{} // by the sheet of the new release
	old = slices.Clone(old)
	for _, key := range keys {
		left := map[string][]*Sheet{}
		for _, s := range new {
			if of[s] == nil {
				left[key(s)] = append(left[key(s)], s)
			}
		}
		before := map[string][]*Sheet{}
		for _, s := range old {
			before[key(s)] = append(before[key(s)], s)
		}
		old = slices.DeleteFunc(old, func(s *Sheet) bool {
			k := key(s)
			if len(before[k]) != 1 || len(left[k]) != 1 {
				return false
			}
			of[left[k][0]] = s
			return true
		})
	}
	var out []*Pair
	for _, s := range new {
		if o := of[s]; o != nil {
			out = append(out, pair(o, s))
		}
	}
	return out
}

// Pair of two sheets, with what is the same in both put aside.
func pair(old, new *Sheet) *Pair {
	p := &Pair{Old: old, New: new, common: common(old.Texts, new.Texts)}
	at := map[string]int{}
	for i, c := range old.Columns {
		at[word.Fold(c.Name)] = i
	}
	for i, c := range new.Columns {
		if k, ok := at[word.Fold(c.Name)]; ok {
			p.Columns = append(p.Columns, Both{c.Name, k, i})
		}
	}
	sums := [2][]sum{p.sum(0, old), p.sum(1, new)}
	left := map[sum][]int{}
	for i, s := range sums[0] {
		left[s] = append(left[s], i)
	}
	same := make([]bool, len(old.Rows))
	for i, s := range sums[1] {
		list := left[s]
		if k := slices.IndexFunc(list, func(o int) bool { return p.equal(o, i, -1) }); k >= 0 {
			same[list[k]] = true
			left[s] = slices.Delete(list, k, k+1)
			continue
		}
		p.new, p.sums[1] = append(p.new, i), append(p.sums[1], s)
	}
	for i, ok := range same {
		if !ok {
			p.old, p.sums[0] = append(p.old, i), append(p.sums[0], sums[0][i])
		}
	}
	return p
}

// common numbers the texts of two sheets, so that equal ones have one number.
func common(old, new []string) (out [2][]uint32) {
	index := make(map[string]uint32, len(old))
	for i, texts := range [2][]string{old, new} {
		out[i] = make([]uint32, len(texts))
		for k, text := range texts {
			id, ok := index[text]
			if !ok {
				id = uint32(len(index))
				index[text] = id
			}
			out[i][k] = id
		}
	}
	return out
}

// id gives the common number of a cell's text.
func (p *Pair) id(release, row, column int) uint32 {
	c := &p.Columns[column]
	if release == 0 {
		return p.common[0][p.Old.Rows[row].Cells[c.Old]]
	}
	return p.common[1][p.New.Rows[row].Cells[c.New]]
}

func (p *Pair) sum(release int, s *Sheet) []sum {
	out := make([]sum, len(s.Rows))
	for i := range s.Rows {
		for k := range p.Columns {
			out[i] += mix(k, p.id(release, i, k))
		}
	}
	return out
}

// mix spreads a column and a text over the numbers (the finaliser of SplitMix64, from memory).
func mix(column int, text uint32) sum {
	x := uint64(column+1)<<32 | uint64(text)
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return sum(x ^ x>>31)
}

// equal tells whether two rows say the same, but for one column; -1 for none.
func (p *Pair) equal(old, new, but int) bool {
	for k := range p.Columns {
		if k != but && p.id(0, old, k) != p.id(1, new, k) {
			return false
		}
	}
	return true
}

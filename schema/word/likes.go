package word

import "unicode/utf8"

// Likes is a list of names of which each is held against the others: what Slip would work out of a name
// again and again is kept.
type Likes struct {
	names, folded []string
	letters       []uint64
	slips         *Slips         // where there are many names
	at            map[string]int // of the folded names, then
}

// many is how many names are held against each other one by one; of more, two are alike where they differ in
// one letter.
const many = 5000

// NewLikes gets ready for names that differ from each other.
func NewLikes(names []string) *Likes {
	x := &Likes{names: names, at: map[string]int{}}
	for i, name := range names {
		folded := Fold(name)
		x.folded, x.letters = append(x.folded, folded), append(x.letters, letters(folded))
		x.at[folded] = i
	}
	if len(names) > many {
		x.slips = NewSlips(names)
	}
	return x
}

// Slip is Slip of one of the names among those of the others that are allowed, by their numbers; -1 where none is near.
func (x *Likes) Slip(of int, allowed func(i int) bool) int {
	best, least := -1, 0
	limit := mayDiffer(utf8.RuneCountInString(x.folded[of]))
	if x.slips != nil {
		return x.slip(of, limit, allowed)
	}
	for i := range x.names {
		if i == of || !allowed(i) || parted(x.letters[of], x.letters[i], limit) {
			continue
		}
		if d := distance(x.folded[of], x.folded[i], limit); d <= limit && (best < 0 || d < least) {
			best, least = i, d
		}
	}
	return best
}

// slip is Slip where there are many names.
func (x *Likes) slip(of, limit int, allowed func(i int) bool) int {
	if limit == 0 {
		return -1
	}
	for _, name := range x.slips.Within(x.names[of]) {
		if i := x.at[Fold(name)]; i != of && allowed(i) {
			return i
		}
	}
	return -1
}

// Package word compares names as people mean them, and finds the one that was meant.
package word

import (
	"math/bits"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Fold is how names are compared: case folded, white space collapsed.
func Fold(s string) string {
	if plain(s) {
		return strings.ToLower(s)
	}
	return strings.Map(fold, strings.Join(strings.Fields(s), " "))
}

// plain tells whether a text is printable ASCII whose white space is collapsed: most names are, and
// nearly all time that looking for names takes is spent on folding them.
func plain(s string) bool {
	for i := range len(s) {
		switch c := s[i]; {
		case c < ' ' || c >= 0x7f:
			return false
		case c == ' ' && (i == 0 || i == len(s)-1 || s[i+1] == ' '):
			return false
		}
	}
	return true
}

// fold gives one letter for all that differ in case only, the small one where there is
// one: sigma has two small forms.
func fold(r rune) rune {
	if r < utf8.RuneSelf {
		return unicode.ToLower(r)
	}
	least := r
	for f := unicode.SimpleFold(r); f != r; f = unicode.SimpleFold(f) {
		least = min(least, f)
	}
	return unicode.ToLower(least)
}

// Nearest gives the name that is most like s, the first of several, or "" where none
// is near enough to be a slip of the hand: at most a third of the letters of s differ,
// or one of two.
func Nearest(s string, names []string) string {
	n := utf8.RuneCountInString(Fold(s))
	return nearest(s, names, max(min(1, n-1), n/3))
}

// Slip is Nearest for names that need not be slips: one letter of every six may differ,
// and at least four letters stay.
func Slip(s string, names []string) string {
	return nearest(s, names, mayDiffer(utf8.RuneCountInString(Fold(s))))
}

// mayDiffer is how many letters of a name of n letters may differ.
func mayDiffer(n int) int { return min(max(1, n/6), max(n-4, 0)) }

// nearest gives the first of the names that differ least, and by no more than a limit.
func nearest(s string, names []string, limit int) string {
	best, least := "", -1
	folded := Fold(s)
	for _, name := range names {
		d := distance(folded, Fold(name), limit)
		if d <= limit && (least < 0 || d < least) {
			best, least = name, d
		}
	}
	return best
}

// distance is the number of letters to insert, delete, change or swap with the next
// (Damerau and Levenshtein's, restricted); limit+1 stands for anything above limit.
func distance(a, b string, limit int) int {
	if far(a, b, limit) {
		return limit + 1
	}
	x, y := []rune(a), []rune(b)
	if max(len(x)-len(y), len(y)-len(x)) > limit {
		return limit + 1
	}
	var room [3][40]int // most names find room in it
	rows := [3][]int{room[0][:], room[1][:], room[2][:]}
	if len(y) >= len(room[0]) {
		rows = [3][]int{make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)}
	}
	for i := range rows {
		rows[i] = rows[i][:len(y)+1]
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	last := rows[0]
	for i := 1; i <= len(x); i++ {
		row, above, above2 := rows[i%3], rows[(i-1)%3], rows[(i+1)%3]
		row[0] = i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(above[j]+1, row[j-1]+1, above[j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], above2[j-2]+1)
			}
		}
		if slices.Min(row) > limit {
			return limit + 1
		}
		last = row
	}
	return min(last[len(y)], limit+1)
}

// far tells of two names that more letters than a limit stand in only one of them, each
// letter counted once: every change mends one at most on either side.
func far(a, b string, limit int) bool {
	return parted(letters(a), letters(b), limit)
}

// parted is far of what letters tells of two names.
func parted(x, y uint64, limit int) bool {
	return bits.OnesCount64(x&^y) > limit || bits.OnesCount64(y&^x) > limit
}

// letters tells which letters stand in a name; several may share a bit.
func letters(s string) (out uint64) {
	for _, r := range s {
		out |= 1 << (r % 64)
	}
	return out
}

// Sole is Nearest where no other name is as near, "" where one is: then either may be meant.
func Sole(s string, names []string) string {
	best := Nearest(s, names)
	if best == "" {
		return ""
	}
	d := distance(Fold(s), Fold(best), len(s))
	for _, name := range Within(s, names, d) {
		if Fold(name) != Fold(best) {
			return ""
		}
	}
	return best
}

// Within gives the names that differ from s in at most so many letters, in their order.
func Within(s string, names []string, limit int) []string {
	var out []string
	folded := Fold(s)
	for _, name := range names {
		if distance(folded, Fold(name), limit) <= limit {
			out = append(out, name)
		}
	}
	return out
}

// DidYouMean gives ` (did you mean X?)` for the nearest name, or "".
func DidYouMean(s string, names []string) string {
	if n := Nearest(s, names); n != "" {
		return " (did you mean " + n + "?)"
	}
	return ""
}

package finding

import (
	"fmt"
	"slices"
	"strings"
)

// Follow is how many findings of a code are not listed, since they can only be there
// because of another one.
type Follow struct {
	Code  Code
	Count int
}

// Owe counts a finding under the one that it follows from.
func (f *Finding) Owe(code Code, n int) {
	i, found := slices.BinarySearchFunc(f.Follows, code, func(x Follow, c Code) int { return strings.Compare(string(x.Code), string(c)) })
	if !found {
		f.Follows = slices.Insert(f.Follows, i, Follow{Code: code})
	}
	f.Follows[i].Count += n
}

// Following says in a sentence what is not listed because of the finding; "" where all is.
func (f *Finding) Following() string {
	var words []string
	n := 0
	for _, x := range f.Follows {
		n += x.Count
		words = append(words, fmt.Sprintf("%d %s", x.Count, x.Code))
	}
	switch n {
	case 0:
		return ""
	case 1:
		return fmt.Sprintf("because of this one further finding is not listed: %s", f.Follows[0].Code)
	}
	return fmt.Sprintf("because of this %d further findings are not listed: %s", n, strings.Join(words, ", "))
}

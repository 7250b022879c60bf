package stray

import (
	"strings"
	"unicode"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets"
)

// lone tells whether a row that holds one cell alone is no row of the table.
func (s *search) lone(r *table.Record, f *table.Field) bool {
	c := &s.Columns[f.Column]
	switch {
	case len(r.Fields) > 1:
		return true // one cell merged over several columns: a heading
	case s.world.declares(s.Kind, f.Text), f.Kind != sheets.Text && f.Kind != sheets.Number:
		return false
	}
	switch s.Kind {
	case schema.Parts:
		return c.Name == "Part" && f.Kind == sheets.Text && (sentence(f.Text) || s.unlike(f.Text) && !s.world.names(s.Kind, f.Text)) || c.Name != "Part" && sentence(f.Text)
	case schema.Positions:
		return c.Name == "Position" && (sentence(f.Text) || s.fuller() && !s.world.names(s.Kind, f.Text)) || c.Name != "Position" && sentence(f.Text)
	case schema.Vehicles, schema.Fitment:
		return f.Kind == sheets.Text && (c.Name == "Platform" && !s.world.lists(f.Text) || c.Name != "Platform" && sentence(f.Text) && !keyed(f.Text))
	case schema.Facts:
		return f.Kind == sheets.Text && (c.Name == "Platform" && !s.world.lists(f.Text) || sentence(f.Text))
	}
	return true // a row of these kinds holds two cells at least
}

// sentence tells whether a text reads like words to people and not like a name.
func sentence(text string) bool {
	text = strings.TrimSpace(text)
	return marked(text) || strings.HasSuffix(text, ":") || len(strings.Fields(text)) > 4
}

// keyed tells whether a text is a fitment cell in words.
func keyed(text string) bool {
	for _, k := range []string{"none", "ask", "planned", "tbd", "with"} {
		if first, _, _ := strings.Cut(word.Fold(text), " "); strings.TrimRight(first, ":,;.(-") == k {
			return true
		}
	}
	return false
}

// marked tells whether a text begins like a note below a table.
func marked(text string) bool {
	folded := word.Fold(text)
	for _, sign := range []string{"*", "†", "‡", "§", "note:", "notes:", "note -", "note –", "nb:", "n.b.", "remark:", "remarks:", "legend:", "key:", "source:", "(1)", "1)", "¹", "all dimensions"} {
		if strings.HasPrefix(folded, sign) {
			return true
		}
	}
	return false
}

// totals are the words that a row of sums begins with.
var totals = [...]string{"total", "totals", "subtotal", "subtotals", "sub-total", "sub total", "grand total", "sum", "count", "average", "overall"}

func isTotal(text string) bool {
	if len(text) > 40 || text == "" || !strings.ContainsRune("tsgcaoTSGCAO ", rune(text[0])) {
		return false
	}
	folded := strings.TrimRight(word.Fold(text), ": ")
	for _, t := range totals {
		if folded == t || strings.HasPrefix(folded, t) && (t == "grand total" || t == "total") && folded[len(t)] == ' ' {
			return true
		}
	}
	return false
}

// figure tells whether a text begins with a digit: `128 parts`.
func figure(text string) bool {
	text = strings.TrimSpace(text)
	return text != "" && text[0] >= '0' && text[0] <= '9'
}

// look is what numbers of parts look like, as far as a heading differs from them.
type look struct{ digits, blanks bool }

func lookOf(text string) look {
	return look{strings.ContainsFunc(text, unicode.IsDigit), strings.ContainsFunc(strings.TrimSpace(text), unicode.IsSpace)}
}

// unlike tells whether no row of the sheet that holds more than its number has a number
// that looks like the text, while such rows there are.
func (s *search) unlike(text string) bool {
	want, rows := lookOf(text), 0
	for i := range s.Records {
		r := &s.Records[i]
		if f := under(s.Table, r, "Part"); f != nil && single(r) == nil {
			if lookOf(f.Text) == want {
				return false
			}
			rows++
		}
	}
	return rows > 1
}

// fuller tells whether most rows of the sheet hold more than one cell.
func (s *search) fuller() bool {
	n := 0
	for i := range s.Records {
		if single(&s.Records[i]) == nil {
			n++
		}
	}
	return 2*n > len(s.Records)
}

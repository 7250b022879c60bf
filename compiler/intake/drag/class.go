package drag

import (
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
)

// columns holds what the columns of each kind of sheet are; those that are not here are
// never told.
var columns = map[string]map[string]class{
	"platforms":     {"Years": years, "Maker": other},
	"vehicles":      {"Platform": name, "Years": years, "On the road": large},
	"positions":     {"Platform": name, "Years": years, "Quantity": count, "Pair": other, "Air line": other, "Family": other},
	"parts":         {"Line size": measured, "Replaced by": other},
	"kits":          {"Part": other, "Quantity": count},
	"references":    {"Part": other},
	"fitment":       {"Platform": name, "Years": years, "Precedence": precedence, "Fits": part, "Position": other},
	"compatibility": {"Platform": name, "Years": years, "Part": other, "With": other, "Family": other},
	"facts":         {"Platform": name, "Years": years, "Precedence": precedence},
	"limits":        {"Position": other, "Family": other},
	"accepted":      {"Platform": name, "Years": years, "Until": large, "Position": other, "Part": other, "Finding": other},
}

// further holds what the columns are that a kind of sheet does not define: traits, most
// of all.
var further = map[string]class{"vehicles": other, "positions": other, "fitment": other, "compatibility": other, "accepted": other, "facts": large, "parts": measured}

func classOf(kind string, c *table.Column, places map[string]bool) class {
	if c.Known {
		if k, ok := columns[kind][c.Name]; ok {
			return k
		}
		return never
	}
	switch folded := word.Fold(c.Name); {
	case kind == "fitment" && places[folded]:
		return part
	case kind == "fitment" && strings.HasSuffix(folded, " note"):
		return never
	}
	if k, ok := further[kind]; ok {
		return k
	}
	return never
}

// Positions gives the folded names of the positions that the sheets declare.
func Positions(tables []*table.Table) map[string]bool {
	out := map[string]bool{}
	for _, t := range tables {
		for i := range t.Records {
			for _, f := range t.Records[i].Fields {
				if c := &t.Columns[f.Column]; t.Kind == "positions" && c.Known && c.Name == "Position" {
					out[word.Fold(f.Text)] = true
				}
			}
		}
	}
	return out
}

// told marks the runs that are told by themselves.
func (s *scan) told() []*Run {
	for _, r := range s.out {
		r.Told = s.suspect(r)
	}
	return s.out
}

func (s *scan) suspect(r *Run) bool {
	whole := r.climb == whole
	switch r.class {
	case years:
		switch r.climb {
		case last:
			return r.Kind == "platforms" || r.Platform && (r.Mostly || r.Kind != "vehicles")
		case first, both:
			return r.Platform && (r.Mostly || len(r.Cells) > least)
		case single:
			return r.Same && r.Kind != "platforms"
		}
		return r.Same && 2*s.plain[r.column] < s.filled[r.column]
	case precedence:
		return whole
	case part:
		return r.Same
	case name:
		return r.Same && 2*s.regular[r.column] < s.filled[r.column]
	case measured:
		united := s.t.Columns[r.column].Unit != "" || !whole
		return r.Same && united && begins(r.Texts[0]) && len(r.Cells) < s.filled[r.column]
	case count:
		return whole && len(r.Cells) > least
	case large:
		return len(r.Texts[0]) >= 3 && begins(r.Texts[0]) && (whole || r.climb == last && r.Column == "Until" || len(r.Texts[0]) > 3 && digit(r.Texts[0][2]))
	}
	return false
}

// begins tells whether a text begins with a digit, as measured values do.
func begins(text string) bool { return text != "" && digit(text[0]) }

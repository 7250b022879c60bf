package drag

import (
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
)

// classOf gives what a column is as far as dragging goes.
func classOf(kind string, c *table.Column, places map[string]bool) class {
	if c.Known {
		return ownClass(kind, c.Name)
	}
	further := schema.FurtherOf(kind)
	switch folded := word.Fold(c.Name); {
	case further.Positions && places[folded]:
		return part
	case further.Positions && strings.HasSuffix(folded, " note"):
		return never
	case further.Facts:
		return large
	case further.Traits:
		return other
	case further.Properties:
		return measured
	}
	return never
}

// ownClass is classOf for a column that the kind of sheet defines. Sheets that only say what
// words mean are short and written by hand.
func ownClass(kind, column string) class {
	switch kind {
	case schema.Settings, schema.Traits, schema.Sizes, schema.Calculated, schema.Cautions, schema.Translations:
		return never
	}
	c, _ := schema.Find(kind, column)
	if c.Declares {
		return never
	}
	switch c.Holds {
	case schema.HoldsPlatform:
		return name
	case schema.HoldsYears:
		return years
	case schema.HoldsPrecedence:
		return precedence
	case schema.HoldsFits:
		return part
	case schema.HoldsQuantity:
		return count
	case schema.HoldsVehicles, schema.HoldsDate:
		return large
	case schema.HoldsMeasured:
		return measured
	case schema.HoldsPosition, schema.HoldsPart, schema.HoldsFamily, schema.HoldsTrait, schema.HoldsMaker, schema.HoldsCode:
		return other
	}
	return never
}

// Positions gives the folded names of the positions that the sheets declare.
func Positions(tables []*table.Table) map[string]bool {
	out := map[string]bool{}
	for _, t := range tables {
		for i := range t.Records {
			for _, f := range t.Records[i].Fields {
				if c := &t.Columns[f.Column]; t.Kind == schema.Positions && c.Known && c.Name == "Position" {
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
			return r.Kind == schema.Platforms || r.Platform && (r.Mostly || r.Kind != schema.Vehicles)
		case first, both:
			return r.Platform && (r.Mostly || len(r.Cells) > least)
		case single:
			return r.Same && r.Kind != schema.Platforms
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

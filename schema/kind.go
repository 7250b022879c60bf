package schema

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// The kinds of sheet. Nothing else in the program spells them.
const (
	Settings      = "settings"
	Platforms     = "platforms"
	Traits        = "traits"
	Vehicles      = "vehicles"
	Breaks        = "breaks"
	Positions     = "positions"
	Parts         = "parts"
	Kits          = "kits"
	References    = "references"
	Sizes         = "sizes"
	Fitment       = "fitment"
	Compatibility = "compatibility"
	Facts         = "facts"
	Limits        = "limits"
	Calculated    = "calculated"
	Cautions      = "cautions"
	Complaints    = "complaints"
	Inspections   = "inspections"
	Translations  = "translations"
	Accepted      = "accepted"
	Layouts       = "layouts"

	// Fleet is no sheet of a catalogue: customers keep such, and ask what belongs on their vehicles.
	Fleet = "fleet"
)

// Kinds gives the kinds of sheet, lower case, in the order of the format page.
func Kinds() []string {
	return []string{Settings, Platforms, Traits, Vehicles, Breaks, Positions, Parts, Kits, References,
		Sizes, Fitment, Compatibility, Facts, Limits, Calculated, Cautions, Complaints, Inspections, Translations, Accepted, Layouts}
}

// KindOf gives the kind of a sheet, or of a schema, by its name: the run of letters that it
// begins with, in lower case. Where no kind is called so, that is not known.
func KindOf(name string) (kind string, known bool) {
	end := strings.IndexFunc(name, func(r rune) bool { return !unicode.IsLetter(r) })
	if end < 0 {
		end = len(name)
	}
	kind = strings.ToLower(name[:end])
	return kind, slices.Contains(Kinds(), kind)
}

// Title gives a kind as its sheets are named: Fitment; "" for none.
func Title(kind string) string {
	if kind == "" {
		return ""
	}
	return strings.ToUpper(kind[:1]) + kind[1:]
}

// Further is what the columns of a kind of sheet are that it does not define. Where all is
// false it has none.
type Further struct {
	Traits     bool // conditions: each is called like a trait
	Positions  bool // what fits there, or notes on that
	Facts      bool // whatever is neither of the two is a fact
	Properties bool // whatever they are called, they are kept
	Languages  bool // what the text of the row reads in the language that the tag at their head names
}

// add reads what x-further of a schema says.
func (f *Further) add(what string) error {
	switch what {
	case "traits":
		f.Traits = true
	case "positions":
		f.Positions = true
	case "facts":
		f.Facts = true
	case "properties":
		f.Properties = true
	case "languages":
		f.Languages = true
	default:
		return fmt.Errorf("x-further says %q, which further columns cannot be", what)
	}
	return nil
}

// FurtherOf gives what the further columns of a kind of sheet are.
func FurtherOf(kind string) Further { return layoutOf(kind).further }

package schema

import (
	"fmt"
	"slices"
)

// Holds is what stands in the cells of a column.
type Holds uint8

// Names that one sheet declares and others refer to come first.
const (
	HoldsPlatform   Holds = iota + 1 // names of platforms; a condition where the sheet has conditions
	HoldsTrait                       // the name of a trait
	HoldsValue                       // a value of a trait
	HoldsPosition                    // the name of a position
	HoldsPart                        // a part number, or the number of a kit
	HoldsFamily                      // a family of parts
	HoldsCaution                     // the key of a caution
	HoldsCautions                    // a list of keys of cautions, or texts
	HoldsFigure                      // the name of a property or a fact
	HoldsFits                        // a fitment cell
	HoldsYears                       // model years
	HoldsNumber                      // another number of a part
	HoldsCode                        // the code of a finding
	HoldsMeasured                    // a measured value, or a nominal size
	HoldsFormula                     // a formula
	HoldsQuantity                    // how many are fitted
	HoldsPrecedence                  // a whole number that may be negative
	HoldsEffort                      // one of a few whole numbers
	HoldsOrder                       // which comes first, as a whole number
	HoldsVehicles                    // how many vehicles are on the road
	HoldsDate                        // a day
	HoldsWord                        // one of the words that its schema lists
	HoldsSetting                     // whatever the setting of its row is
	HoldsLabel                       // a short text that the sheet alone uses
	HoldsMaker                       // who makes a platform
	HoldsSource                      // who or what says so
	HoldsPicture                     // the file of a picture
	HoldsSentence                    // words for people to read
)

// inSchemas is how a schema says what a column holds, by Holds.
var inSchemas = [...]string{HoldsPlatform: "platform", HoldsTrait: "trait", HoldsValue: "value", HoldsPosition: "position",
	HoldsPart: "part", HoldsFamily: "family", HoldsCaution: "caution", HoldsCautions: "cautions", HoldsFigure: "figure",
	HoldsFits: "fits", HoldsYears: "years", HoldsNumber: "number", HoldsCode: "code", HoldsMeasured: "measured",
	HoldsFormula: "formula", HoldsQuantity: "quantity", HoldsPrecedence: "precedence", HoldsEffort: "effort", HoldsOrder: "order",
	HoldsVehicles: "vehicles", HoldsDate: "date", HoldsWord: "word", HoldsSetting: "setting", HoldsLabel: "label",
	HoldsMaker: "maker", HoldsSource: "source", HoldsPicture: "picture", HoldsSentence: "sentence"}

// UnmarshalText reads what x-holds says of a column.
func (h *Holds) UnmarshalText(text []byte) error {
	i := slices.Index(inSchemas[:], string(text))
	if i <= 0 {
		return fmt.Errorf("x-holds is %q, which no column holds", text)
	}
	*h = Holds(i)
	return nil
}

// DeclaredBy gives the kind of sheet that declares the names which columns hold, "" where
// none does.
func (h Holds) DeclaredBy() string {
	switch h {
	case HoldsPlatform:
		return Platforms
	case HoldsTrait, HoldsValue:
		return Traits
	case HoldsPosition:
		return Positions
	case HoldsPart, HoldsFamily:
		return Parts
	case HoldsCaution, HoldsCautions:
		return Cautions
	}
	return ""
}

// Prose tells what says something to people and nothing about what fits.
func (h Holds) Prose() bool {
	switch h {
	case HoldsSentence, HoldsPicture, HoldsSource, HoldsCautions:
		return true
	}
	return false
}

package model

import (
	"fmt"
	"strings"
)

// String gives what a fitment cell says, as it would be written.
func (f *Fits) String() string {
	switch {
	case f.With != nil:
		return "with " + f.With.Name
	case f.Outcome != Fitted && f.Text != "":
		return f.Outcome.String() + ": " + f.Text
	case f.Outcome != Fitted:
		return f.Outcome.String()
	}
	alternatives := make([]string, len(f.Alternatives))
	for i, a := range f.Alternatives {
		items := make([]string, len(a))
		for k, item := range a {
			items[k] = item.Part.Number
			if item.Quantity > 1 || item.Quantity == 1 && len(a) == 1 && !item.Part.Kit() {
				items[k] = fmt.Sprintf("%d x %s", item.Quantity, item.Part.Number)
			}
		}
		alternatives[i] = strings.Join(items, " + ")
	}
	return strings.Join(alternatives, " or ")
}

package model

import (
	"slices"

	"ferrule/sheets/cell"
)

// Called is another name under which people outside of the catalogue know what a row is about. No
// sheet of the catalogue may use it.
type Called struct {
	Name     string
	Platform *Platform // of a value: where it is called so; nil is everywhere
	At       cell.Place
}

// On tells whether a name is used of vehicles of a platform; nil stands for any of them.
func (c *Called) On(p *Platform) bool { return c.Platform == nil || p == nil || c.Platform == p }

// Names gives the names that are used on a platform, nil for all, each once.
func Names(called []Called, on *Platform) []string {
	var out []string
	seen := map[string]bool{}
	for i := range called {
		if c := &called[i]; c.On(on) && !seen[c.Name] {
			seen[c.Name] = true
			out = append(out, c.Name)
		}
	}
	return out
}

// Everywhere leaves out what is a name on one platform only.
func Everywhere(called []Called) []Called {
	return slices.DeleteFunc(slices.Clone(called), func(c Called) bool { return c.Platform != nil })
}

package written

import "ferrule/schema"

// Prose tells whether a column of a kind of sheet says something to readers and nothing
// about fits, as far as its name tells.
func Prose(kind, column string) bool {
	c, ok := schema.Like(kind, column)
	return ok && c.Holds.Prose()
}

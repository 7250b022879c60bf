package walk

import "ferrule/compiler/space"

// Ends gives the classes that are still possible at a position.
func (g *Guide) Ends(position int, s State) space.Set {
	w := g.walker(s)
	return w.reduce(g.trees[position], w.exist).classes
}

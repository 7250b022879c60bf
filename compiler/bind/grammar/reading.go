// Package grammar reads what stands in a cell: years, lists of names, conditions on traits,
// what fits at a position. It makes a small tree of a text, or says in a sentence what is
// wrong with it.
//
// It knows no name. Where names decide what a text says, it gives every way to read it, the
// one that is meant first where its name is declared: `A, B` is a name wherever there is one,
// and two names otherwise. Whoever knows the names takes the first way that they allow.
//
// What a tree prints is read as the same tree.
package grammar

// Reading is one way to read a text.
type Reading[T any] struct {
	If string // the name that is declared wherever this is meant; "": it holds whatever is declared
	As T
}

// Readings are the ways to read a text, in order of preference. The last holds whatever is
// declared.
type Readings[T any] []Reading[T]

// Take gives what is meant where these names are declared.
func (r Readings[T]) Take(declared func(name string) bool) T {
	for _, way := range r {
		if way.If == "" || declared(way.If) {
			return way.As
		}
	}
	panic("grammar: no reading holds whatever is declared")
}

// Plain gives what is meant where no name is declared.
func (r Readings[T]) Plain() T { return r[len(r)-1].As }

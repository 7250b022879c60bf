// Package space is exact set algebra over configurations.
//
// A configuration gives a value to each of a list of traits; both are known by number
// here. A Space is all configurations over its traits: the product of their values,
// often far more than could be listed. Nothing is sampled and nothing rounded.
//
// A Box is what a row of a table says: a set of values for each trait it names, and
// anything for the others. A Region is any set of configurations; boxes become
// regions, and regions are joined, intersected and subtracted. Equal sets are the same
// Region, so comparing them costs nothing.
//
// Most questions are one of these. With U the configurations that exist and R the rows
// of a table:
//
//   - gap: Minus(U, UnionBoxes(R)), with Count, and First for an example;
//   - an example of the gap where that is too irregular: Outside(U, R);
//   - rows that match nothing: Meets(U, row) is false;
//   - rows that fall on the same configurations: Pairs(R, U, …).
//
// Build the smallest region that answers the question; a region that tells every
// row from every other is rarely it.
//
// A Cover lists a region as few boxes for people to read. It is given the
// configurations that matter, care, and may reach over others: where no vehicle has a
// steel spring and a lift axle, "steel spring" need not add "without lift axle". A
// Partition does the same for several classes at once with boxes that never overlap,
// so that a reader finds exactly one line. A View forgets the traits that do not
// matter and remembers how many configurations stand behind each of those that are
// left; Questions orders the traits so that the right class is found with little
// asking, and Apart tells where asking cannot help.
//
// # How it works
//
// A region is a multi-valued decision diagram: a node asks one trait, an edge is a set
// of its values, and equal nodes are stored once (hash-consing), as in R. E. Bryant,
// "Graph-Based Algorithms for Boolean Function Manipulation" (1986), and for many
// values A. Srinivasan and others, "Algorithms for Discrete Function Manipulation"
// (1990). A trait that makes no difference has no node; a value in no edge leads to
// Empty. A set of values is as many words as the trait needs, so traits may have
// hundreds of values.
//
// Boxes of a Cover and a Partition are grown by asking again and again what a box has of
// what it may not hold. Where that is few paths through the diagram they are put side by
// side, each value with the set of those that lack it, and the answer is some words of
// bits. Tried before: walks over the nodes, and the paths one after the other, packed into
// two words each, which took as long as the walks.
//
// Overlapping and missing rules in decision tables are found geometrically in
// D. Calvanese, M. Dumas, Ü. Laurson, F. M. Maggi, M. Montali and I. Teinemaa,
// "Semantics and Analysis of DMN Decision Tables" (BPM 2016); that a gap needs a
// witness, and a useless row the same test, is as in L. Maranget, "Warnings for
// pattern matching" (2007).
//
// The size of a diagram depends on the order of its traits, and some sets have only
// large ones. A Space therefore has a budget, counted in nodes so that the same
// question ends the same way on every machine: Try answers ErrBudget, never a guess.
// Then Outside still looks for an example of the gap, for which no region is needed.
package space

// Package data writes what the compiler knows as JSON: for the world, each platform, each
// part and the whole catalogue with what has changed; for whoever asks, coverage and the answers
// of commands. What a build writes for its staff is in package staff.
//
// What is public is written from types of its own and those of package wire, which have no
// field for a cell, an internal note or planned work, so that nothing internal can slip out
// with a new field of the model. Answers are for the staff, and name cells.
//
// The same catalogue gives the same bytes; see package wire.
package data

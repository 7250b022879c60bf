// Package wire is the JSON that the files for the world, those for the staff and the answers to
// questions have in common: places, vehicles, conditions, what a cell says, and how a file
// is written. It knows the catalogue and what was decided, and no folder.
//
// What the world may see of a thing has a type of its own, which has no field for a cell, an
// internal note or planned work, so that nothing internal can slip out with a new field of
// the model. Place, When and Fits are for the staff, or for what was made fit for the world.
//
// The same values give the same bytes: fields stand in a fixed order, traits as they are
// declared. Strings are plain UTF-8; `<`, `>` and `&` stand as themselves, since these are
// files and never part of a page.
package wire

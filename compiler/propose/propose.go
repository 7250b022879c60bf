// Package propose looks at workbooks as people already keep them and proposes how to read them: rows
// of Layouts, each with how sure it is and why; drafts of what the catalogue lacks; and remarks on
// what it could not read, with what to write. Nothing that it proposes applies itself.
//
// What limits vehicles is never passed over. A free text that may do so becomes a condition: one of
// the catalogue's where it names a value of it, and else a drafted trait that asks what the text says,
// so that a fit is claimed only where somebody has answered.
package propose

// Sure is how sure a proposal is of one of its rows.
type Sure uint8

const (
	Unsure  Sure = iota // it may well be wrong: look at it first
	Likely              // the shape speaks for it
	Certain             // names say so
)

// String names it for people.
func (s Sure) String() string { return [...]string{"unsure", "likely", "sure"}[s] }

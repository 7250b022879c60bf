package model

import "slices"

// complaint hands on what a row of Complaints prints. What to check first may be that the vehicle must
// not be driven, so nobody may be left to guess at it.
func (w *texts) complaint(c *Complaint) {
	w.plain("complaint", c.Name, c.At)
	w.plain("Family", c.Family, c.PlaceAt)
	w.plain("How it helps", c.Helps, c.At)
	w.protects("Check first", c.Check, c.At)
}

// inspection hands on what a row of Inspections prints. One of the levels danger and warning protects.
func (w *texts) inspection(n *Inspection) {
	say := w.plain
	if slices.Index(Levels(), n.Level) <= slices.Index(Levels(), "warning") {
		say = w.protects
	}
	say("inspection", n.Look, n.At)
	say("reason", n.Why, n.At)
}

package compiler

import (
	"context"
	"time"

	"ferrule/compiler/model"
)

// Names of stages, in their order.
const (
	StageRead     = "read" // once for each workbook
	StageValidate = "validate"
	StageBind     = "bind"
	StagePictures = "pictures" // where any are named
	StageCheck    = "check"
)

// Stage is a part of a run. Options.Progress is told of each as it begins and again
// when it is done, one after the other.
type Stage struct {
	Name string // one of those above
	// What is worked on: records and their filled fields, fitment rows and their cells
	// for StageCheck. Zero as reading begins, and for a workbook that is not used.
	Rows, Cells int

	Pictures int // of StagePictures: how many cells name one

	File       string // of StageRead: the workbook's name, relative to the catalogue
	Number, Of int    // of StageRead: which workbook of how many, counted from 1

	Done bool          // false as it begins
	Took time.Duration // once it is done
}

// clock takes the time of one stage.
type clock struct {
	Stage
	tell  func(Stage)
	since time.Time
}

// begin tells that a stage begins. tell may be nil.
func begin(tell func(Stage), s Stage) *clock {
	if tell == nil {
		tell = func(Stage) {}
	}
	tell(s)
	return &clock{s, tell, time.Now()}
}

// until tells nothing any more once the context has ended. tell may be nil.
func until(ctx context.Context, tell func(Stage)) func(Stage) {
	if tell == nil {
		return nil
	}
	return func(s Stage) {
		if ctx.Err() == nil {
			tell(s)
		}
	}
}

func (c *clock) done() {
	c.Done, c.Took = true, time.Since(c.since)
	c.tell(c.Stage)
}

// fitted counts fitment rows and their cells.
func fitted(cat *model.Catalogue) (rows, cells int) {
	for _, f := range cat.Fitments {
		cells += len(f.Cells)
	}
	return len(cat.Fitments), cells
}

package report

import (
	"fmt"
	"io"

	"ferrule/compiler/ask/fleet"
)

// shownRefused is how many rows that are not taken are told on a terminal.
const shownRefused = 20

// shownFew is how many questions are told.
const shownFew = 8

// Fleet tells what came of a fleet: how much of it is settled, which few questions settle most of it, and
// which rows are not taken.
func Fleet(w io.Writer, f *fleet.Fleet, o Options) error {
	p := newPage(w, o)
	vehicles, settled := f.Counts()
	p.line(count(fmt.Sprint(vehicles), "vehicle") + " taken, " + fmt.Sprint(settled) + " settled; " + count(fmt.Sprint(len(f.Order)), "part number") + " to order")
	p.few(f)
	p.refused("not taken:", f.Refused)
	p.refused("taken, and to be looked at:", f.Remarks)
	return p.err
}

func (p *page) few(f *fleet.Fleet) {
	if len(f.Few) == 0 {
		return
	}
	p.line("")
	p.line("these questions, one after another, leave nothing open of:")
	for _, q := range f.Few[:min(len(f.Few), shownFew)] {
		p.wrap("  ", 4, fmt.Sprintf("%s: %d more, %d in all", q.Column, q.Vehicles, q.Total))
	}
	if n := len(f.Few) - shownFew; n > 0 {
		p.wrap("  ", 4, fmt.Sprintf("+%d more questions", n))
	}
}

func (p *page) refused(title string, all []fleet.Refused) {
	if len(all) == 0 {
		return
	}
	p.line("")
	p.line(title)
	for _, r := range all[:min(len(all), shownRefused)] {
		words := fmt.Sprintf("%s, row %d: %s", r.At.Sheet, r.At.Row, r.What)
		if r.At.Row == 0 {
			words = fmt.Sprintf("%s: %s", r.At.Sheet, r.What)
		}
		p.wrap("  ", 4, words)
		if r.Nearest != "" {
			p.wrap("    ", 4, r.Nearest)
		}
	}
	if n := len(all) - shownRefused; n > 0 {
		p.wrap("  ", 4, fmt.Sprintf("+%d more rows, in the sheet Not read", n))
	}
}

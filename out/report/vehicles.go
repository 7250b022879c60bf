package report

import (
	"encoding/csv"
	"fmt"
	"io"

	"ferrule/compiler/ask/exist"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// Vehicles writes what exists for people: each platform with what its vehicles have, and the rows
// that say which of it goes together.
func Vehicles(w io.Writer, list []exist.Platform, o Options) error {
	p := newPage(w, o)
	for i, one := range list {
		if i > 0 {
			p.line("")
		}
		p.exists(&one)
	}
	return p.err
}

func (p *page) exists(one *exist.Platform) {
	if !one.Exact {
		p.title(one.Platform.Name)
		p.wrap("  ", 2, "too irregular to be worked out")
		return
	}
	p.title(one.Platform.Name)
	p.wrap("  ", 2, fmt.Sprintf("%s, %s on the road; said in %s, where the sheets have %s", count(one.Configurations.String(), "configuration"),
		road(one.OnTheRoad), count(len(one.Rows), "row"), rowsOf(len(one.Vehicles), len(one.Breaks))))
	for _, t := range one.Has {
		p.wrap("  has   ", 10, hasWords(t))
	}
	for _, r := range one.Rows {
		words := r.Where.String()
		if !r.Where.Restricts() {
			words = "every year with all of these values"
		}
		p.wrap("  exist ", 10, words)
	}
}

// rowsOf says how many rows of both sheets there are.
func rowsOf(vehicles, breaks int) string {
	words := fmt.Sprintf("%d of Vehicles", vehicles)
	if breaks > 0 {
		words += fmt.Sprintf(" and %d of Breaks", breaks)
	}
	return words
}

// hasWords says which values of a trait occur.
func hasWords(t model.TraitSet) string {
	names, absent := t.Names()
	if absent {
		names = append(names, "n/a")
	}
	return t.Trait.Name + ": " + word.List(names, "or")
}

// Proposals writes for which platforms fewer rows say the same, and the rows, as text to paste into
// sheets.
func Proposals(w io.Writer, list []exist.Proposal, vehicles, breaks exist.Table, o Options) error {
	p := newPage(w, o)
	for i := range list {
		p.proposal(&list[i])
	}
	for _, sheet := range []struct {
		name string
		exist.Table
	}{{"Vehicles", vehicles}, {"Breaks", breaks}} {
		if len(sheet.Rows) == 0 || p.err != nil {
			continue
		}
		p.line("")
		p.line(sheet.name + ":")
		c := csv.NewWriter(w)
		c.Comma = '\t'
		p.err = c.WriteAll(append([][]string{sheet.Columns}, sheet.Rows...))
	}
	return p.err
}

func (p *page) proposal(one *exist.Proposal) {
	p.title(one.Platform.Platform.Name)
	if one.Why != "" {
		p.wrap("  ", 2, fmt.Sprintf("nothing is proposed in place of %s: %s", rowsOf(len(one.Platform.Vehicles), len(one.Platform.Breaks)), one.Why))
		return
	}
	p.wrap("  ", 2, fmt.Sprintf("%d rows instead of %d: %s instead of %s, of the same %s", one.After(), one.Before(),
		rowsOf(len(one.Vehicles), len(one.Breaks)), rowsOf(len(one.Platform.Vehicles), len(one.Platform.Breaks)), count(one.Configurations.String(), "configuration")))
	if !one.Even {
		p.wrap("  ", 2, "on the road: rows that are joined had numbers of their own, and one number is spread evenly over all that is left; keep the rows where the difference matters")
	}
}

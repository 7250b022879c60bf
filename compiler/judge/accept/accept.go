// Package accept knows which configurations of which findings someone has accepted.
//
// Accepting quiets a finding for exactly the configurations that an Accepted row
// names, and no more. It never makes a wrong statement public: whether a case is
// settled is decided without it.
package accept

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/owed"
	"ferrule/compiler/space"
)

// Kinds describes the codes of acceptance.
func Kinds() []finding.Kind {
	return []finding.Kind{
		{Code: finding.AcceptedExpired, Severity: "warning",
			Summary: "an Accepted row is past its date",
			Doc:     "The row no longer quiets anything: the finding counts again. Look at it once more, and either mend it or give the row a new date.",
			Before:  "Accepted!F2  2026-03-31",
			After:   "Accepted!F2  2027-03-31"},
		{Code: finding.AcceptedUnused, Severity: "warning",
			Summary: "an Accepted row matches no finding any more",
			Doc:     "What was accepted has been mended, or the row names other vehicles than the finding. A row that matches nothing would quiet a later finding that nobody has looked at.",
			Before:  "Accepted!A2  coverage-gap  B2  H7  (H7 has no gap)",
			After:   "(the row is deleted)"},
	}
}

// Rows holds the Accepted rows with the day on which they are read.
type Rows struct {
	cat   *model.Catalogue
	rows  []*model.Acceptance
	today string
}

// New holds the Accepted rows of a catalogue; today is an ISO date.
func New(cat *model.Catalogue, today string) *Rows {
	return &Rows{cat, cat.Acceptances, today}
}

// Use tells which rows have matched a finding.
type Use map[*model.Acceptance]bool

// Share is the part of a finding that one row accepts.
type Share struct {
	Row    *model.Acceptance
	Region space.Region
}

func (l *Rows) expired(a *model.Acceptance) bool { return a.Until != "" && a.Until < l.today }

// about tells whether the row names the finding's code, position and part.
func about(a *model.Acceptance, f *finding.Finding) bool {
	return a.Code == string(f.Code) && !a.When.SetAside &&
		(a.Position == nil || a.Position.Name == f.Position) &&
		(a.Part == nil || a.Part.Number == f.Part)
}

// Split gives the parts of a region that rows accept, the first row first, and what
// nobody has accepted. It runs inside Try.
func (l *Rows) Split(p *decide.Platform, f *finding.Finding, region space.Region, use Use) (shares []Share, rest space.Region) {
	rest = region
	for _, a := range l.rows {
		if !about(a, f) || !a.When.Concerns(p.Model) {
			continue
		}
		box := p.Bounds(&a.When)
		if !p.Meets(region, box) {
			continue
		}
		use[a] = true
		if l.expired(a) || !p.Meets(rest, box) {
			continue
		}
		in := p.Intersect(rest, p.Box(box))
		shares = append(shares, Share{a, in})
		rest = p.Minus(rest, in)
	}
	return shares, rest
}

// Stand is a finding that stands behind something, and where.
type Stand struct {
	Finding finding.Finding // its code, position and part
	Where   space.Region
}

// Behind splits a region in which findings stand behind what is said: a configuration is
// accepted where each that stands there is, so that two findings need two acceptances. Of
// several rows the first that accepts one of them is told. It runs inside Try.
func (l *Rows) Behind(p *decide.Platform, stands []Stand, region space.Region) (shares []Share, rest space.Region) {
	covered, open := space.Empty, space.Empty
	var all []Share
	for i := range stands {
		where := p.Intersect(region, stands[i].Where)
		parts, left := l.Split(p, &stands[i].Finding, where, Use{})
		covered, open = p.Union(covered, where), p.Union(open, left)
		all = append(all, parts...)
	}
	left := p.Minus(covered, open)
	rest = p.Minus(region, left)
	for _, a := range l.rows {
		in := space.Empty
		for _, s := range all {
			if s.Row == a {
				in = p.Union(in, p.Intersect(s.Region, left))
			}
		}
		if in != space.Empty {
			shares, left = append(shares, Share{a, in}), p.Minus(left, in)
		}
	}
	return shares, rest
}

func on(a *model.Acceptance, platform string) bool {
	return slices.ContainsFunc(a.When.Platforms, func(p *model.Platform) bool { return p.Name == platform })
}

// Whole marks a finding that has no region as accepted where a row names it without
// conditions on vehicles.
func (l *Rows) Whole(f *finding.Finding, use Use) {
	for _, a := range l.rows {
		if !about(a, f) || a.When.Years != nil || len(a.When.Traits) > 0 {
			continue
		}
		if a.When.Platforms != nil && (f.Platform == "" || !on(a, f.Platform)) {
			continue
		}
		use[a] = true
		if f.Accepted == nil && !l.expired(a) {
			f.Accepted = Mark(a)
		}
	}
}

// Mark says who accepted.
func Mark(a *model.Acceptance) *finding.Accepted {
	return &finding.Accepted{Reason: a.Reason, By: a.By, Until: a.Until, Cell: a.At}
}

// Findings reports rows past their date and rows that matched nothing, as far as all
// vehicles that they may be about are known.
func (l *Rows) Findings(use Use, aside *owed.Ledger, report func(*finding.Finding)) {
	for _, a := range l.rows {
		switch {
		case l.expired(a):
			report(&finding.Finding{Code: finding.AcceptedExpired, Severity: finding.Warning,
				Message: fmt.Sprintf("the acceptance of %s by %s ended on %s", a.Code, a.By, a.Until),
				Cells:   finding.At(a.UntilAt),
				Fix:     "look at the finding again: mend it, or write a later date"})
		case finding.Code(a.Code).Compared():
			// It may be about what only a comparison tells.
		case use[a] || a.When.SetAside || a.When.Partial(l.cat) || a.Part != nil && !a.Part.Known:
		case aside.May(a) != nil:
			aside.May(a).Owe(finding.AcceptedUnused, 1)
		default:
			report(&finding.Finding{Code: finding.AcceptedUnused, Severity: finding.Warning,
				Message: fmt.Sprintf("the row accepts %s and no such finding is left that it names", a.Code),
				Cells:   finding.At(a.At),
				Fix:     "delete the row, or correct what it names"})
		}
	}
}

package accept

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/owed"
	"ferrule/compiler/space"
)

// Lost is what Accepted sheets that are not used would accept: it is not accepted, and
// counts under what says that the sheet is not used. Nil is none.
type Lost struct {
	rows  *Rows
	cause map[*model.Acceptance]*finding.Finding
}

// Lost gives what would be accepted on the ledger's day.
func (l *Rows) Lost(rows []owed.Acceptance) *Lost {
	if len(rows) == 0 {
		return nil
	}
	out := &Lost{&Rows{cat: l.cat, today: l.today}, map[*model.Acceptance]*finding.Finding{}}
	for _, r := range rows {
		out.rows.rows = append(out.rows.rows, r.Row)
		out.cause[r.Row] = r.Cause
	}
	return out
}

// Split gives why parts of a region are no longer accepted, and what never was. It runs
// inside Try.
func (l *Lost) Split(p *decide.Platform, f *finding.Finding, region space.Region) (causes []*finding.Finding, rest space.Region) {
	if l == nil || region == space.Empty {
		return nil, region
	}
	shares, rest := l.rows.Split(p, f, region, Use{})
	for _, s := range shares {
		causes = append(causes, l.cause[s.Row])
	}
	return causes, rest
}

// Whole gives why a finding that has no region is no longer accepted; nil where it never
// was.
func (l *Lost) Whole(f *finding.Finding) *finding.Finding {
	if l == nil || f.Accepted != nil {
		return nil
	}
	tried := *f
	l.rows.Whole(&tried, Use{})
	if tried.Accepted == nil {
		return nil
	}
	for _, row := range l.rows.rows {
		if row.At == tried.Accepted.Cell {
			return l.cause[row]
		}
	}
	return nil
}

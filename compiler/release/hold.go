package release

import (
	"context"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/release/compare"
)

// Hold holds the findings of a run against an earlier release: those that it has too are
// known, and what protected there and does not any more is told. Acceptances are those of
// today, an ISO date. A run that could not read everything is left as it is, since nobody
// can tell what is missing. The error is the context's.
func Hold(ctx context.Context, r *compiler.Result, old *Release, today string) error {
	if !r.Whole {
		return nil
	}
	found, err := compare.Since(ctx, &old.Release, r.Release(), old.Findings, r.Findings, compare.Options{Today: today})
	if err != nil {
		return err
	}
	finding.Sort(found)
	r.Findings, r.Since = found, old.State.Source
	return nil
}

// Guard is the part of Hold that is about the catalogue: it tells what protected in an
// earlier release and does not any more, and makes nothing known.
func Guard(ctx context.Context, r *compiler.Result, old *Release, today string) error {
	if !r.Whole {
		return nil
	}
	lost, err := compare.Guard(ctx, &old.Release, r.Release(), r.Findings, compare.Options{Today: today})
	if err != nil {
		return err
	}
	r.Findings = append(r.Findings, lost...)
	finding.Sort(r.Findings)
	return nil
}

// Changes works out what has changed since an earlier release, for pages: in boxes that
// name all that follows, and whatever somebody has accepted. The run has read everything.
// The error is the context's.
func Changes(ctx context.Context, r *compiler.Result, old *Release) (*compare.Diff, error) {
	return compare.Between(ctx, &old.Release, r.Release(), compare.Options{Tight: true})
}

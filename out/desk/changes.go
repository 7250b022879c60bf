package desk

import (
	"fmt"
	"net/http"
	"strings"

	"ferrule/compiler"
	"ferrule/compiler/release"
	"ferrule/compiler/release/compare"
	"ferrule/out/data"
	"ferrule/out/view"
)

// changesPage is what differs for vehicles from an earlier release.
type changesPage struct {
	Since, Wrong string
	Answer       *view.Changes // nil: nothing was compared
}

func (d *Desk) changes(s *state, r *http.Request) (any, error) {
	p := &changesPage{Since: strings.TrimSpace(r.URL.Query().Get("since"))}
	if p.Since == "" {
		p.Since = d.options.Since
	}
	if p.Since == "" {
		return p, nil
	}
	today := d.options.Today()
	old, err := release.Open(r.Context(), p.Since, compiler.Options{Today: today, Brief: true})
	if err != nil {
		p.Wrong = err.Error()
		return p, nil
	}
	res, err := compiler.Compile(r.Context(), compiler.Input{Paths: s.paths}, compiler.Options{Today: today, Brief: true, Compare: true})
	if err != nil {
		return nil, err
	}
	if !res.Whole {
		return nil, fmt.Errorf("%s", unreadable(res))
	}
	now, err := release.Of(res, strings.Join(s.paths, " "))
	if err != nil {
		p.Wrong = err.Error()
		return p, nil
	}
	out := &data.Compared{Old: old.State, New: now.State}
	if out.Diff, err = compare.Between(r.Context(), &old.Release, &now.Release, compare.Options{Today: today}); err != nil {
		return nil, err
	}
	p.Answer = view.ChangesOf(out)
	return p, nil
}

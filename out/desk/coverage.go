package desk

import (
	"fmt"
	"net/http"
	"net/url"
	"strconv"

	"ferrule/out/view"
)

// coverage is every platform at every position.
func (d *Desk) coverage(s *state, r *http.Request) (any, error) {
	guides, err := s.counted(r.Context())
	if err != nil {
		return nil, err
	}
	c := view.CoverageOf(s.res.Catalogue, guides)
	for i := range c.Platforms {
		row := &c.Platforms[i]
		for k := range row.Squares {
			row.Squares[k].Link = "place?" + url.Values{"platform": {row.Platform}, "position": {row.Squares[k].Position}}.Encode()
		}
	}
	return c, nil
}

// place is one position of a platform, year by year.
func (d *Desk) place(s *state, r *http.Request) (any, error) {
	platform, position := r.URL.Query().Get("platform"), r.URL.Query().Get("position")
	p := s.platform(platform)
	if p == nil {
		return nil, fmt.Errorf("no platform is called %q", platform)
	}
	g := s.guide(p)
	for _, a := range g.Answers {
		if a.Position.Name == position {
			return view.PlaceOf(g, a), nil
		}
	}
	return nil, fmt.Errorf("no position is called %q", position)
}

// number reads a number of a query, 0 where it is none.
func number(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		return 0
	}
	return max(0, n)
}

func itoa(n int) string { return strconv.Itoa(n) }

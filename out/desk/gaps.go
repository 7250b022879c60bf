package desk

import (
	"net/http"
	"strings"

	"ferrule/compiler/ask/gaps"
	"ferrule/out/report"
)

// How much of the gaps is shown: the rest is told as a number.
const (
	mostGaps   = 40 // platforms of positions
	mostPieces = 6  // of one
	mostTried  = 20 // rows at once
)

// gapsPage is where no cell says anything, most vehicles first.
type gapsPage struct {
	Total string
	List  []gap
	Left  int
	If    string // rows to be tried, as asked
	Tried string // what they would change
	Wrong string // why they cannot be read
}

type gap struct {
	Position, Platform, Amount string
	Pieces                     []piece
	Left                       int
}

// piece is a box of a gap with rows for it.
type piece struct {
	Where, Amount string
	Paste         string // rows with tabs between cells, the header above
	Try           string
}

func (d *Desk) gaps(s *state, r *http.Request) (any, error) {
	ranking, err := s.ranked(r.Context(), d.options.Today())
	if err != nil {
		return nil, err
	}
	reader := gaps.NewReader(s.res.Catalogue)
	p := &gapsPage{Total: report.Amount(ranking.Amount), If: strings.TrimSpace(r.URL.Query().Get("if"))}
	for _, at := range ranking.Positions {
		for i := range at.Platforms {
			if len(p.List) == mostGaps {
				p.Left++
				continue
			}
			p.List = append(p.List, gapOf(reader, at.Position.Name, &at.Platforms[i]))
		}
	}
	if p.If != "" {
		p.try(s, r, reader)
	}
	return p, nil
}

func gapOf(reader *gaps.Reader, position string, at *gaps.Platform) gap {
	g := gap{Position: position, Platform: at.Platform.Name, Amount: "too irregular to be counted"}
	if at.Exact {
		g.Amount = report.Amount(at.Amount)
	}
	for _, box := range at.Pieces[:min(len(at.Pieces), mostPieces)] {
		header, rows := reader.Paste(at.Platform, box.Where)
		lines := []string{strings.Join(append(header, position), "\t")}
		for _, row := range rows {
			lines = append(lines, strings.Join(row, "\t")+"\t")
		}
		g.Pieces = append(g.Pieces, piece{box.Where.String(), report.Amount(box.Amount), strings.Join(lines, "\n"), gaps.Try(position, header, rows[0])})
	}
	g.Left = max(0, len(at.Pieces)-mostPieces)
	return g
}

// try says what the rows would change that were written, one on a line.
func (p *gapsPage) try(s *state, r *http.Request, reader *gaps.Reader) {
	var rows []*gaps.Row
	for line := range strings.Lines(p.If) {
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		row, err := reader.Row(line)
		if err != nil {
			p.Wrong = err.Error()
			return
		}
		if rows = append(rows, row); len(rows) == mostTried {
			break
		}
	}
	e, err := gaps.If(r.Context(), s.res.Catalogue, rows)
	if err != nil {
		p.Wrong = err.Error()
		return
	}
	var b strings.Builder
	if err := report.Effect(&b, e, report.Options{Width: width}); err != nil {
		p.Wrong = err.Error()
	}
	p.Tried = b.String()
}

// width is how wide answers are written that a command writes too.
const width = 96

package data

import (
	"encoding/json"
	"io"
	"math/big"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// whyFile is why the vehicles asked about get what they get.
type whyFile struct {
	Platform       string        `json:"platform"`
	Asked          box           `json:"asked"`
	Configurations *big.Int      `json:"configurations"`
	OnTheRoad      json.Number   `json:"on_the_road"`
	Positions      []whyPosition `json:"positions"`
	Nearest        []near        `json:"nearest,omitempty"`
}

type whyPosition struct {
	Position string      `json:"position"`
	Exact    *bool       `json:"exact,omitempty"`
	Ways     []pickWay   `json:"ways"`
	Cells    []standing  `json:"cells"`
	Others   []candidate `json:"others"`
}

// standing is how a fitment cell stands to the vehicles. Boxes are of those asked about.
type standing struct {
	Cell        *place  `json:"cell"`
	Says        string  `json:"says"`
	Precedence  int     `json:"precedence"`
	Decides     []box   `json:"decides,omitempty"`
	Overruled   []box   `json:"overruled,omitempty"`
	OverruledBy []place `json:"overruled_by,omitempty"`
	Misses      []miss  `json:"misses,omitempty"`
	SetAside    bool    `json:"set_aside,omitempty"`
}

// miss is a column that keeps a row from matching.
type miss struct {
	Column string `json:"column"`
	Asks   string `json:"asks"`
	Has    string `json:"has"`
}

type candidate struct {
	Part    string     `json:"part"`
	Rows    []standing `json:"rows"`
	Against []found    `json:"against"`
}

// Why writes the reasons behind a pick list.
func Why(w io.Writer, y *pick.Why) error {
	return write(w, whyFile{
		Platform: y.Query.Platform.Name, Asked: boxOf(y.Query.Box()),
		Configurations: y.Configurations, OnTheRoad: share(y.OnTheRoad),
		Positions: each(y.Reasons, whyPositionOf), Nearest: each(y.Near, nearOf),
	})
}

func whyPositionOf(r pick.Reasons) whyPosition {
	return whyPosition{r.Position.Position.Name, no(!r.Exact), each(r.Ways, pickWayOf),
		each(r.Cells, standingOf), each(r.Others, candidateOf)}
}

func standingOf(s pick.Standing) standing {
	return standing{
		Cell: placeOf(s.Cell.At), Says: s.Cell.Fits.String(), Precedence: s.Cell.Row.Precedence,
		Decides: boxes(s.Decides), Overruled: boxes(s.Overruled),
		OverruledBy: places(s.By, func(c *model.FitCell) cell.Place { return c.At }),
		Misses:      each(s.Misses, func(m pick.Miss) miss { return miss{m.Column, m.Asks, m.Have} }),
		SetAside:    s.SetAside,
	}
}

func candidateOf(c pick.Candidate) candidate {
	return candidate{c.Part.Number, each(c.Rows, standingOf), each(c.Against, foundOf)}
}

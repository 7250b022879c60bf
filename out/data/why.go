package data

import (
	"encoding/json"
	"io"
	"math/big"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/model"
	"ferrule/compiler/release/staff"
	"ferrule/compiler/wire"
	"ferrule/sheets/cell"
)

// whyFile is why the vehicles asked about get what they get.
type whyFile struct {
	Platform       string        `json:"platform"`
	Asked          wire.Box      `json:"asked"`
	Configurations *big.Int      `json:"configurations"`
	OnTheRoad      json.Number   `json:"on_the_road"`
	Positions      []whyPosition `json:"positions"`
	Stretches      wire.Object   `json:"stretches,omitempty"`
	Unbuilt        []unbuilt     `json:"unbuilt,omitempty"`
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
	Cell        *wire.Place  `json:"cell"`
	Says        string       `json:"says"`
	Precedence  int          `json:"precedence"`
	Decides     []wire.Box   `json:"decides,omitempty"`
	Overruled   []wire.Box   `json:"overruled,omitempty"`
	OverruledBy []wire.Place `json:"overruled_by,omitempty"`
	Misses      []miss       `json:"misses,omitempty"`
	SetAside    bool         `json:"set_aside,omitempty"`
}

// miss is a column that keeps a row from matching.
type miss struct {
	Column string `json:"column"`
	Asks   string `json:"asks"`
	Has    string `json:"has"`
}

type candidate struct {
	Part    string          `json:"part"`
	Rows    []standing      `json:"rows"`
	Against []staff.Finding `json:"against"`
}

// Why writes the reasons behind a pick list.
func Why(w io.Writer, y *pick.Why) error {
	return wire.Write(w, whyFile{
		Platform: y.Query.Platform.Name, Asked: wire.BoxOf(y.Query.Closed()), Stretches: stretches(y.Taken),
		Configurations: y.Configurations, OnTheRoad: wire.Share(y.OnTheRoad),
		Positions: wire.Each(y.Reasons, whyPositionOf), Unbuilt: wire.Each(y.Unbuilt, unbuiltOf), Nearest: wire.Each(y.Near, nearOf),
	})
}

func whyPositionOf(r pick.Reasons) whyPosition {
	return whyPosition{r.Position.Position.Name, wire.No(!r.Exact), wire.Each(r.Ways, pickWayOf),
		wire.Each(r.Cells, standingOf), wire.Each(r.Others, candidateOf)}
}

func standingOf(s pick.Standing) standing {
	return standing{
		Cell: wire.PlaceOf(s.Cell.At), Says: s.Cell.Fits.String(), Precedence: s.Cell.Row.Precedence,
		Decides: wire.Boxes(s.Decides), Overruled: wire.Boxes(s.Overruled),
		OverruledBy: wire.Places(s.By, func(c *model.FitCell) cell.Place { return c.At }),
		Misses:      wire.Each(s.Misses, func(m pick.Miss) miss { return miss{m.Column, m.Asks, m.Have} }),
		SetAside:    s.SetAside,
	}
}

func candidateOf(c pick.Candidate) candidate {
	return candidate{c.Part.Number, wire.Each(c.Rows, standingOf), wire.Each(c.Against, staff.FindingOf)}
}

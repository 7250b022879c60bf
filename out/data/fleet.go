package data

import (
	"io"

	"ferrule/compiler/ask/fleet"
	"ferrule/compiler/model"
	"ferrule/compiler/wire"
)

// fleetHead is what is told of a fleet as a whole.
type fleetHead struct {
	Vehicles int64    `json:"vehicles"` // of rows that are taken
	Settled  int64    `json:"settled"`  // of which nothing is open
	Carried  []string `json:"carried,omitempty"`
}

type fleetFew struct {
	Column   string `json:"column"`
	Effort   int    `json:"effort"`
	Vehicles int64  `json:"vehicles"`
	Total    int64  `json:"total"`
}

type fleetCaution struct {
	Level     string   `json:"level"`
	Text      string   `json:"text"`
	Positions []string `json:"positions"`
	Vehicles  int64    `json:"vehicles"`
}

type fleetLine struct {
	Part     string     `json:"part"`
	Name     string     `json:"name,omitempty"`
	Status   string     `json:"status,omitempty"` // left out for a current part
	Least    int64      `json:"least"`
	Most     int64      `json:"most"`
	Vehicles int64      `json:"vehicles"`
	Contents []pickItem `json:"contents,omitempty"` // of a kit; nothing of it is counted again
}

type fleetRefused struct {
	Sheet   string   `json:"sheet"`
	Row     int32    `json:"row,omitempty"`
	Says    string   `json:"says,omitempty"`
	What    string   `json:"what"`
	Nearest string   `json:"nearest,omitempty"`
	Carried []string `json:"carried,omitempty"`
}

type fleetAnswer struct {
	Platform string       `json:"platform"`
	Vehicles int64        `json:"vehicles"`
	Places   []fleetPlace `json:"places"`
	Ask      []fleetAsk   `json:"ask,omitempty"`
}

type fleetPlace struct {
	Position  string      `json:"position"`
	State     string      `json:"state"`
	Items     []fleetItem `json:"items,omitempty"` // of one vehicle
	Choice    string      `json:"choice,omitempty"`
	Says      string      `json:"says,omitempty"`
	DependsOn []string    `json:"depends_on,omitempty"`
	Cautions  []int       `json:"cautions,omitempty"` // numbers in the list of cautions, from 1
}

type fleetItem struct {
	Part  string `json:"part"`
	Least int64  `json:"least"`
	Most  int64  `json:"most"`
}

type fleetAsk struct {
	Column    string   `json:"column,omitempty"`
	Question  string   `json:"question"`
	HowToTell string   `json:"how_to_tell,omitempty"`
	Values    string   `json:"values,omitempty"`
	Effort    int      `json:"effort,omitempty"`
	Decides   []string `json:"decides"`
}

type fleetRow struct {
	Sheet    string   `json:"sheet"`
	Row      int32    `json:"row"`
	Says     string   `json:"says"`
	Quantity int64    `json:"quantity"`
	Carried  []string `json:"carried,omitempty"`
	Answer   int      `json:"answer"` // its place in the list of answers, from 0
}

// Fleet writes the answers about a fleet: each once, with the rows that it is about.
func Fleet(w io.Writer, f *fleet.Fleet) error {
	vehicles, settled := f.Counts()
	return wire.WriteLists(w, fleetHead{vehicles, settled, f.Carried},
		wire.ListOf("few", f.Few, func(q fleet.Few) fleetFew { return fleetFew(q) }),
		wire.ListOf("cautions", f.Cautions, func(c fleet.Caution) fleetCaution {
			return fleetCaution{c.Level, c.Text, positionNames(c.Positions), c.Vehicles}
		}),
		wire.ListOf("order", f.Order, fleetLineOf),
		wire.ListOf("not_read", f.Refused, fleetRefusedOf),
		wire.ListOf("remarks", f.Remarks, fleetRefusedOf),
		wire.ListOf("answers", f.Answers, fleetAnswerOf),
		wire.ListOf("rows", f.Rows, func(r fleet.Row) fleetRow {
			return fleetRow{r.At.Sheet, r.At.Row, r.Says(), r.Quantity, r.Carried, r.Answer()}
		}))
}

func positionNames(all []*model.Position) []string {
	return wire.Each(all, func(p *model.Position) string { return p.Name })
}

func fleetLineOf(l fleet.Line) fleetLine {
	item := pickItemOf(l.Part, 1)
	return fleetLine{item.Part, item.Name, item.Status, l.Least, l.Most, l.Vehicles, item.Contents}
}

func fleetRefusedOf(r fleet.Refused) fleetRefused {
	return fleetRefused{r.At.Sheet, r.At.Row, r.Says, r.What, r.Nearest, r.Carried}
}

func fleetAnswerOf(a fleet.Answer) fleetAnswer {
	return fleetAnswer{a.Platform.Name, a.Vehicles, wire.Each(a.Places, fleetPlaceOf), wire.Each(a.Asks, fleetAskOf)}
}

func fleetPlaceOf(p *fleet.Place) fleetPlace {
	out := fleetPlace{Position: p.Position.Name, State: p.State.String(), Choice: p.Choice, Says: p.Says, Cautions: p.Cautions,
		Items: wire.Each(p.Items, func(i fleet.Item) fleetItem { return fleetItem{i.Part.Number, i.Least, i.Most} })}
	out.DependsOn = p.Columns()
	return out
}

func fleetAskOf(a *fleet.Ask) fleetAsk {
	out := fleetAsk{a.Column, a.Question, a.HowTell, a.May, a.Effort, positionNames(a.Decides)}
	if a.Column == "" {
		out.Effort = 0
	}
	return out
}

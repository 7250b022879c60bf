package data

import (
	"encoding/json"
	"io"
	"math/big"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/release/staff"
	"ferrule/compiler/wire"
)

// pickFile is the pick list of the vehicles asked about.
type pickFile struct {
	Platform       string            `json:"platform"`
	Asked          wire.Box          `json:"asked"`
	Stretches      wire.Object       `json:"stretches,omitempty"`
	Implied        *wire.Box         `json:"implied,omitempty"`
	Configurations *big.Int          `json:"configurations"`
	OnTheRoad      json.Number       `json:"on_the_road"`
	Inspections    []wire.Inspection `json:"inspections,omitempty"`
	Complaint      *wire.Complaint   `json:"complaint,omitempty"`
	Positions      []pickPosition    `json:"positions"`
	Open           []openTrait       `json:"open"`
	Order          []pickItem        `json:"order"`
	Unbuilt        []unbuilt         `json:"unbuilt,omitempty"`
	Nearest        []near            `json:"nearest,omitempty"`
}

type pickPosition struct {
	Position  string    `json:"position"`
	Axle      string    `json:"axle,omitempty"`
	Side      string    `json:"side,omitempty"`
	Exact     *bool     `json:"exact,omitempty"`
	DependsOn []string  `json:"depends_on,omitempty"`
	Ways      []pickWay `json:"ways"`
}

// pickWay is one thing that may be known of a position. Outcome is `absent` where the
// vehicles have no such position. Settled is written where it is false: then no part is
// named.
type pickWay struct {
	Where          []wire.Box     `json:"where,omitempty"`
	Configurations *big.Int       `json:"configurations"`
	Outcome        string         `json:"outcome"`
	Settled        *bool          `json:"settled,omitempty"`
	Quantity       int            `json:"quantity,omitempty"`
	Alternatives   [][]pickItem   `json:"alternatives,omitempty"`
	With           string         `json:"with,omitempty"`
	Text           string         `json:"text,omitempty"`
	Notes          []string       `json:"notes,omitempty"`
	Cautions       []wire.Caution `json:"cautions,omitempty"`
	Care           []care         `json:"care,omitempty"`
	Findings       []against      `json:"findings,omitempty"`
}

// pickItem is a part to be taken, with what a kit holds.
type pickItem struct {
	Part     string     `json:"part"`
	Quantity int        `json:"quantity"`
	Name     string     `json:"name,omitempty"`
	Status   string     `json:"status,omitempty"` // left out for a current part
	Contents []pickItem `json:"contents,omitempty"`
}

// care is a Compatibility row that asks for care; With is another part that it is about.
type care struct {
	With   string    `json:"with,omitempty"`
	Where  *wire.Box `json:"where,omitempty"`
	Reason string    `json:"reason"`
}

// against is a finding about parts that are offered. Its sentence is left out where
// nothing is settled, since it names parts.
type against struct {
	Code     string       `json:"code"`
	Severity string       `json:"severity"`
	Part     string       `json:"part,omitempty"`
	Message  string       `json:"message,omitempty"`
	Cells    []wire.Place `json:"cells,omitempty"`
}

type openTrait struct {
	Trait     string      `json:"trait"`
	Question  string      `json:"question,omitempty"`
	HowToTell string      `json:"how_to_tell,omitempty"`
	Values    wire.Box    `json:"values"`
	Positions []dependent `json:"positions"`
}

type dependent struct {
	Position string `json:"position"`
	Ways     int    `json:"ways"`
}

// near is a vehicle that does exist: with other answers to some questions.
type near struct {
	Changes []change      `json:"changes"`
	Example *wire.Example `json:"example"`
}

type change struct {
	Trait   string   `json:"trait"`
	Told    wire.Box `json:"told"`
	Instead wire.Box `json:"instead"`
}

// Pick writes a pick list.
func Pick(w io.Writer, l *pick.List) error {
	var implied *wire.Box
	if l.So.Restricts() {
		b := wire.BoxOf(l.So)
		implied = &b
	}
	return wire.Write(w, pickFile{
		Platform: l.Query.Platform.Name, Asked: wire.BoxOf(l.Query.Closed()), Stretches: stretches(l.Taken), Implied: implied,
		Configurations: l.Configurations, OnTheRoad: wire.Share(l.OnTheRoad),
		Inspections: wire.Each(l.Inspections, wire.InspectionOf), Complaint: complaintOf(l.Complaint),
		Positions: wire.Each(l.Positions, pickPositionOf),
		Open: wire.Each(l.Open, func(o pick.Open) openTrait {
			return openTrait{pick.Name(o.Trait), question(o.Trait), l.HowToTell(o.Trait), wire.BoxOf(o.Values),
				wire.Each(o.Positions, func(d pick.Dependent) dependent { return dependent{d.Position.Name, d.Ways} })}
		}),
		Order:   wire.Each(l.Order, func(l pick.Line) pickItem { return pickItemOf(l.Part, l.Quantity) }),
		Unbuilt: wire.Each(l.Unbuilt, unbuiltOf), Nearest: wire.Each(l.Near, nearOf),
	})
}

// complaintOf says what was asked about; nil for nothing.
func complaintOf(c *pick.Complaint) *wire.Complaint {
	if c == nil {
		return nil
	}
	list := wire.ComplaintsOf(c.Uses)
	if len(list) == 0 {
		return &wire.Complaint{Complaint: c.Name, Places: []wire.Suspect{}}
	}
	return &list[0]
}

func question(t *model.Trait) string {
	if t == nil {
		return ""
	}
	return t.Question
}

func nearOf(n pick.Near) near {
	return near{wire.Each(n.Changes, func(c pick.Change) change {
		return change{pick.Name(c.Trait), wire.BoxOf(c.Told), wire.BoxOf(c.Instead)}
	}), wire.ExampleOf(n.Example)}
}

func pickPositionOf(p pick.Position) pickPosition {
	head := wire.PositionOf(p.Position)
	out := pickPosition{Position: head.Position, Axle: head.Axle, Side: head.Side, Exact: wire.No(!p.Exact), Ways: wire.Each(p.Ways, pickWayOf)}
	for _, t := range p.Depends {
		out.DependsOn = append(out.DependsOn, pick.Name(t))
	}
	if p.Certain() != nil {
		out.Ways[0].Where = nil // of all that was asked about
	}
	return out
}

func pickWayOf(w pick.Way) pickWay {
	out := pickWay{Where: wire.Boxes(w.Where), Configurations: w.Case.Configurations, Outcome: w.Case.Outcome.String(),
		Settled: wire.No(!w.Settled()), Quantity: w.Case.Quantity}
	if w.Missing {
		out.Outcome = "absent"
	}
	for _, f := range w.Findings {
		out.Findings = append(out.Findings, againstOf(f, w.Settled()))
	}
	if !w.Settled() {
		return out
	}
	whole := wire.CaseOf(&w.Case)
	out.With, out.Text, out.Notes, out.Cautions = whole.With, whole.Text, whole.Notes, whole.Cautions
	for _, a := range w.Case.Alternatives {
		out.Alternatives = append(out.Alternatives, wire.Each(a, func(i model.Item) pickItem { return pickItemOf(i.Part, i.Quantity) }))
	}
	for _, r := range w.Care {
		out.Care = append(out.Care, careOf(r))
	}
	return out
}

func careOf(c pick.Care) care {
	out := care{With: wire.PartNumber(c.With), Reason: c.Reason}
	if c.Where.Restricts() {
		b := wire.BoxOf(c.Where)
		out.Where = &b
	}
	return out
}

func againstOf(f *finding.Finding, settled bool) against {
	out := against{Code: string(f.Code), Severity: f.Severity.String(), Cells: staff.CellsOf(f.Cells)}
	if settled {
		out.Part, out.Message = f.Part, f.Message
	}
	return out
}

// pickItemOf opens kits, and the kits in them; one that comes up again is not opened again.
func pickItemOf(p *model.Part, quantity int) pickItem {
	return openedItem(p, quantity, map[*model.Part]bool{})
}

func openedItem(p *model.Part, quantity int, seen map[*model.Part]bool) pickItem {
	out := pickItem{Part: p.Number, Quantity: quantity, Name: p.Name}
	if p.Status != model.Current {
		out.Status = p.Status.String()
	}
	if seen[p] {
		return out
	}
	seen[p] = true
	for _, c := range p.Contents {
		out.Contents = append(out.Contents, openedItem(c.Part, c.Quantity, seen))
	}
	return out
}

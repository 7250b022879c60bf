package data

import (
	"io"

	"ferrule/compiler/propose"
	"ferrule/compiler/wire"
	"ferrule/schema"
)

type layoutFile struct {
	Workbook string          `json:"workbook"`
	Sheets   []layoutSheet   `json:"sheets"`
	Layouts  []layoutRow     `json:"layouts"`
	Remarks  []layoutRemark  `json:"remarks"`
	Drafts   []layoutDraft   `json:"drafts"`
	Preview  []layoutPreview `json:"preview"`
	More     int             `json:"more,omitempty"`
}

type layoutSheet struct {
	Sheet   string `json:"sheet"`
	Tables  int    `json:"tables"`
	Filled  int    `json:"filled"`
	Claimed int    `json:"claimed"`
	What    string `json:"what"`
	Known   bool   `json:"known,omitempty"`
}

type layoutRow struct {
	Sheet string `json:"sheet"`
	Word  string `json:"word"`
	Where string `json:"where"`
	As    string `json:"as"`
	Sure  string `json:"sure"`
	Why   string `json:"why"`
}

type layoutCell struct {
	Sheet string `json:"sheet"`
	Cell  string `json:"cell"`
}

type layoutRemark struct {
	Cells []layoutCell `json:"cells"`
	Count int          `json:"count"`
	Says  string       `json:"says,omitempty"`
	Means string       `json:"means"`
	Write string       `json:"write"`
}

type layoutDraft struct {
	Kind    string     `json:"kind"`
	Columns []string   `json:"columns"`
	Rows    [][]string `json:"rows"`
}

type layoutPreview struct {
	Kind    string             `json:"kind"`
	Columns []string           `json:"columns"`
	Rows    []layoutPreviewRow `json:"rows"`
}

type layoutPreviewRow struct {
	Texts []string     `json:"texts"`
	Cells []layoutCell `json:"cells"`
}

// Layout writes a proposal of how a workbook is read.
func Layout(w io.Writer, file string, p *propose.Proposal) error {
	f := layoutFile{Workbook: file, Layouts: []layoutRow{}, Remarks: []layoutRemark{}, Drafts: []layoutDraft{}, Preview: []layoutPreview{}, Sheets: []layoutSheet{}, More: p.More}
	for _, s := range p.Seen {
		f.Sheets = append(f.Sheets, layoutSheet{s.Sheet, s.Tables, s.Filled, s.Claimed, s.What, s.Known})
	}
	for _, r := range p.Rules {
		f.Layouts = append(f.Layouts, layoutRow{r.Sheet, r.Word, r.Where, r.As, r.Sure.String(), r.Why})
	}
	for _, r := range p.Remarks {
		f.Remarks = append(f.Remarks, layoutRemark{layoutCells(r.Cells), r.N, r.Says, r.Means, r.Write})
	}
	for _, t := range p.Told {
		f.Remarks = append(f.Remarks, layoutRemark{layoutCells(t.Cells), len(t.Cells), "", t.Message, t.Fix})
	}
	for _, d := range p.Drafts {
		f.Drafts = append(f.Drafts, layoutDraft{schema.Title(d.Kind), d.Columns, d.Rows})
	}
	for _, v := range p.Preview {
		out := layoutPreview{schema.Title(v.Kind), v.Columns, []layoutPreviewRow{}}
		for _, r := range v.Rows {
			out.Rows = append(out.Rows, layoutPreviewRow{r.Texts, layoutCells(r.From)})
		}
		f.Preview = append(f.Preview, out)
	}
	return wire.Write(w, f)
}

func layoutCells(cells []propose.At) []layoutCell {
	out := []layoutCell{}
	for _, c := range cells {
		out = append(out, layoutCell{c.Sheet, c.Pos.String()})
	}
	return out
}

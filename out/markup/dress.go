package markup

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"ferrule/schema"
	"ferrule/sheets/cell"
)

// dress gives a sheet everything but its cells: widths, formats of the rows still to
// come, the header that stays in sight, filter and print set-up.
func (p *writing) dress(s *Sheet) error {
	err := p.table(s)
	if err != nil {
		return err
	}
	// Last, because excelize forgets a sheet's properties when it sets a filter.
	return p.page(s)
}

func (p *writing) table(s *Sheet) error {
	if prose(s) {
		return p.file.SetColWidth(s.Name, "A", "A", proseWidth)
	}
	if err := p.columns(s); err != nil {
		return err
	}
	if len(s.headings()) == 0 {
		return nil
	}
	return p.frame(s)
}

// pageWidth is how wide a page in landscape is, in characters, at a size that is still read: two thirds of 11 points.
const pageWidth = 190

// Pages is how many pages side by side columns of those widths take in all, so that they can be read.
func Pages(widths []float64) int {
	pages, on := 1, 0.0
	for _, w := range widths {
		if on += w; on > pageWidth {
			pages, on = pages+1, w
		}
	}
	return pages
}

// page sets up the print: landscape, as wide as the paper or as few pages as can be read, the header on every page.
func (p *writing) page(s *Sheet) error {
	landscape, a4, wide, as := "landscape", 9, Pages(s.widths()), 0
	err := p.file.SetPageLayout(s.Name, &excelize.PageLayoutOptions{
		Orientation: &landscape, Size: &a4, FitToWidth: &wide, FitToHeight: &as,
	})
	if err != nil {
		return err
	}
	edge, foot := 0.4, 0.2
	err = p.file.SetPageMargins(s.Name, &excelize.PageLayoutMarginsOptions{Left: &edge, Right: &edge, Top: &edge, Bottom: &edge, Header: &foot, Footer: &foot})
	if err != nil {
		return err
	}
	fit, tab := true, "FF"+tabColour(kindOf(s.Name)) // opaque
	if err := p.file.SetSheetProps(s.Name, &excelize.SheetPropsOptions{FitToPage: &fit, TabColorRGB: &tab}); err != nil {
		return err
	}
	lines := !prose(s)
	if err := p.file.SetSheetView(s.Name, 0, &excelize.ViewOptions{ShowGridLines: &lines}); err != nil {
		return err
	}
	return p.file.SetHeaderFooter(s.Name, &excelize.HeaderFooterOptions{OddFooter: "&L&F, &A&RPage &P of &N"})
}

// tabColour tells sheets apart at the foot of the window: what vehicles are, what
// parts are, what fits, and the rest.
func tabColour(kind string) string {
	switch kind {
	case schema.Platforms, schema.Traits, schema.Vehicles, schema.Breaks, schema.Positions:
		return blue
	case schema.Parts, schema.Kits, schema.References, schema.Sizes, schema.Calculated:
		return "B26A00"
	case schema.Fitment, schema.Compatibility, schema.Facts, schema.Limits, schema.Complaints, schema.Inspections:
		return green
	}
	return slate
}

// columns sets widths, and the formats that cells still to be filled will have.
func (p *writing) columns(s *Sheet) error {
	for i, h := range s.headings() {
		col := cell.Column(int32(i + 1))
		if err := p.file.SetColWidth(s.Name, col, col, s.width(i)); err != nil {
			return err
		}
		style, err := p.style(look{role: bodyRole, format: p.columnFormat(kindOf(s.Name), h)})
		if err != nil {
			return err
		}
		if err := p.file.SetColStyle(s.Name, col, style); err != nil {
			return err
		}
	}
	return nil
}

// width gives a column's width in characters.
func (s *Sheet) width(col int) float64 {
	longest := 0
	for _, row := range s.Rows[s.header()+1:] {
		if col < len(row) {
			longest = max(longest, Longest(row[col].Text))
		}
	}
	return Width(kindOf(s.Name), s.headings()[col], longest)
}

// Longest is how many characters the longest line of a text has.
func Longest(text string) int {
	longest := 0
	for line := range strings.SplitSeq(text, "\n") {
		longest = max(longest, utf8.RuneCountInString(line))
	}
	return longest
}

// Width gives the width of a column whose longest line is so long, in characters: that of the line, within bounds that
// keep sentences readable and the rest compact.
func Width(kind, heading string, longest int) float64 {
	least, most := 9, 26
	if wordy(kind, heading) {
		least, most = 24, 56
	}
	for _, word := range strings.Fields(heading) {
		least = max(least, utf8.RuneCountInString(word)+3) // bold, and the filter's button
	}
	return float64(min(max(least, longest+2), most))
}

// frame keeps the header and the first column in sight, repeats both in print
// and puts a filter on it.
func (p *writing) frame(s *Sheet) error {
	head := s.header() + 1
	err := p.file.SetPanes(s.Name, &excelize.Panes{
		Freeze: true, XSplit: 1, YSplit: head, TopLeftCell: fmt.Sprintf("B%d", head+1), ActivePane: "bottomRight",
	})
	if err != nil {
		return err
	}
	err = p.file.SetDefinedName(&excelize.DefinedName{
		Name: "_xlnm.Print_Titles", RefersTo: fmt.Sprintf("'%[1]s'!$A:$A,'%[1]s'!$%[2]d:$%[2]d", quoted(s.Name), head), Scope: s.Name,
	})
	if err != nil {
		return err
	}
	last := cell.Pos{Row: int32(max(len(s.Rows), head+1)), Col: int32(len(s.headings()))}
	return p.file.AutoFilter(s.Name, fmt.Sprintf("A%d:%s", head, last), nil)
}

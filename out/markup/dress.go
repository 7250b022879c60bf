package markup

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"

	"ferrule/schema"
	"ferrule/sheets/cell"
)

// dress gives a sheet everything but its cells: widths, formats of the rows still to
// come, the header that stays in sight, filter, lists and print set-up.
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
		return p.file.SetColWidth(s.Name, "A", "A", 100)
	}
	if err := p.columns(s); err != nil {
		return err
	}
	if len(s.headings()) == 0 {
		return nil
	}
	if err := p.frame(s); err != nil {
		return err
	}
	if s.Name == listSheet {
		return nil
	}
	return p.pick(s)
}

// page sets up the print: landscape, as wide as the paper, the header on every page.
func (p *writing) page(s *Sheet) error {
	landscape, a4, one, as := "landscape", 9, 1, 0
	err := p.file.SetPageLayout(s.Name, &excelize.PageLayoutOptions{
		Orientation: &landscape, Size: &a4, FitToWidth: &one, FitToHeight: &as,
	})
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

// width gives a column's width in characters: its longest line, within bounds that
// keep sentences readable and the rest compact.
func (s *Sheet) width(col int) float64 {
	heading := s.headings()[col]
	least, most := 9, 26
	if wordy(kindOf(s.Name), heading) {
		least, most = 24, 56
	}
	longest := least
	for _, word := range strings.Fields(heading) {
		longest = max(longest, len([]rune(word))+3) // bold, and the filter's button
	}
	for _, row := range s.Rows[s.header()+1:] {
		if col >= len(row) {
			continue
		}
		for line := range strings.SplitSeq(row[col].Text, "\n") {
			longest = max(longest, len([]rune(line))+2)
		}
	}
	return float64(min(longest, most))
}

// frame keeps the header and the first column in sight, repeats the header in print
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
		Name: "_xlnm.Print_Titles", RefersTo: fmt.Sprintf("'%s'!$%d:$%d", quoted(s.Name), head, head), Scope: s.Name,
	})
	if err != nil {
		return err
	}
	last := cell.Pos{Row: int32(max(len(s.Rows), head+1)), Col: int32(len(s.headings()))}
	return p.file.AutoFilter(s.Name, fmt.Sprintf("A%d:%s", head, last), nil)
}

// escaped is what XML wants of a formula.
var escaped = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

// pickRows is how many rows under the header have lists to pick from.
const pickRows = 1000

// pick adds the lists. Where cells may hold more than one name, or `not` and a name,
// a list only offers: nothing that is typed is refused.
func (p *writing) pick(s *Sheet) error {
	for i, h := range s.headings() {
		c, ok := p.names.choice(kindOf(s.Name), h)
		if !ok {
			continue
		}
		source := c.source(p.book)
		if source == "" {
			continue
		}
		col, first := cell.Column(int32(i+1)), s.header()+2
		v := excelize.NewDataValidation(true)
		v.SetSqref(fmt.Sprintf("%s%d:%s%d", col, first, col, first+pickRows-1))
		v.SetSqrefDropList(escaped.Replace(source)) // excelize takes a list as XML
		if c.strict {
			v.SetError(excelize.DataValidationErrorStyleStop, h, "Pick one of: "+strings.Join(c.fixed, ", "))
		} else {
			v.ShowErrorMessage = false
		}
		if err := p.file.AddDataValidation(s.Name, v); err != nil {
			return err
		}
	}
	return nil
}

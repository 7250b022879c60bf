package markup

import (
	"strings"

	"github.com/xuri/excelize/v2"

	"ferrule/schema"
	"ferrule/sheets/cell"
)

// role is the part that a cell plays on its sheet.
type role uint8

const (
	bare          role = iota // no style of its own
	titleRole                 // above the header
	conditionRole             // the header of a condition column
	fitsRole                  // the header of a column that says what fits
	otherRole                 // the header of any other column
	bodyRole                  // under the header
	proseRole                 // on a sheet that is read, not kept
	proseTitle                // its first row
)

// look is everything that makes a style; equal looks share one.
type look struct {
	role   role
	format string
	struck bool
}

// Formats that the writer itself chooses.
const (
	dateFormat = "yyyy-mm-dd"
	textFormat = "@" // keeps 1/2, 007 and 3-4 as they are typed
)

// Colours, as RGB. White on each of the header's three is above a contrast of 7:1.
const (
	ink       = "1F2933"
	white     = "FFFFFF"
	slate     = "37474F"
	blue      = "1F4E79"
	green     = "1E5631"
	hairline  = "D5DBE0"
	ruleColor = "263238"
)

// prose tells a sheet of sentences, such as `_Read me`.
func prose(s *Sheet) bool { return strings.HasPrefix(s.Name, "_") }

// lookOf gives the look of a cell.
func (p *writing) lookOf(s *Sheet, at cell.Pos, c *Cell) look {
	l := look{format: c.Format, struck: c.Struck}
	if l.format == "" && c.Kind == Date {
		l.format = dateFormat
	}
	if p.plain {
		return l
	}
	head := int32(s.header() + 1)
	switch {
	case prose(s) && at.Row == 1:
		l.role = proseTitle
	case prose(s):
		l.role = proseRole
	case at.Row < head:
		l.role = titleRole
	case at.Row == head:
		l.role = p.shade(kindOf(s.Name), c.Text)
	default:
		l.role = bodyRole
		if headings := s.headings(); l.format == "" && c.Kind != Number && int(at.Col) <= len(headings) {
			l.format = p.columnFormat(kindOf(s.Name), headings[at.Col-1])
		}
	}
	return l
}

// shade gives the role of a heading: which vehicles, what fits, or anything else.
func (p *writing) shade(kind, heading string) role {
	c, _ := schema.Find(kind, heading)
	switch {
	case kind == schema.Fitment && (c.Holds == schema.HoldsFits || c.Holds == schema.HoldsPosition || p.names.position(heading)):
		return fitsRole
	case kind != schema.Traits && kind != schema.Platforms && p.names.condition(heading):
		return conditionRole
	}
	return otherRole
}

// columnFormat gives the number format of a column's cells: text where the format
// reads text that a spreadsheet program would take for a date or a number.
func (p *writing) columnFormat(kind, heading string) string {
	c, _ := schema.Like(kind, heading)
	switch c.Holds {
	case schema.HoldsDate:
		return dateFormat
	case schema.HoldsQuantity, schema.HoldsPrecedence, schema.HoldsEffort, schema.HoldsOrder, schema.HoldsVehicles:
		return ""
	}
	if wordy(kind, heading) || strings.HasSuffix(fold(heading), "]") || kind == "" {
		return ""
	}
	return textFormat
}

// wordy tells a column of sentences, or of long names.
func wordy(kind, heading string) bool {
	c, _ := schema.Like(kind, heading)
	return c.Holds == schema.HoldsSentence || c.Holds == schema.HoldsFigure || strings.HasSuffix(fold(heading), " note")
}

// style gives excelize's number of a look, 0 for the usual one.
func (p *writing) style(l look) (int, error) {
	if l == (look{}) {
		return 0, nil
	}
	if n, ok := p.styles[l]; ok {
		return n, nil
	}
	n, err := p.file.NewStyle(l.style())
	p.styles[l] = n
	return n, err
}

func (l look) style() *excelize.Style {
	s := &excelize.Style{}
	if l.format != "" {
		s.CustomNumFmt = &l.format
	}
	if l.role != bare {
		s.Font = &excelize.Font{Family: "Calibri", Size: 11, Color: ink}
		s.Alignment = &excelize.Alignment{Vertical: "top", WrapText: true}
	}
	switch l.role {
	case titleRole, proseTitle:
		s.Font.Bold, s.Font.Size = true, 14
		s.Alignment.WrapText = false
	case conditionRole:
		asHeading(s, blue)
	case fitsRole:
		asHeading(s, green)
	case otherRole:
		asHeading(s, slate)
	case bodyRole:
		s.Border = []excelize.Border{{Type: "bottom", Color: hairline, Style: 1}}
	}
	if l.struck {
		if s.Font == nil {
			s.Font = &excelize.Font{Family: "Calibri", Size: 11}
		}
		s.Font.Strike = true
	}
	return s
}

func asHeading(s *excelize.Style, colour string) {
	s.Font.Bold, s.Font.Color = true, white
	s.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}
	s.Alignment.Vertical = "center"
	s.Border = []excelize.Border{{Type: "bottom", Color: ruleColor, Style: 2}, {Type: "right", Color: white, Style: 1}}
}

package patch

import (
	"slices"
	"strconv"
	"strings"
)

// styler gives cells formats that are those they had but for our fill. The part with the formats is
// only touched where one is asked for.
type styler struct {
	*patching
	*part
	xfs    []tag // the formats of cells, from their start
	ends   []int // where each ends
	places map[string]section
	made   map[like]int
	added  []string // formats behind those that are there
	fills  []string // colours of the fills behind those that are there
	inks   int      // fonts behind those that are there: 0, or all of ours
}

// section is one list of the part.
type section struct {
	start tag
	end   int // of its content
	n     int // children
}

// like is a format made of another.
type like struct {
	base int
	fill string
	text bool // with the number format Text
	role Role
}

// maxStyles is how many formats of cells a workbook may have (of the most used program, from memory).
const maxStyles = 65_490

func (p *patching) newStyler() (*styler, error) {
	s := &styler{patching: p, places: map[string]section{}, made: map[like]int{}}
	name := p.book.StylesPart()
	if name == "" {
		return s, nil
	}
	var err error
	if s.part, err = p.edit(name); err != nil {
		return nil, err
	}
	return s, s.list()
}

// list finds the lists of the part, and the formats of cells.
func (s *styler) list() error {
	in := scanner{data: s.old}
	var at string
	for t, ok := in.next(); ok; t, ok = in.next() {
		switch {
		case t.depth == 2 && t.form != closing:
			at = s.child(t)
			s.places[at] = section{start: t, end: -1}
		case t.depth == 2:
			at = s.child(t)
			have := s.places[at]
			have.end = t.from
			s.places[at] = have
		case t.depth == 3 && t.form != closing:
			have := s.places[at]
			have.n++
			s.places[at] = have
			if at == "cellXfs" && s.is(t, "xf") {
				s.xfs = append(s.xfs, t)
				s.ends = append(s.ends, t.to)
			}
		case t.depth == 3 && at == "cellXfs" && len(s.ends) > 0:
			s.ends[len(s.ends)-1] = t.to
		}
	}
	if len(s.xfs) != s.places["cellXfs"].n {
		return refuse("its part %s lists formats of cells in a way that is not known here", s.name)
	}
	return nil
}

// base is the part of a workbook without one, or what lacks in one.
const (
	plainFont   = `<%font><%sz val="11"/><%name val="Calibri"/></%font>`
	plainFills  = `<%fill><%patternFill patternType="none"/></%fill><%fill><%patternFill patternType="gray125"/></%fill>`
	plainBorder = `<%border><%left/><%right/><%top/><%bottom/><%diagonal/></%border>`
	plainXf     = `<%xf numFmtId="0" fontId="0" fillId="0" borderId="0"/>`
)

func (s *styler) fillOf(style int) string { return s.book.FillOf(style) }

// like gives the number of a format.
func (s *styler) like(base int, fill string, text bool) int {
	return s.format(like{base: base, fill: fill, text: text})
}

func (s *styler) format(l like) int {
	if l.fill == "" && !l.text {
		return l.base
	}
	if n, ok := s.made[l]; ok {
		return n
	}
	n := max(len(s.xfs), 1) + len(s.added)
	s.made[l] = n
	s.added = append(s.added, s.copied(l))
	return n
}

// copied writes a format.
func (s *styler) copied(l like) string {
	x := &part{name: "xf", old: []byte(strings.ReplaceAll(plainXf, "%", s.lead()))}
	if l.base < len(s.xfs) && l.base >= 0 {
		x.old = s.old[s.xfs[l.base].from:s.ends[l.base]]
	}
	in := scanner{data: x.old}
	t, _ := in.next()
	if l.fill != "" {
		x.set(t, "fillId", strconv.Itoa(s.fill(l.fill)))
		x.set(t, "applyFill", "1")
	}
	if l.text {
		x.set(t, "numFmtId", "49")
		x.set(t, "applyNumberFormat", "1")
	}
	s.dress(x, t, l.role)
	return string(x.result())
}

func (s *styler) lead() string {
	if s.part == nil {
		return ""
	}
	return s.prefix
}

// dress gives the formats of the appended sheet their type and where it stands in the cell.
func (s *styler) dress(x *part, t tag, role Role) {
	if role == Plain {
		return
	}
	if role == Head || role == Linked {
		x.set(t, "fontId", strconv.Itoa(max(s.places["fonts"].n, 1)+int(role-Head)))
		x.set(t, "applyFont", "1")
		s.inks = len(ourFonts)
	}
	wrap := ""
	if role == Body {
		wrap = ` wrapText="1"`
	}
	x.set(t, "applyAlignment", "1")
	x.open(t, `<`+s.lead()+`alignment vertical="top"`+wrap+`/>`)
}

// ourFonts are those of the header and of links on the appended sheet.
var ourFonts = []string{
	`<%font><%b/><%sz val="11"/><%name val="Calibri"/></%font>`,
	`<%font><%u/><%sz val="11"/><%color rgb="FF0B4F8A"/><%name val="Calibri"/></%font>`,
}

// fill gives the number of a fill of ours. The first two of a workbook mean none and a grey, whatever
// they say.
func (s *styler) fill(colour string) int {
	i := slices.Index(s.fills, colour)
	if i < 0 {
		i = len(s.fills)
		s.fills = append(s.fills, colour)
	}
	return max(s.places["fills"].n, 2) + i
}

// finish writes the formats that were asked for.
func (s *styler) finish() error {
	if len(s.added) == 0 {
		return nil
	}
	if len(s.xfs)+len(s.added) > maxStyles {
		return refuse("it has %d formats of cells, and spreadsheet programs keep no more than %d", len(s.xfs), maxStyles)
	}
	if s.part == nil {
		if err := s.begin(); err != nil {
			return err
		}
	}
	var colours []string
	for _, f := range s.fills {
		colours = append(colours, `<%fill><%patternFill patternType="solid"><%fgColor rgb="FF`+f+`"/><%bgColor indexed="64"/></%patternFill></%fill>`)
	}
	needs := []struct {
		list, lacks string
		least       int
		add         []string
	}{
		{"fonts", plainFont, 1, ourFonts[:s.inks]},
		{"fills", plainFills, 2, colours},
		{"borders", plainBorder, 1, nil},
		{"cellXfs", plainXf, 1, s.added},
	}
	for _, n := range needs {
		if err := s.append(n.list, n.lacks, n.least, n.add); err != nil {
			return err
		}
	}
	return nil
}

// append puts items behind those of a list, which has at least so many then.
func (s *styler) append(list, lacks string, least int, add []string) error {
	have, there := s.places[list]
	if there && have.n >= least && len(add) == 0 {
		return nil
	}
	text, n := "", have.n+len(add)
	switch {
	case have.n == 0:
		text, n = lacks, least+len(add)
	case have.n < least: // one fill only
		text, n = lacks[strings.Index(lacks, "</%fill>")+len("</%fill>"):], least+len(add)
	}
	text = strings.ReplaceAll(text+strings.Join(add, ""), "%", s.prefix)
	switch {
	case !there:
		s.place(list, `<`+s.prefix+list+` count="`+strconv.Itoa(n)+`">`+text+`</`+s.prefix+list+`>`)
		return nil
	case have.end < 0:
		s.open(have.start, text)
	default:
		s.insert(have.end, text)
	}
	if _, counted := attr(s.old, have.start, "count"); counted {
		s.set(have.start, "count", strconv.Itoa(n))
	}
	return nil
}

// place puts a list where it belongs that is not there. Lists come in their order.
func (s *styler) place(list, markup string) {
	in := scanner{data: s.old}
	for t, ok := in.next(); ok; t, ok = in.next() {
		if t.depth == 2 && t.form != closing && rank(stylesOrder, s.child(t)) > rank(stylesOrder, list) {
			s.insert(t.from, markup)
			return
		}
	}
	s.tail += markup
}

// begin makes the part for a workbook that has none.
func (s *styler) begin() error {
	main, err := s.edit(s.book.WorkbookPart())
	if err != nil {
		return err
	}
	name := s.free(dirOf(main.name) + "styles%.xml")
	s.part = &part{name: name, made: true, space: main.space,
		old: []byte(head + `<styleSheet xmlns="` + main.space + `"></styleSheet>`)}
	s.keep(s.part)
	if _, err := s.relate(main.name, "styles", name); err != nil {
		return err
	}
	return s.typed(name, "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml")
}

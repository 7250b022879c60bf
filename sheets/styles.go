package sheets

import (
	"cmp"
	"encoding/xml"
)

// style is what a cell's style says about its value.
type style struct {
	format numFormat
	struck bool
	bold   bool
	look   uint8 // see Value
}

// styles are the cell formats (cellXfs), by the index that cells name.
type styles []style

// xf is a cell format before its number format, font and fill are looked up.
type xf struct{ format, font, fill int }

// styleSheet gathers the style part while it is read.
type styleSheet struct {
	codes map[int]string // number formats that the workbook defines
	fonts []bool         // whether each font is struck
	bolds []bool         // and whether it is bold
	inks  []ink          // of each font
	fills []fill
	xfs   []xf
}

// readStyles reads the style part; a workbook without one has one plain style.
func (p *pack) readStyles(r *relation) (styles, looker, error) {
	if r == nil {
		return styles{{}}, nil, nil
	}
	f, err := p.follow(*r)
	if err != nil {
		return nil, nil, err
	}
	m, err := p.markup(f.Name, "", maxSmall)
	if err != nil {
		return nil, nil, err
	}
	sheet := styleSheet{codes: map[int]string{}}
	err = m.walk("styleSheet", func(path string, t xml.StartElement) error { return sheet.take(m, path, t) })
	if err != nil {
		return nil, nil, err
	}
	return sheet.resolve(m)
}

func (s *styleSheet) take(m *markup, path string, t xml.StartElement) error {
	switch path {
	case "styleSheet/numFmts/numFmt":
		id, err := m.index(t, "numFmtId")
		code, _ := attr(t, "formatCode")
		if len(code) > maxCode {
			return m.fault("a number format in it is longer than %d characters", maxCode)
		}
		s.codes[id] = unescape(code)
		return cmp.Or(err, s.bounded(m, len(s.codes), "number formats"))
	case "styleSheet/fonts/font":
		if err := s.bounded(m, len(s.fonts)+1, "fonts"); err != nil {
			return err
		}
		s.fonts, s.bolds, s.inks = append(s.fonts, false), append(s.bolds, false), append(s.inks, ink{})
	case "styleSheet/fonts/font/strike":
		struck, err := m.flag(t, "val", true)
		s.fonts[len(s.fonts)-1] = struck
		return err
	case "styleSheet/fonts/font/b":
		bold, err := m.flag(t, "val", true)
		s.bolds[len(s.bolds)-1] = bold
		return err
	case "styleSheet/cellXfs/xf":
		format, err := m.index(t, "numFmtId")
		if err != nil {
			return err
		}
		font, err := m.index(t, "fontId")
		if err != nil {
			return err
		}
		fill, err := m.index(t, "fillId")
		s.xfs = append(s.xfs, xf{format, font, fill})
		return cmp.Or(err, s.bounded(m, len(s.xfs), "cell formats"))
	}
	s.takeInk(path, t)
	return s.takeFill(m, path, t)
}

// bounded refuses more of a kind than programs keep.
func (s *styleSheet) bounded(m *markup, n int, kind string) error {
	if n <= maxFormats {
		return nil
	}
	return m.fault("it lists more than %d %s, more than any spreadsheet program keeps", maxFormats, kind)
}

// resolve looks up number formats and fonts. A number format that is neither built in
// nor defined shows numbers plainly, as spreadsheet programs do it.
func (s *styleSheet) resolve(m *markup) (styles, looker, error) {
	known, looks := map[int]numFormat{}, looker{}
	all := make(styles, 0, max(1, len(s.xfs)))
	for i, x := range s.xfs {
		format, ok := known[x.format]
		if !ok {
			code, own := s.codes[x.format]
			if !own {
				code = builtIn(x.format)
			}
			format = newFormat(code)
			known[x.format] = format
		}
		st := style{format: format}
		switch {
		case x.font < len(s.fonts):
			st.struck, st.bold = s.fonts[x.font], s.bolds[x.font]
		case x.font > 0:
			return nil, nil, m.fault("cell style %d uses font %d, which does not exist", i, x.font)
		}
		st.look = looks.number(s.lookOf(x))
		all = append(all, st)
	}
	if len(all) == 0 {
		all = append(all, style{})
	}
	return all, looks, nil
}

// lookOf says how a cell format colours. A fill that does not exist is none, as spreadsheet
// programs take it: nothing that is read hangs on it.
func (s *styleSheet) lookOf(x xf) (fill, ink string) {
	if x.fill < len(s.fills) {
		fill = s.fills[x.fill].words()
	}
	if x.font < len(s.inks) {
		ink = s.inks[x.font].words()
	}
	return fill, ink
}

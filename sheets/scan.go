package sheets

import "encoding/xml"

// scan reads a worksheet's XML and hands what it finds to the assembler, which knows
// the rules. It takes any XML that means a worksheet, token by token; rows that are
// written in the ordinary way are taken faster, as the pace says.
func scan(m *markup, a *assembler, p pace) error {
	if _, err := m.root("worksheet"); err != nil {
		return err
	}
	data := false
	err := m.each("worksheet", func(t xml.StartElement) error {
		if local(t) != "sheetData" {
			return scanTrailer(m, a, t)
		}
		if data {
			return m.fault("its cells are stored in two pieces")
		}
		data = true
		return scanRows(m, a, newFast(m, a, t, p))
	})
	if err != nil {
		return err
	}
	if !data {
		return m.damaged("its cells are missing")
	}
	return m.end()
}

// scanRows reads rows up to the end of sheetData. Before each the fast scanner may
// take as many as it can.
func scanRows(m *markup, a *assembler, f *fast) error {
	if err := f.run(); err != nil {
		return err
	}
	return m.each("sheetData", func(t xml.StartElement) error {
		if err := scanRow(m, a, t); err != nil {
			return err
		}
		return f.run()
	})
}

func scanRow(m *markup, a *assembler, t xml.StartElement) error {
	if local(t) != "row" {
		return m.unknown(t, "sheetData")
	}
	hidden, err := m.flag(t, "hidden", false)
	if err != nil {
		return err
	}
	number, _ := attr(t, "r")
	if err := a.startRow(number, hidden); err != nil {
		return err
	}
	err = m.each("row", func(t xml.StartElement) error {
		switch local(t) {
		case "c":
			return scanCell(m, a, t)
		case "extLst":
			return m.skip()
		}
		return m.unknown(t, "row")
	})
	if err != nil {
		return err
	}
	return a.endRow()
}

func scanCell(m *markup, a *assembler, t xml.StartElement) error {
	var raw rawCell
	raw.ref, _ = attr(t, "r")
	raw.style, _ = attr(t, "s")
	raw.kind, _ = attr(t, "t")
	pos, err := a.place(raw.ref)
	if err != nil {
		return err
	}
	err = m.each("c", func(t xml.StartElement) (err error) {
		name := local(t)
		switch name {
		case "v", "f", "is":
			if raw.has(name) {
				return m.at(pos, "the cell has two of <%s>", name)
			}
		case "extLst":
			return m.skip()
		default:
			return m.unknown(t, "c")
		}
		switch name {
		case "v":
			raw.value, err = m.text(name)
			raw.hasValue = true
		case "f":
			raw.formulaKind, _ = attr(t, "t")
			raw.formula, err = m.text(name)
			raw.hasFormula = true
		case "is":
			raw.inline, err = m.rich(name)
			raw.hasInline = true
		}
		return err
	})
	if err != nil {
		return err
	}
	return a.cell(pos, &raw)
}

// scanTrailer reads what a sheet says outside its rows, and leaves the rest out.
func scanTrailer(m *markup, a *assembler, t xml.StartElement) error {
	switch local(t) {
	case "sheetPr":
		filtered, err := m.flag(t, "filterMode", false)
		if err != nil {
			return err
		}
		a.trailer.Filtered = a.trailer.Filtered || filtered
	case "cols":
		return m.each("cols", func(t xml.StartElement) error { return scanCol(m, a, t) })
	case "mergeCells":
		return m.each("mergeCells", func(t xml.StartElement) error {
			if local(t) != "mergeCell" {
				return m.unknown(t, "mergeCells")
			}
			ref, _ := attr(t, "ref")
			if err := a.merge(ref); err != nil {
				return err
			}
			return m.skip()
		})
	case "autoFilter":
		return m.each("autoFilter", func(t xml.StartElement) error {
			if local(t) != "filterColumn" {
				return m.skip()
			}
			return m.each("filterColumn", func(xml.StartElement) error {
				a.trailer.Filtered = true // a criterion; buttons alone are attributes
				return m.skip()
			})
		})
	case "hyperlinks":
		return m.each("hyperlinks", func(xml.StartElement) error {
			a.trailer.LinkedCells++
			return m.skip()
		})
	}
	return m.skip()
}

func scanCol(m *markup, a *assembler, t xml.StartElement) error {
	if local(t) != "col" {
		return m.unknown(t, "cols")
	}
	hidden, err := m.flag(t, "hidden", false)
	if err != nil {
		return err
	}
	first, _ := attr(t, "min")
	last, _ := attr(t, "max")
	if err := a.columns(first, last, hidden); err != nil {
		return err
	}
	return m.skip()
}

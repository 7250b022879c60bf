package tidy

import (
	"fmt"
	"strings"
)

// fitment writes the rows of one platform in the catalogue's style.
func (m *maker) fitment(name string, from, to int) {
	for i, g := range groups() {
		s := m.sheet(name, i)
		for _, b := range m.split(from, to) {
			n := m.fault()
			if n == leftOut {
				continue
			}
			if n == tooWide {
				b.to = min(b.to+3, to)
			}
			cells := make([]string, len(g))
			for k, p := range g {
				cells[k] = m.says(p)
			}
			m.write(s, name, g, b, cells, from, to)
			if n == twice {
				m.write(s, name, g, b, cells, from, to)
			}
		}
	}
	if m.tees {
		m.teeRows(name, from, to)
	}
}

// fault is what is wrong with a row.
type fault int

const (
	none fault = iota
	leftOut
	tooWide // by a few years
	twice
)

// fault draws what is wrong with a row: two in a hundred are left out, and one each is too
// wide or written twice.
func (m *maker) fault() fault {
	n := m.IntN(100)
	if !m.faults || n > 3 {
		return none
	}
	return []fault{leftOut, leftOut, tooWide, twice}[n]
}

// sheet gives the sheet for a platform's group, which is made where there is none yet.
func (m *maker) sheet(platform string, group int) *Sheet {
	name := "Fitment " + platform
	switch m.style {
	case Single, Long:
		name = "Fitment"
	case PerPart:
		name = fmt.Sprintf("Fitment group %d", group+1)
	}
	for i := range m.sheets {
		if m.sheets[i].Name == name {
			return &m.sheets[i]
		}
	}
	return m.add(name, m.header(group)...)
}

func (m *maker) header(group int) []string {
	out := []string{"Platform", "Years"}
	for _, t := range m.traits() {
		out = append(out, t.name)
	}
	if m.style == Long {
		return append(out, "Position", "Fits")
	}
	if m.messy {
		out = append(out, "Precedence")
	}
	for i, g := range m.groups() {
		for _, p := range g {
			if m.style != PerPart || i == group {
				out = append(out, p.name)
			}
		}
	}
	return out
}

// write writes a box: its years, where it is not about all, and the traits that it was cut
// along.
func (m *maker) write(s *Sheet, name string, g []place, b box, cells []string, from, to int) {
	years := span(b.from, b.to)
	if b.from == from && b.to == to {
		years = ""
	}
	row := []string{name, years}
	for i, t := range m.traits() {
		var values []string
		for _, v := range b.values[i] {
			values = append(values, t.values[v])
		}
		if len(values) == len(t.values) {
			values = nil
		}
		row = append(row, strings.Join(values, ", "))
	}
	switch m.style {
	case Long:
		for i, p := range g {
			if cells[i] != "" {
				s.row(append(row[:len(row):len(row)], p.name, cells[i])...)
			}
		}
	case ByYear:
		for y := b.from; y <= b.to; y++ {
			row[1] = fmt.Sprint(y)
			s.row(s.under(row, g, cells)...)
		}
	default:
		s.row(s.under(row, g, cells)...)
	}
}

// under puts cells under their positions.
func (s *Sheet) under(row []string, g []place, cells []string) []string {
	out := make([]string, len(s.Rows[0]))
	copy(out, row)
	for i, p := range g {
		for k, head := range s.Rows[0] {
			if head == p.name {
				out[k] = cells[i]
			}
		}
	}
	return out
}

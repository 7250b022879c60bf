package enumerate

import "math/big"

// amount is a quantity in metres, kilograms or plain numbers, with both ends.
type amount struct{ low, high *big.Rat }

func (a amount) equal(b amount) bool { return a.low.Cmp(b.low) == 0 && a.high.Cmp(b.high) == 0 }

// wording is an amount as a hand writes it: with its unit, and bare for a column
// whose header says the unit.
type wording struct {
	amount
	text string
	bare any // nil where it must be written with its unit
}

// kind of amount: what its columns may have as a unit, and what is written.
type kind struct {
	name, unit string
	ways       []wording
}

func exactly(text string) *big.Rat {
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		panic("no number: " + text)
	}
	return r
}

func said(low, high, text string, bare any) wording {
	return wording{amount{exactly(low), exactly(high)}, text, bare}
}

// kinds are what is measured. One inch is 0.0254 m and one pound 0.45359237 kg
// exactly (NIST SP 811, App. B.8).
func kinds() map[string]kind {
	return map[string]kind{
		"length": {"length", "mm", []wording{
			said("0.230", "0.230", "230 mm", 230), said("0.254", "0.254", "254 mm", 254.0), said("0.254", "0.254", "10 in", nil),
			said("0.254", "0.254", "25.4 cm", nil), said("0.2413", "0.2413", "9 1/2 in", nil), said("0.1", "0.1", "100 mm", "100"),
			said("0.2", "0.21", "200-210 mm", "200-210"), said("0.225", "0.235", "230 mm ±5", "230 ±5"), said("0.04", "0.04", "40 mm", 40),
		}},
		"mass": {"mass", "kg", []wording{
			said("7100", "7100", "7.1 t", nil), said("7100", "7100", "7100 kg", 7100), said("6300", "6300", "6300 kg", 6300),
			said("4535.9237", "4535.9237", "10000 lb", nil), said("6000", "6500", "6000-6500 kg", "6000-6500"),
		}},
		"count": {"count", "", []wording{
			said("2", "2", "2", 2), said("4", "4", "4", 4), said("3", "3", "3", "3"), said("0", "0", "0", 0), said("1", "3", "1-3", "1-3"), said("1/2", "1/2", "0.5", 0.5),
		}},
	}
}

// measured is a column of amounts: a property of parts, or a fact.
type measured struct {
	name, kind string
	unit       bool // its header says the unit
}

// write picks an amount and fills the cell.
func (g *gen) write(r *row, m measured) amount {
	w := pick(g, kinds()[m.kind].ways)
	r.cells[m.name] = w.text
	if w.bare != nil && (m.unit || m.kind == "count") && g.chance(0.7) {
		r.cells[m.name] = w.bare
	}
	return w.amount
}

// head writes the header.
func (g *gen) head(m measured) string {
	if !m.unit {
		return g.odd(m.name)
	}
	return g.odd(m.name) + pick(g, []string{" ", "", "  "}) + "[" + kinds()[m.kind].unit + "]"
}

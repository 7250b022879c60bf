package enumerate

import "math/big"

// size is a magnitude in millimetres, of a tube or of a hose.
type size struct {
	mm   *big.Rat
	hose bool
}

func (s size) equal(o size) bool { return s.hose == o.hose && s.mm.Cmp(o.mm) == 0 }

// spelling is a size with the ways to write it. The first is the declared one.
type spelling struct {
	size size
	ways []string
}

// inch gives n/d inches; 1 in = 25.4 mm exactly (NIST SP 811, App. B.8).
func inch(n, d int64) *big.Rat { return big.NewRat(n*254, d*10) }

func millimetre(n int64) *big.Rat { return big.NewRat(n, 1) }

// spellings are sizes in ascending order. 1/4 in is 6.35 mm, 5/16 in 7.9375 mm, 3/8 in
// 9.525 mm, 1/2 in 12.7 mm and 1 1/4 in 31.75 mm, from 1 in = 25.4 mm. 5/16 in and 8 mm
// are 1/128 apart.
func spellings() []spelling {
	return []spelling{
		{size: size{mm: inch(1, 4)}, ways: []string{"1/4 in", `1/4"`, "0.25 in", "¼\"", "6.35 mm", "1/4”", "2/8 in"}},
		{size: size{mm: inch(5, 16)}, ways: []string{"5/16 in", `5/16"`, "0.3125 in", "7.9375 mm"}},
		{size: size{mm: millimetre(8)}, ways: []string{"8 mm", "8mm", "8.0 mm"}},
		{size: size{mm: inch(3, 8)}, ways: []string{"3/8 in", `3/8"`, "0.375 in", "⅜ in", "9.525 mm"}},
		{size: size{mm: millimetre(10)}, ways: []string{"10 mm", "10mm", "10.0 mm"}},
		{size: size{mm: inch(1, 2)}, ways: []string{"1/2 in", `1/2"`, "½\"", "0.5 in", "12.7 mm", "1/2″"}},
		{size: size{mm: millimetre(16)}, ways: []string{"16 mm", "16.0 mm"}},
		{size: size{mm: inch(5, 4)}, ways: []string{"1 1/4 in", "1.25 in", "31.75 mm", `1 1/4"`}},
	}
}

// hoses are inside diameters: never equal to a tube of the same magnitude.
func hoses() []spelling {
	return []spelling{
		{size: size{mm: inch(3, 8), hose: true}, ways: []string{"3/8 in hose", "0.375 in hose", "9.525 mm hose"}},
		{size: size{mm: inch(1, 2), hose: true}, ways: []string{"1/2 in hose", "0.5 in hose"}},
	}
}

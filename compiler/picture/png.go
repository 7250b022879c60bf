package picture

import (
	"compress/zlib"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"io"
)

// What the head of a PNG says, after its signature and the length and name of the first
// chunk (PNG, third edition, 11.2.1).
const (
	pngHead    = 8 + 8
	pngDepth   = pngHead + 8
	pngColour  = pngHead + 9
	pngWeave   = pngHead + 12
	pngHeadEnd = pngHead + 13 + 4
)

// Colour types of PNG: bits that are set for a palette, for colour and for transparency.
const (
	withPalette = 1
	withColour  = 2
	withAlpha   = 4
)

// pngInterlaced and pngBytes are asked of files whose head was found to be sound.
func pngInterlaced(data []byte) bool { return len(data) > pngWeave && data[pngWeave] != 0 }

// pngBytes gives the bytes that image/png takes for a pixel.
func pngBytes(data []byte) int64 {
	switch colour := data[pngColour]; {
	case data[pngDepth] == 16:
		return 8
	case colour == withPalette|withColour:
		return 1
	}
	return 4
}

var errPNG = errors.New("its data is not what a PNG holds")

// pngRows unpacks a PNG that is not interlaced row by row. It knows what image/png knows and
// gives the same pixels.
type pngRows struct {
	rest    []byte // chunks that are not read yet
	body    io.ReadCloser
	now     []byte // of the IDAT chunk that is being read
	height  int
	depth   int
	colour  uint8
	bytes   int // from a pixel's byte to that of the pixel before it
	palette [256][4]uint16
	hidden  []uint16 // the one colour that is transparent; nil for none
	lines   [2][]byte
	y       int
	row     *image.RGBA
	decoded []uint16
}

func newPNGRows(data []byte) (*pngRows, error) {
	p := &pngRows{rest: data[8:]}
	head, name, err := p.chunk()
	if err != nil || name != "IHDR" || len(head) != 13 {
		return nil, errors.Join(err, errPNG)
	}
	width := int(binary.BigEndian.Uint32(head))
	p.height, p.depth, p.colour = int(binary.BigEndian.Uint32(head[4:])), int(head[8]), head[9]
	samples := [8]int{0: 1, withColour: 3, withColour | withPalette: 1, withAlpha: 2, withColour | withAlpha: 4}[p.colour&7]
	bits := samples * p.depth
	p.bytes = max(1, bits/8)
	for i := range p.lines {
		p.lines[i] = make([]byte, 1+(bits*width+7)/8)
	}
	p.row, p.decoded = image.NewRGBA(image.Rect(0, 0, width, 1)), make([]uint16, samples*width)
	for i := range p.palette {
		p.palette[i] = [4]uint16{3: 0xffff}
	}
	if err := p.before(); err != nil {
		return nil, err
	}
	p.body, err = zlib.NewReader(p)
	return p, err
}

// chunk takes a chunk and checks its sum.
func (p *pngRows) chunk() (body []byte, name string, err error) {
	if len(p.rest) < 12 {
		return nil, "", io.ErrUnexpectedEOF
	}
	size := int64(binary.BigEndian.Uint32(p.rest))
	if size > int64(len(p.rest)-12) {
		return nil, "", io.ErrUnexpectedEOF
	}
	body, name = p.rest[8:8+size], string(p.rest[4:8])
	if crc32.ChecksumIEEE(p.rest[4:8+size]) != binary.BigEndian.Uint32(p.rest[8+size:]) {
		return nil, "", errors.New("a checksum in it does not agree")
	}
	p.rest = p.rest[12+size:]
	return body, name, nil
}

// before reads the chunks up to the picture itself.
func (p *pngRows) before() error {
	paletted, coloured := p.colour&withPalette != 0, false
	for {
		body, name, err := p.chunk()
		switch {
		case err != nil:
			return err
		case name == "PLTE":
			if coloured || len(body)%3 != 0 || len(body) == 0 || paletted && len(body)/3 > 1<<p.depth || p.colour&withColour == 0 {
				return errPNG
			}
			coloured = true
			for i := 0; i < len(body)/3 && i < len(p.palette); i++ {
				for c := range 3 {
					p.palette[i][c] = uint16(body[3*i+c]) * 0x101
				}
			}
		case name == "tRNS":
			if err := p.transparent(body, paletted && !coloured); err != nil {
				return err
			}
		case name == "IDAT":
			if p.now = body; paletted && !coloured {
				return errPNG
			}
			return nil
		case name == "IEND", name == "IHDR":
			return errPNG
		}
	}
}

// transparent takes which colours cannot be seen.
func (p *pngRows) transparent(body []byte, early bool) error {
	switch {
	case early, p.colour&withAlpha != 0:
		return errPNG
	case p.colour&withPalette != 0:
		if len(body) > len(p.palette) {
			return errPNG
		}
		for i, alpha := range body {
			p.palette[i][3] = uint16(alpha) * 0x101
		}
		return nil
	case len(body) != 2*len(p.decoded)/p.row.Rect.Dx():
		return errPNG
	}
	for i := 0; i < len(body); i += 2 {
		v := binary.BigEndian.Uint16(body[i:])
		if p.depth < 16 {
			v = uint16(uint8(v)*uint8(0xff/(1<<p.depth-1))) * 0x101
		}
		p.hidden = append(p.hidden, v)
	}
	return nil
}

// Read gives what the IDAT chunks hold, for whatever inflates it.
func (p *pngRows) Read(to []byte) (int, error) {
	for len(p.now) == 0 {
		if len(p.rest) < 8 || string(p.rest[4:8]) != "IDAT" {
			return 0, io.ErrUnexpectedEOF
		}
		var err error
		if p.now, _, err = p.chunk(); err != nil {
			return 0, err
		}
	}
	n := copy(to, p.now)
	p.now = p.now[n:]
	return n, nil
}

func (p *pngRows) next() (*image.RGBA, error) {
	if p.y == p.height {
		return nil, p.after()
	}
	now, above := p.lines[p.y%2], p.lines[(p.y+1)%2]
	if _, err := io.ReadFull(p.body, now); err != nil {
		return nil, cutOff(err)
	}
	if !unfilter(now[0], now[1:], above[1:], p.bytes) {
		return nil, errPNG
	}
	p.y++
	p.samples(now[1:])
	p.pixels()
	return p.row, nil
}

// cutOff keeps an end where none should be from being taken for the end of the rows.
func cutOff(err error) error {
	if errors.Is(err, io.EOF) {
		return io.ErrUnexpectedEOF
	}
	return err
}

// after reads the end of the picture and the chunks behind it, and gives io.EOF where all is
// as it should be.
func (p *pngRows) after() error {
	var one [1]byte
	if n, err := io.ReadFull(p.body, one[:]); n > 0 || !errors.Is(err, io.EOF) {
		return errors.Join(errPNG, cutOff(err))
	}
	for {
		_, name, err := p.chunk()
		switch {
		case err != nil:
			return err
		case name == "IEND":
			return io.EOF
		}
	}
}

// samples takes the numbers out of a line, made as wide as 16 bits.
func (p *pngRows) samples(line []byte) {
	switch {
	case p.depth == 16:
		for i := range p.decoded {
			p.decoded[i] = binary.BigEndian.Uint16(line[2*i:])
		}
	case p.colour&withPalette != 0:
		for i := range p.decoded {
			p.decoded[i] = uint16(small(line, i, p.depth))
		}
	default:
		most := uint16(1<<p.depth - 1)
		for i := range p.decoded {
			p.decoded[i] = uint16(small(line, i, p.depth)) * (0xffff / most)
		}
	}
}

// small gives the number i of those that have so many bits, up to 8.
func small(line []byte, i, bits int) uint8 {
	at := i * bits
	return line[at/8] >> (8 - bits - at%8) & (1<<bits - 1)
}

// pixels makes a row of the numbers.
func (p *pngRows) pixels() {
	n := len(p.decoded) / p.row.Rect.Dx()
	for i := range p.row.Rect.Dx() {
		of := p.decoded[n*i : n*i+n]
		px := [4]uint16{of[0], of[0], of[0], 0xffff}
		switch {
		case p.colour&withPalette != 0:
			px = p.palette[of[0]]
		case n >= 3:
			px[1], px[2] = of[1], of[2]
		}
		if p.colour&withAlpha != 0 {
			px[3] = of[n-1]
		}
		if p.hidden != nil && hides(p.hidden, of) {
			px[3] = 0
		}
		put(p.row.Pix[4*i:4*i+4:4*i+4], px)
	}
}

func hides(hidden, of []uint16) bool {
	for i, v := range hidden {
		if of[i] != v {
			return false
		}
	}
	return true
}

// put writes a pixel with its colours weakened by how much it is seen through, as
// color.NRGBA64 does it.
func put(to []uint8, px [4]uint16) {
	alpha := uint32(px[3])
	for c := range 3 {
		to[c] = uint8(uint32(px[c]) * alpha / 0xffff >> 8)
	}
	to[3] = uint8(alpha >> 8)
}

// unfilter undoes what was done to a line for packing it (PNG, third edition, 9).
func unfilter(kind byte, now, above []byte, bytes int) bool {
	switch kind {
	case 0:
	case 1:
		for i := bytes; i < len(now); i++ {
			now[i] += now[i-bytes]
		}
	case 2:
		for i := range now {
			now[i] += above[i]
		}
	case 3:
		for i := range now {
			left := 0
			if i >= bytes {
				left = int(now[i-bytes])
			}
			now[i] += uint8((left + int(above[i])) / 2)
		}
	case 4:
		for i := range now {
			var left, over int
			if i >= bytes {
				left, over = int(now[i-bytes]), int(above[i-bytes])
			}
			now[i] += nearest(left, int(above[i]), over)
		}
	default:
		return false
	}
	return true
}

// nearest gives which of three neighbours is nearest to what they foretell (Paeth).
func nearest(left, above, over int) uint8 {
	guess := left + above - over
	a, b, c := distance(guess, left), distance(guess, above), distance(guess, over)
	switch {
	case a <= b && a <= c:
		return uint8(left)
	case b <= c:
		return uint8(above)
	}
	return uint8(over)
}

func distance(a, b int) int { return max(a-b, b-a) }

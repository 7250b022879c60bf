package picture

import (
	"encoding/binary"
	"errors"
	"fmt"
)

var errWebP = errors.New("it is damaged or cut off")

// plainWebP gives a WebP without anything but its look, and its size. The container is
// that of RFC 9649: chunks with a name of four letters, a length, and a byte of padding
// after an odd one.
func plainWebP(data []byte) (plain []byte, width, height int, err error) {
	// The length counts from the name of the form on, which is four letters itself.
	if n := int64(binary.LittleEndian.Uint32(data[4:])); n < 4 || n+8 > int64(len(data)) {
		return nil, 0, 0, errWebP
	}
	plain = append(plain, data[:12]...)
	for rest := data[12 : 8+int(binary.LittleEndian.Uint32(data[4:]))]; len(rest) > 0; {
		if len(rest) < 8 {
			return nil, 0, 0, errWebP
		}
		name, size := string(rest[:4]), int64(binary.LittleEndian.Uint32(rest[4:]))
		whole := 8 + size + size%2
		if whole > int64(len(rest)) {
			return nil, 0, 0, errWebP
		}
		chunk := append([]byte(nil), rest[:whole]...)
		rest = rest[whole:]
		w, h, keep, err := webpChunk(name, chunk, chunk[8:8+size])
		if err != nil {
			return nil, 0, 0, err
		}
		if w > 0 && width == 0 {
			width, height = w, h
		}
		if keep {
			plain = append(plain, chunk...)
		}
	}
	switch {
	case width <= 0 || height <= 0:
		return nil, 0, 0, errWebP
	case width > maxSide || height > maxSide:
		return nil, 0, 0, fmt.Errorf("it has %d x %d pixels; a WebP is published as it is, and may have %d each way", width, height, maxSide)
	}
	binary.LittleEndian.PutUint32(plain[4:], uint32(len(plain)-8))
	return plain, width, height, nil
}

// webpChunk judges one chunk, which it may change: the size that it states, and whether
// it is part of the look.
func webpChunk(name string, chunk, body []byte) (width, height int, keep bool, err error) {
	switch name {
	case "VP8X":
		if len(body) < 10 {
			return 0, 0, false, errWebP
		}
		const animation, metadata = 0x02, 0x04 | 0x08
		if body[0]&animation != 0 {
			return 0, 0, false, errors.New("it moves")
		}
		chunk[8] &^= metadata
		return 1 + le24(body[4:]), 1 + le24(body[7:]), true, nil
	case "VP8 ":
		// A key frame: a bit of the first three bytes, then a start code and 14 bits each
		// way (RFC 6386, 9.1).
		if len(body) < 10 || body[0]&1 != 0 || string(body[3:6]) != "\x9d\x01\x2a" {
			return 0, 0, false, errWebP
		}
		return int(binary.LittleEndian.Uint16(body[6:])) & 0x3fff, int(binary.LittleEndian.Uint16(body[8:])) & 0x3fff, true, nil
	case "VP8L":
		if len(body) < 5 || body[0] != 0x2f {
			return 0, 0, false, errWebP
		}
		bits := binary.LittleEndian.Uint32(body[1:])
		return 1 + int(bits&0x3fff), 1 + int(bits>>14&0x3fff), true, nil
	case "ALPH", "ICCP":
		return 0, 0, true, nil
	case "ANIM", "ANMF":
		return 0, 0, false, errors.New("it moves")
	}
	return 0, 0, false, nil
}

func le24(b []byte) int { return int(b[0]) | int(b[1])<<8 | int(b[2])<<16 }

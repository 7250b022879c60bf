package picture

import (
	"encoding/binary"
	"image"
)

// orientation gives how a JPEG is to be turned, 1 to 8, as its Exif data says (tag
// 0x0112 of the first directory; Exif 2.3, 4.6.4, from memory); 1, upright, where they
// say nothing.
func orientation(data []byte) int {
	for at := 2; at+4 <= len(data) && data[at] == 0xff; {
		marker, size := data[at+1], int(binary.BigEndian.Uint16(data[at+2:]))
		if marker == 0xda || size < 2 || at+2+size > len(data) {
			break // the picture itself begins, or nothing can be read
		}
		if body := data[at+4 : at+2+size]; marker == 0xe1 && len(body) > 6 && string(body[:6]) == "Exif\x00\x00" {
			return exif(body[6:])
		}
		at += 2 + size
	}
	return 1
}

// exif reads the tag from a TIFF block.
func exif(b []byte) int {
	if len(b) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.LittleEndian
	switch string(b[:2]) {
	case "II":
	case "MM":
		order = binary.BigEndian
	default:
		return 1
	}
	at := int64(order.Uint32(b[4:]))
	if at+2 > int64(len(b)) {
		return 1
	}
	for i := range int64(order.Uint16(b[at:])) {
		entry := at + 2 + 12*i
		if entry+12 > int64(len(b)) {
			return 1
		}
		if order.Uint16(b[entry:]) == 0x0112 {
			if turn := int(order.Uint16(b[entry+8:])); turn >= 1 && turn <= 8 {
				return turn
			}
			return 1
		}
	}
	return 1
}

// orient turns a picture upright. The ways are those of the Exif tag: the first row of
// what is stored is the top (1, 2), bottom (3, 4), left (5, 8) or right (6, 7) side of
// what is shown.
func orient(m *image.RGBA, turn int) *image.RGBA {
	if turn < 2 {
		return m
	}
	w, h := m.Bounds().Dx(), m.Bounds().Dy()
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	if turn > 4 {
		out = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	for y := range h {
		for x := range w {
			tx, ty := x, y
			switch turn {
			case 2:
				tx = w - 1 - x
			case 3:
				tx, ty = w-1-x, h-1-y
			case 4:
				ty = h - 1 - y
			case 5:
				tx, ty = y, x
			case 6:
				tx, ty = h-1-y, x
			case 7:
				tx, ty = h-1-y, w-1-x
			case 8:
				tx, ty = y, w-1-x
			}
			out.SetRGBA(tx, ty, m.RGBAAt(x, y))
		}
	}
	return out
}

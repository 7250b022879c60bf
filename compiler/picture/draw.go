package picture

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
)

// quality of a JPEG, from 1 to 100.
const quality = 82

// Write gives the bytes of each of the picture's files, in their order. The error is
// one of reading, or says that the file is not the one that was looked at.
func (p *Picture) Write(emit func(File, []byte) error) error {
	data, err := p.from.read()
	if err != nil {
		return err
	}
	if sha256.Sum256(data) != p.sum {
		return fmt.Errorf("%s has changed since it was looked at", p.from.name)
	}
	switch p.format {
	case SVG:
		return emit(p.Files[0], data)
	case WebP:
		plain, _, _, err := plainWebP(data)
		if err != nil {
			panic("picture: a WebP that was looked at cannot be read: " + err.Error())
		}
		return emit(p.Files[0], plain)
	}
	return p.draw(data, emit)
}

// draw draws a PNG or JPEG anew in all widths, while it is unpacked once.
func (p *Picture) draw(data []byte, emit func(File, []byte) error) error {
	u, err := p.measure(data)
	if err != nil {
		panic("picture: a picture that was looked at cannot be measured: " + err.Error())
	}
	defer p.room.take(u.bytes)()
	all, err := p.unpack(data, u)
	if err != nil {
		panic("picture: a picture that was looked at cannot be read: " + err.Error())
	}
	small := make([]*shrinking, len(p.Files))
	for i, f := range p.Files {
		w, h := f.Width, f.Height
		if p.turn > 4 {
			w, h = h, w
		}
		small[i] = newShrinking(u.width, u.height, w, h)
	}
	err = each(all, func(row *image.RGBA) {
		for _, s := range small {
			s.add(row)
		}
	})
	if err != nil {
		panic("picture: a picture that was looked at cannot be read to its end: " + err.Error())
	}
	for i, f := range p.Files {
		out, err := p.pack(orient(small[i].out, p.turn))
		if err != nil {
			return err
		}
		if err := emit(f, out); err != nil {
			return err
		}
	}
	return nil
}

func (p *Picture) pack(m *image.RGBA) ([]byte, error) {
	var b bytes.Buffer
	var err error
	if p.flat {
		err = jpeg.Encode(&b, m, &jpeg.Options{Quality: quality})
	} else {
		err = (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, m)
	}
	return b.Bytes(), err
}

// shrinking makes a picture smaller while its rows come: each new pixel is the mean of what
// it covers, first across, then down.
type shrinking struct {
	out           *image.RGBA
	width, height int     // of what comes
	narrow        []uint8 // the row at hand, made narrower
	sums          []int   // of the new row at hand
	at            int     // how far down it is, in units of 1/h of a row that comes
}

func newShrinking(width, height, w, h int) *shrinking {
	return &shrinking{out: image.NewRGBA(image.Rect(0, 0, w, h)), width: width, height: height,
		narrow: make([]uint8, 4*w), sums: make([]int, 4*w)}
}

// add takes the next row. It lies in one or more new ones; its share in each is counted in
// units of 1/h of its own height, so that all sums are whole.
func (s *shrinking) add(row *image.RGBA) {
	w, h := s.out.Rect.Dx(), s.out.Rect.Dy()
	squeeze(row.Pix, s.width, s.narrow, w)
	for end := s.at + h; s.at < end; {
		i := s.at / s.height
		next := min(end, (i+1)*s.height)
		for k, v := range s.narrow {
			s.sums[k] += int(v) * (next - s.at)
		}
		if s.at = next; next == (i+1)*s.height {
			to := s.out.Pix[i*s.out.Stride:]
			for k, sum := range s.sums {
				to[k] = uint8((sum + s.height/2) / s.height)
			}
			clear(s.sums)
		}
	}
}

// squeeze gives the mean of each of n even parts of a line of pixels.
func squeeze(from []uint8, length int, to []uint8, n int) {
	if n == length {
		copy(to, from)
		return
	}
	for i := range n {
		// The part reaches from i*length to (i+1)*length in units of 1/n of a pixel.
		begin, end := i*length, (i+1)*length
		var sum [4]int
		for at := begin; at < end; {
			px := at / n
			next := min(end, (px+1)*n)
			for c := range 4 {
				sum[c] += int(from[px*4+c]) * (next - at)
			}
			at = next
		}
		for c := range 4 {
			to[i*4+c] = uint8((sum[c] + length/2) / length)
		}
	}
}

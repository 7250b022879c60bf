package picture

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"image"
	"image/draw"
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
	m, err := p.unpack(data)
	if err != nil {
		panic("picture: a picture that was looked at cannot be read: " + err.Error())
	}
	all := pixels(m)
	for _, f := range p.Files {
		out, err := p.pack(all, f)
		if err != nil {
			return err
		}
		if err := emit(f, out); err != nil {
			return err
		}
	}
	return nil
}

func (p *Picture) pack(m *image.RGBA, f File) ([]byte, error) {
	w, h := f.Width, f.Height
	if p.turn > 4 {
		w, h = h, w
	}
	small := orient(shrink(m, w, h), p.turn)
	var b bytes.Buffer
	var err error
	if p.flat {
		err = jpeg.Encode(&b, small, &jpeg.Options{Quality: quality})
	} else {
		err = (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, small)
	}
	return b.Bytes(), err
}

// pixels gives a picture as plain pixels.
func pixels(m image.Image) *image.RGBA {
	b := m.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(out, out.Bounds(), m, b.Min, draw.Src)
	return out
}

// shrink makes a picture smaller: each new pixel is the mean of what it covers.
func shrink(m *image.RGBA, w, h int) *image.RGBA {
	b := m.Bounds()
	if w == b.Dx() && h == b.Dy() {
		return m
	}
	// First across, then down. A source pixel lies in one or more parts of new ones; its
	// share is counted in units of 1/w of its own width, so that all sums are whole.
	narrow := image.NewRGBA(image.Rect(0, 0, w, b.Dy()))
	for y := range b.Dy() {
		squeeze(m.Pix[y*m.Stride:], 4, b.Dx(), narrow.Pix[y*narrow.Stride:], 4, w)
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for x := range w {
		squeeze(narrow.Pix[4*x:], narrow.Stride, b.Dy(), out.Pix[4*x:], out.Stride, h)
	}
	return out
}

// squeeze gives the mean of each of n even parts of a line of pixels that lie step bytes
// apart.
func squeeze(from []uint8, step, length int, to []uint8, toStep, n int) {
	for i := range n {
		// The part reaches from i*length to (i+1)*length in units of 1/n of a pixel.
		begin, end := i*length, (i+1)*length
		var sum [4]int
		for at := begin; at < end; {
			px := at / n
			next := min(end, (px+1)*n)
			for c := range 4 {
				sum[c] += int(from[px*step+c]) * (next - at)
			}
			at = next
		}
		for c := range 4 {
			to[i*toStep+c] = uint8((sum[c] + length/2) / length)
		}
	}
}

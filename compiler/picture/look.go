package picture

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
)

// look judges the bytes of a file; an error is the end of a sentence that says why it
// cannot be shown.
func look(from source, data []byte) (*Picture, error) {
	p := &Picture{from: from, sum: sha256.Sum256(data)}
	var err error
	switch {
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		p.format = PNG
		err = p.raster(data)
	case bytes.HasPrefix(data, []byte("\xff\xd8\xff")):
		p.format = JPEG
		err = p.raster(data)
	case len(data) > 12 && string(data[:4]) == "RIFF" && string(data[8:12]) == "WEBP":
		p.format = WebP
		_, p.Width, p.Height, err = plainWebP(data)
	case len(data) == 0:
		err = errors.New("the file is empty")
	case maybeSVG(data):
		p.format = SVG
		p.Width, p.Height, err = plainSVG(data)
	default:
		err = errors.New("it is no PNG, JPEG, WebP or SVG")
	}
	if err == nil && (p.format == WebP || p.format == SVG) && len(data) > maxPassed {
		err = fmt.Errorf("it is larger than %d MB, and a WebP or an SVG is published as it is", maxPassed>>20)
	}
	if err != nil {
		return nil, err
	}
	p.name()
	return p, nil
}

// raster judges a PNG or JPEG by unpacking it whole.
func (p *Picture) raster(data []byte) error {
	config, _, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return damaged(err)
	}
	if config.Width <= 0 || config.Height <= 0 || config.Width > maxPixels/config.Height {
		return fmt.Errorf("it has %d x %d pixels, and %d million are the most", config.Width, config.Height, maxPixels/1_000_000)
	}
	if p.format == JPEG {
		p.turn = orientation(data)
	}
	m, err := p.unpack(data)
	if err != nil {
		return damaged(err)
	}
	p.Width, p.Height = m.Bounds().Dx(), m.Bounds().Dy()
	if p.turn > 4 {
		p.Width, p.Height = p.Height, p.Width
	}
	p.flat = p.format == JPEG || photograph(m)
	return nil
}

func damaged(err error) error { return fmt.Errorf("it is damaged or cut off (%w)", err) }

func (p *Picture) unpack(data []byte) (image.Image, error) {
	if p.format == PNG {
		return png.Decode(bytes.NewReader(data))
	}
	return jpeg.Decode(bytes.NewReader(data))
}

// drawing is the most colours that a picture has which is kept free of the blur of a
// JPEG.
const drawing = 4096

// photograph tells whether a picture has no transparent places and many colours.
func photograph(m image.Image) bool {
	if o, ok := m.(interface{ Opaque() bool }); !ok || !o.Opaque() {
		return false
	}
	seen := map[[3]uint8]bool{}
	var last [3]uint8
	b := m.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			r, g, b, _ := m.At(x, y).RGBA()
			now := [3]uint8{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8)}
			if now == last {
				continue
			}
			last = now
			if seen[now] = true; len(seen) > drawing {
				return true
			}
		}
	}
	return false
}

// widths that pictures are published in, in pixels: about as wide as a telephone, and
// as a column of text on a sharp screen.
var widths = [...]int{480, 960}

// name names the files that are published.
func (p *Picture) name() {
	stem := hex.EncodeToString(p.sum[:10])
	switch p.format {
	case WebP:
		p.Files = []File{{stem + ".webp", p.Width, p.Height}}
		return
	case SVG:
		p.Files = []File{{stem + ".svg", p.Width, p.Height}}
		return
	}
	end := ".png"
	if p.flat {
		end = ".jpg"
	}
	for _, w := range widths {
		w = min(w, p.Width)
		h := max(1, (p.Height*w+p.Width/2)/p.Width)
		p.Files = append(p.Files, File{fmt.Sprintf("%s-%d%s", stem, w, end), w, h})
		if w == p.Width {
			break
		}
	}
	last := p.Files[len(p.Files)-1]
	p.Width, p.Height = last.Width, last.Height
}

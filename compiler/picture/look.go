package picture

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
)

// look judges the bytes of a file; an error is the end of a sentence that says why it
// cannot be shown.
func look(from source, data []byte, r *room) (*Picture, error) {
	p := &Picture{from: from, sum: sha256.Sum256(data), room: r}
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

// raster judges a PNG or JPEG by unpacking all of it.
func (p *Picture) raster(data []byte) error {
	u, err := p.measure(data)
	if err != nil {
		return err
	}
	if p.format == JPEG {
		p.turn = orientation(data)
	}
	defer p.room.take(u.bytes)()
	all, err := p.unpack(data, u)
	if err != nil {
		return damaged(err)
	}
	c := &colours{seen: map[[3]uint8]bool{}}
	if err := each(all, c.add); err != nil {
		return damaged(err)
	}
	p.Width, p.Height = u.width, u.height
	if p.turn > 4 {
		p.Width, p.Height = p.Height, p.Width
	}
	p.flat = p.format == JPEG || c.photograph()
	return nil
}

func damaged(err error) error { return fmt.Errorf("it is damaged or cut off (%w)", err) }

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

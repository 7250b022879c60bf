package picture

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/draw"
	"image/jpeg"
	"image/png"
	"io"
)

// rows gives a picture row by row, from the top, as plain pixels with a height of 1 that are
// good until the next. After the last it gives io.EOF.
type rows interface {
	next() (*image.RGBA, error)
}

// errLarge is about a picture that is sound, and too large.
type errLarge struct{ why string }

func (e *errLarge) Error() string { return e.why }

// unpacking is how a PNG or JPEG is unpacked.
type unpacking struct {
	width, height int
	whole         string // why not row by row, as it is said of it; "" where it is
	bytes         int64  // of memory that unpacking takes, about
}

// measure looks at a picture's head, and says what unpacking it will take.
func (p *Picture) measure(data []byte) (u unpacking, err error) {
	config, _, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return u, damaged(err)
	}
	u.width, u.height = config.Width, config.Height
	if u.width <= 0 || u.height <= 0 || u.width > maxPixels/u.height {
		return u, &errLarge{fmt.Sprintf("it has %d x %d pixels, and %d million are the most", u.width, u.height, maxPixels/1_000_000)}
	}
	pixels := int64(u.width) * int64(u.height)
	if p.format == JPEG {
		each, progressive, err := jpegBytes(data)
		if err != nil {
			return u, err
		}
		u.bytes, u.whole = pixels*each, "unpacks whole"
		if progressive {
			u.whole = "is stored progressively"
		}
	} else if pngInterlaced(data) {
		u.bytes, u.whole = pixels*pngBytes(data)*3/2, "is interlaced"
	} else {
		u.bytes = int64(u.width) * (4 + 3*pngBytes(data))
	}
	for _, w := range widths { // what is drawn of it, also while it is turned
		w = min(w, u.width)
		u.bytes += 2 * 4 * int64(w) * max(1, int64(u.height)*int64(w)/int64(u.width))
	}
	if u.bytes > maxRoom {
		return u, &errLarge{u.tooMuch()}
	}
	return u, nil
}

func (u unpacking) tooMuch() string {
	how := ""
	if u.whole != "" {
		how = " and " + u.whole
	}
	return fmt.Sprintf("it has %d x %d pixels%s, so that unpacking it takes %d MB of memory, and %d MB are the most",
		u.width, u.height, how, u.bytes>>20, maxRoom>>20)
}

// unpack gives the rows of a picture.
func (p *Picture) unpack(data []byte, u unpacking) (rows, error) {
	var m image.Image
	var err error
	switch {
	case p.format == JPEG:
		m, err = jpeg.Decode(bytes.NewReader(data))
	case u.whole != "":
		m, err = png.Decode(bytes.NewReader(data))
	default:
		return newPNGRows(data)
	}
	if err != nil {
		return nil, err
	}
	return &wholeRows{m: m, row: image.NewRGBA(image.Rect(0, 0, u.width, 1))}, nil
}

// wholeRows is a picture that was unpacked whole.
type wholeRows struct {
	m   image.Image
	row *image.RGBA
	y   int
}

func (w *wholeRows) next() (*image.RGBA, error) {
	b := w.m.Bounds()
	if w.y == b.Dy() {
		return nil, io.EOF
	}
	draw.Draw(w.row, w.row.Bounds(), w.m, image.Pt(b.Min.X, b.Min.Y+w.y), draw.Src)
	w.y++
	return w.row, nil
}

// each calls do for every row of a picture.
func each(all rows, do func(row *image.RGBA)) error {
	for {
		row, err := all.next()
		switch {
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return err
		}
		do(row)
	}
}

// colours tells whether a picture has no transparent places and many colours.
type colours struct {
	clear bool // some place is transparent
	seen  map[[3]uint8]bool
	last  [3]uint8
}

// drawing is the most colours that a picture has which is kept free of the blur of a
// JPEG.
const drawing = 4096

func (c *colours) add(row *image.RGBA) {
	for i := 0; i < len(row.Pix) && !c.clear; i += 4 {
		px := row.Pix[i : i+4 : i+4]
		now := [3]uint8{px[0], px[1], px[2]}
		c.clear = px[3] != 0xff
		if now == c.last || len(c.seen) > drawing {
			continue
		}
		c.last = now
		c.seen[now] = true
	}
}

func (c *colours) photograph() bool { return !c.clear && len(c.seen) > drawing }

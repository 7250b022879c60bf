package picture

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// noise is a picture of random colours.
func noise(w, h int) *image.RGBA {
	r := rand.New(rand.NewPCG(1, 2))
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range m.Pix {
		m.Pix[i] = uint8(r.IntN(256))
		if i%4 == 3 {
			m.Pix[i] = 255
		}
	}
	return m
}

func pngOf(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, m))
	return b.Bytes()
}

func jpegOf(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, nil))
	return b.Bytes()
}

// written looks at a file of the bytes and gives what is published of it.
func written(t *testing.T, data []byte) (*Picture, map[string][]byte) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "a"), data, 0o644))
	from := source{dir, "a"}
	read, err := from.read()
	require.NoError(t, err)
	p, err := look(from, read, newRoom())
	require.NoError(t, err)
	out := map[string][]byte{}
	require.NoError(t, p.Write(func(f File, b []byte) error { out[f.Name] = bytes.Clone(b); return nil }))
	require.Len(t, out, len(p.Files))
	return p, out
}

func TestWidths(t *testing.T) {
	for _, c := range []struct {
		w, h int
		want [][2]int
	}{
		{300, 200, [][2]int{{300, 200}}},
		{480, 100, [][2]int{{480, 100}}},
		{700, 350, [][2]int{{480, 240}, {700, 350}}},
		{2000, 1001, [][2]int{{480, 240}, {960, 480}}},
		{1200, 1, [][2]int{{480, 1}, {960, 1}}},
	} {
		m := image.NewGray(image.Rect(0, 0, c.w, c.h))
		p, out := written(t, pngOf(t, m))
		var got [][2]int
		for _, f := range p.Files {
			got = append(got, [2]int{f.Width, f.Height})
			config, format, err := image.DecodeConfig(bytes.NewReader(out[f.Name]))
			require.NoError(t, err)
			assert.Equal(t, "png", format, "a drawing stays sharp")
			assert.Equal(t, [2]int{f.Width, f.Height}, [2]int{config.Width, config.Height})
			assert.Regexp(t, `^[0-9a-f]{20}-\d+\.png$`, f.Name)
		}
		assert.Equal(t, c.want, got)
		assert.Equal(t, c.want[len(c.want)-1], [2]int{p.Width, p.Height})
	}
}

func TestPhotographsBecomeJPEG(t *testing.T) {
	p, out := written(t, pngOf(t, noise(100, 100)))
	assert.True(t, strings.HasSuffix(p.Files[0].Name, "-100.jpg"))
	_, format, err := image.DecodeConfig(bytes.NewReader(out[p.Files[0].Name]))
	require.NoError(t, err)
	assert.Equal(t, "jpeg", format)

	glass := noise(100, 100)
	glass.Set(3, 3, color.RGBA{})
	p, _ = written(t, pngOf(t, glass))
	assert.True(t, strings.HasSuffix(p.Files[0].Name, ".png"), "a JPEG has no transparent places")
}

// The name follows from what the file holds, and only from that.
func TestNames(t *testing.T) {
	a, _ := written(t, pngOf(t, noise(20, 20)))
	again, _ := written(t, pngOf(t, noise(20, 20)))
	other, _ := written(t, pngOf(t, noise(20, 21)))
	assert.Equal(t, a.Files, again.Files)
	assert.NotEqual(t, a.Files[0].Name, other.Files[0].Name)
}

// Each new pixel is the mean of what it covers, by its definition.
func TestShrink(t *testing.T) {
	m := noise(17, 11)
	for _, size := range [][2]int{{17, 11}, {5, 3}, {1, 1}, {16, 10}, {17, 1}} {
		w, h := size[0], size[1]
		s := newShrinking(17, 11, w, h)
		require.NoError(t, each(&wholeRows{m: m, row: image.NewRGBA(image.Rect(0, 0, 17, 1))}, s.add))
		got := s.out
		for y := range h {
			for x := range w {
				for c := range 4 {
					assert.InDelta(t, mean(m, x, y, w, h, c), float64(got.Pix[y*got.Stride+4*x+c]), 1.01)
				}
			}
		}
	}
}

func mean(m *image.RGBA, x, y, w, h, c int) float64 {
	part := func(px, i, n, of int) float64 { // of pixel px in part i of n of a line
		begin, end := float64(i)*float64(of)/float64(n), float64(i+1)*float64(of)/float64(n)
		return max(0, min(end, float64(px+1))-max(begin, float64(px)))
	}
	sum, all := 0.0, 0.0
	for py := range m.Bounds().Dy() {
		for px := range m.Bounds().Dx() {
			share := part(px, x, w, m.Bounds().Dx()) * part(py, y, h, m.Bounds().Dy())
			sum += share * float64(m.Pix[py*m.Stride+4*px+c])
			all += share
		}
	}
	return sum / all
}

// exifJPEG puts Exif data with an orientation into a JPEG, in either order of bytes.
func exifJPEG(data []byte, turn uint16, order binary.AppendByteOrder) []byte {
	head := "II"
	if order.String() == binary.BigEndian.String() {
		head = "MM"
	}
	tiff := []byte(head)
	u16 := func(n uint16) { tiff = order.AppendUint16(tiff, n) }
	u32 := func(n uint32) { tiff = order.AppendUint32(tiff, n) }
	u16(42)
	u32(8)
	u16(2)
	for _, tag := range []uint16{0x010f, 0x0112} { // the maker, the orientation
		u16(tag)
		u16(3)
		u32(1)
		u16(turn)
		u16(0)
	}
	u32(0)
	body := append([]byte("Exif\x00\x00"), tiff...)
	body = append(body, "somewhere 51.5 N"...)
	out := append([]byte{0xff, 0xd8, 0xff, 0xe1}, binary.BigEndian.AppendUint16(nil, uint16(len(body)+2))...)
	return append(append(out, body...), data[2:]...)
}

// A photograph lies upright however the camera was held: the top left corner is dark,
// the top right one red. The eight ways are written out.
func TestOrientation(t *testing.T) {
	stored := map[int][4]string{ // top left, top right, bottom left, bottom right as stored
		1: {"dark", "red", "light", "light"}, 2: {"red", "dark", "light", "light"},
		3: {"light", "light", "red", "dark"}, 4: {"light", "light", "dark", "red"},
		5: {"dark", "light", "red", "light"}, 6: {"red", "light", "dark", "light"},
		7: {"light", "red", "light", "dark"}, 8: {"light", "dark", "light", "red"},
	}
	colours := map[string]color.RGBA{"dark": {A: 255}, "red": {R: 255, A: 255}, "light": {255, 255, 255, 255}}
	for turn, corners := range stored {
		w, h := 64, 48
		if turn > 4 {
			w, h = h, w
		}
		m := image.NewRGBA(image.Rect(0, 0, w, h))
		for y := range h {
			for x := range w {
				m.SetRGBA(x, y, colours[corners[x*2/w+2*(y*2/h)]])
			}
		}
		order := []binary.AppendByteOrder{binary.BigEndian, binary.LittleEndian}[turn%2]
		p, out := written(t, exifJPEG(jpegOf(t, m), uint16(turn), order))
		assert.Equal(t, [2]int{64, 48}, [2]int{p.Width, p.Height})
		data := out[p.Files[0].Name]
		assert.NotContains(t, string(data), "somewhere", "where it was taken is nobody's business")
		shown, err := jpeg.Decode(bytes.NewReader(data))
		require.NoError(t, err)
		r, g, _, _ := shown.At(8, 8).RGBA()
		assert.True(t, r < 0x4000 && g < 0x4000, "turn %d: top left", turn)
		r, g, _, _ = shown.At(55, 8).RGBA()
		assert.True(t, r > 0xc000 && g < 0x4000, "turn %d: top right", turn)
		r, g, _, _ = shown.At(8, 40).RGBA()
		assert.True(t, r > 0xc000 && g > 0xc000, "turn %d: bottom left", turn)
	}
}

// bigPNG is a PNG that says that it is large.
func bigPNG(t *testing.T, w, h uint32) []byte {
	data := pngOf(t, image.NewGray(image.Rect(0, 0, 1, 1)))
	binary.BigEndian.PutUint32(data[16:], w)
	binary.BigEndian.PutUint32(data[20:], h)
	binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	return data
}

func TestWhatCannotBeShown(t *testing.T) {
	whole := pngOf(t, noise(40, 40))
	photo := jpegOf(t, noise(40, 40))
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"cut off":        {whole[:len(whole)-20], "damaged or cut off"},
		"cut off JPEG":   {photo[:len(photo)/2], "damaged or cut off"},
		"header only":    {whole[:20], "damaged or cut off"},
		"too many":       {bigPNG(t, 30_000, 1_001), "30000 x 1001 pixels, and 30 million are the most"},
		"very many":      {bigPNG(t, 1<<31-1, 1<<31-1), "damaged or cut off"},
		"a GIF":          {[]byte("GIF89a..."), "no PNG, JPEG, WebP or SVG"},
		"nothing":        {nil, "empty"},
		"a page":         {[]byte("<!DOCTYPE html><html></html>"), "document type"},
		"another XML":    {[]byte("<plist/>"), "first element is not svg"},
		"a large SVG":    {append([]byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"/>`), bytes.Repeat([]byte(" "), maxPassed)...), "larger than 2 MB"},
		"a cut off WebP": {[]byte("RIFF\x00\x01\x00\x00WEBPVP8 "), "damaged or cut off"},
	} {
		_, err := look(source{}, c.data, newRoom())
		if assert.Error(t, err, name) {
			assert.Contains(t, err.Error(), c.want, name)
		}
	}
}

// lossy is a WebP of one pixel (from memory; a browser's test shows it).
const lossy = "UklGRiQAAABXRUJQVlA4IBgAAAAwAQCdASoBAAEAAwA0JaQAA3AA/vuUAAA="

func TestWebP(t *testing.T) {
	plain, err := base64.StdEncoding.DecodeString(lossy)
	require.NoError(t, err)
	p, out := written(t, plain)
	assert.Equal(t, [2]int{1, 1}, [2]int{p.Width, p.Height})
	assert.Equal(t, plain, out[p.Files[0].Name])

	chunk := func(name, body string) string {
		if len(body)%2 == 1 {
			return name + string(binary.LittleEndian.AppendUint32(nil, uint32(len(body)))) + body + "\x00"
		}
		return name + string(binary.LittleEndian.AppendUint32(nil, uint32(len(body)))) + body
	}
	file := func(chunks ...string) []byte {
		body := "WEBP" + strings.Join(chunks, "")
		return []byte("RIFF" + string(binary.LittleEndian.AppendUint32(nil, uint32(len(body)))) + body)
	}
	extended := func(flags byte) string { return chunk("VP8X", string([]byte{flags, 0, 0, 0, 99, 0, 0, 49, 0, 0})) }
	picture := string(plain[12:])
	p, out = written(t, file(extended(0x1c), picture, chunk("EXIF", "somewhere"), chunk("XMP ", "someone")))
	assert.Equal(t, [2]int{100, 50}, [2]int{p.Width, p.Height})
	assert.Equal(t, file(extended(0x10), picture), out[p.Files[0].Name], "what is not its look is left out")

	for name, data := range map[string][]byte{
		"moves":     file(extended(0x02), picture),
		"frames":    file(extended(0), chunk("ANMF", "....")),
		"no size":   file(chunk("ALPH", "x")),
		"too large": file(chunk("VP8X", string([]byte{0, 0, 0, 0, 0, 16, 0, 0, 0, 0})), picture),
		"bad start": file(chunk("VP8 ", "0123456789")),
		"bad other": file(chunk("VP8L", "01234")),
	} {
		_, err := look(source{}, data, newRoom())
		assert.Error(t, err, name)
	}
	p, _ = written(t, file(chunk("VP8L", "\x2f\x09\x40\x01\x00")))
	assert.Equal(t, [2]int{10, 6}, [2]int{p.Width, p.Height})
}

func TestSVG(t *testing.T) {
	in := func(attrs, body string) []byte {
		return []byte(`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ` + attrs + `>` + body + `</svg>`)
	}
	for _, c := range []struct {
		attrs string
		w, h  int
	}{
		{`viewBox="0 0 200 100"`, 200, 100},
		{`viewBox="-5,-5,200,100" width="100%"`, 200, 100},
		{`width="64px" height="48" viewBox="0 0 1 1"`, 64, 48},
		{`viewBox="0 0 24 12"`, 960, 480},
		{`viewBox="0 0 4000 2000"`, 960, 480},
	} {
		p, out := written(t, in(c.attrs, ""))
		assert.Equal(t, [2]int{c.w, c.h}, [2]int{p.Width, p.Height}, c.attrs)
		assert.Equal(t, in(c.attrs, ""), out[p.Files[0].Name])
	}
	for _, body := range []string{
		`<script>alert(1)</script>`, `<g onload="alert(1)"/>`, `<g ONLOAD="alert(1)"/>`, `<foreignObject/>`,
		`<a href="javascript:alert(1)"/>`, `<use href="other.svg#a"/>`, `<use xlink:href="https://elsewhere.example/#a"/>`,
		`<image href="https://elsewhere.example/a.png"/>`, `<image href="data:image/svg+xml;base64,AA"/>`, `<image href=" data:text/html,x"/>`,
		`<style>@import "https://elsewhere.example"</style>`, `<style>a{fill:url(https://elsewhere.example)}</style>`,
		`<style>a{fill:u\72l(x)}</style>`, `<g style="fill:url( 'https://elsewhere.example')"/>`, `<rect fill="url(a.svg#b)"/>`,
		`<animate attributeName="href" to="javascript:alert(1)"/>`, `<set attributeName="onclick" to="x"/>`,
		`<h:script xmlns:h="http://www.w3.org/1999/xhtml">alert(1)</h:script>`, `<b xmlns="http://www.w3.org/1999/xhtml"/>`,
		`<g xml:base="https://elsewhere.example"/>`, `<?xml-stylesheet href="https://elsewhere.example"?>`, `&amp;&nbsp;`, `<iframe/>`,
		`<![CDATA[<]]><style><![CDATA[@import "a"]]></style>`,
	} {
		_, err := look(source{}, in(`viewBox="0 0 9 9"`, body), newRoom())
		assert.Error(t, err, body)
	}
	for _, body := range []string{
		`<path d="M0 0h9" fill="url(#a)"/>`, `<image href="data:image/png;base64,AA"/>`, `<use xlink:href="#a"/>`, `<text>url(</text><text>javascript:</text>`,
		`<style>a { stroke: url('#a') }</style>`, `<x:y xmlns:x="https://pen.example" onclick="x"/>`,
	} {
		_, err := look(source{}, in(`viewBox="0 0 9 9"`, body), newRoom())
		assert.NoError(t, err, body)
	}
	_, err := look(source{}, []byte("\xff\xfe<\x00s\x00v\x00g\x00"), newRoom())
	assert.Error(t, err, "UTF-16")
	_, err = look(source{}, []byte("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\"><text>\xff</text></svg>"), newRoom())
	assert.ErrorContains(t, err, "UTF-8")
}

func TestLinksDoNotLeadOut(t *testing.T) {
	dir, out := t.TempDir(), t.TempDir()
	secret := filepath.Join(out, "secret.png")
	require.NoError(t, os.WriteFile(secret, pngOf(t, noise(9, 9)), 0o644))
	require.NoError(t, os.Symlink(secret, filepath.Join(dir, "link.png")))
	require.NoError(t, os.Symlink(out, filepath.Join(dir, "folder")))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "real.png"), 0o755))
	for _, name := range []string{"link.png", "folder/secret.png", "real.png"} {
		p, f := inspect(source{dir, name}, newRoom(), nil)
		assert.Nil(t, p, name)
		assert.NotNil(t, f, name)
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "own.png"), pngOf(t, noise(9, 9)), 0o644))
	require.NoError(t, os.Symlink("own.png", filepath.Join(dir, "inside.png")))
	p, _ := inspect(source{dir, "inside.png"}, newRoom(), nil)
	assert.NotNil(t, p, "a link within the folder")

	large, err := os.Create(filepath.Join(dir, "large.png"))
	require.NoError(t, err)
	require.NoError(t, large.Truncate(maxBytes+1))
	require.NoError(t, large.Close())
	_, f := inspect(source{dir, "large.png"}, newRoom(), nil)
	assert.Contains(t, f.Message, "larger than 20 MB")
}

// A file that is exchanged between the look and the writing is not published.
func TestChangedFile(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "a.png")
	require.NoError(t, os.WriteFile(file, pngOf(t, noise(9, 9)), 0o644))
	p, f := inspect(source{dir, "a.png"}, newRoom(), nil)
	require.Nil(t, f)
	none := func(File, []byte) error { t.Fatal("written"); return nil }
	require.NoError(t, os.WriteFile(file, pngOf(t, noise(8, 9)), 0o644))
	assert.ErrorContains(t, p.Write(none), "has changed since")
	require.NoError(t, os.Remove(file))
	assert.Error(t, p.Write(none))
}

// FuzzLook holds that no file makes the program stop, and that what is taken can be
// written.
func FuzzLook(f *testing.F) {
	plain, err := base64.StdEncoding.DecodeString(lossy)
	require.NoError(f, err)
	f.Add(plain)
	f.Add(pngOf(f, noise(3, 3)))
	f.Add(exifJPEG(jpegOf(f, noise(3, 3)), 6, binary.BigEndian))
	f.Add([]byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><g style="a"/></svg>`))
	dir := f.TempDir()
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := look(source{dir, "a"}, data, newRoom())
		if err != nil {
			return
		}
		require.NoError(t, os.WriteFile(filepath.Join(dir, "a"), data, 0o644))
		require.Positive(t, p.Width)
		require.Positive(t, p.Height)
		require.NoError(t, p.Write(func(file File, b []byte) error { require.NotEmpty(t, b); return nil }))
	})
}

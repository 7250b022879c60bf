package picture

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pngChunk writes a chunk.
func pngChunk(name string, body []byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	out = append(append(out, name...), body...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[4:]))
}

// rawPNG writes a PNG of lines that are filtered as they say.
func rawPNG(t testing.TB, w, h, depth int, colour uint8, weave uint8, lines []byte, before ...[]byte) []byte {
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, uint32(w)), uint32(h))
	out := append([]byte("\x89PNG\r\n\x1a\n"), pngChunk("IHDR", append(head, uint8(depth), colour, 0, 0, weave))...)
	for _, b := range before {
		out = append(out, b...)
	}
	var packed bytes.Buffer
	z := zlib.NewWriter(&packed)
	_, err := z.Write(lines)
	require.NoError(t, err)
	require.NoError(t, z.Close())
	half := packed.Len() / 2 // in two chunks, as programs write them
	out = append(out, pngChunk("IDAT", packed.Bytes()[:half])...)
	out = append(out, pngChunk("IDAT", packed.Bytes()[half:])...)
	return append(out, pngChunk("IEND", nil)...)
}

// kinds are the colour types and depths that a PNG can have.
func kinds() (out []struct {
	colour uint8
	depth  int
}) {
	for colour, depths := range map[uint8][]int{0: {1, 2, 4, 8, 16}, 2: {8, 16}, 3: {1, 2, 4, 8}, 4: {8, 16}, 6: {8, 16}} {
		for _, d := range depths {
			out = append(out, struct {
				colour uint8
				depth  int
			}{colour, d})
		}
	}
	return out
}

// Row by row the same pixels come as all at once, whatever the kind of PNG and the filter.
func TestRowsOfPNG(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	noise := func(n, most int) []byte {
		out := make([]byte, n)
		for i := range out {
			out[i] = uint8(r.IntN(most))
		}
		return out
	}
	tested := 0
	for _, k := range kinds() {
		for _, hidden := range []bool{false, true} {
			for _, w := range []int{1, 7, 33} {
				const h = 6
				samples := map[uint8]int{0: 1, 2: 3, 3: 1, 4: 2, 6: 4}[k.colour]
				size := (samples*k.depth*w + 7) / 8
				lines := noise(h*(1+size), 256)
				for y := range h {
					lines[y*(1+size)] = uint8(y % 5)
				}
				var before [][]byte
				if k.colour == 3 {
					before = append(before, pngChunk("PLTE", noise(3*min(1<<k.depth, 200), 256)))
				}
				switch {
				case !hidden || k.colour >= 4:
				case k.colour == 3:
					before = append(before, pngChunk("tRNS", noise(min(1<<k.depth, 90), 256)))
				case k.depth == 16:
					before = append(before, pngChunk("tRNS", bytes.Clone(lines[1:1+2*samples])))
				default: // the first line is not filtered, so its first pixel is hidden
					body := make([]byte, 2*samples)
					for i := range samples {
						body[2*i+1] = small(lines[1:], i, k.depth)
					}
					before = append(before, pngChunk("tRNS", body))
				}
				data := rawPNG(t, w, h, k.depth, k.colour, 0, lines, before...)
				name := fmt.Sprintf("colour %d, depth %d, hidden %v, width %d", k.colour, k.depth, hidden, w)
				want, err := png.Decode(bytes.NewReader(data))
				require.NoError(t, err, name)
				whole := &wholeRows{m: want, row: image.NewRGBA(image.Rect(0, 0, w, 1))}
				all, err := newPNGRows(data)
				require.NoError(t, err, name)
				require.NoError(t, each(all, func(row *image.RGBA) {
					same, err := whole.next()
					require.NoError(t, err)
					assert.Equal(t, same.Pix, row.Pix, name)
				}), name)
				assert.Equal(t, h, whole.y, name)
				tested++
			}
		}
	}
	assert.Equal(t, 15*2*3, tested)
}

// What a PNG says wrongly is damage, not a picture.
func TestDamagedPNG(t *testing.T) {
	lines := make([]byte, 4*(1+3*4))
	plain := func(lines []byte, before ...[]byte) []byte { return rawPNG(t, 4, 4, 8, 2, 0, lines, before...) }
	_, err := look(source{}, plain(lines), newRoom())
	require.NoError(t, err)
	filter := bytes.Clone(lines)
	filter[13] = 5
	for name, data := range map[string][]byte{
		"few rows":         plain(lines[:30]),
		"rows beyond":      plain(append(bytes.Clone(lines), 0)),
		"no such filter":   plain(filter),
		"wrong length":     plain(lines, pngChunk("tRNS", []byte{1})),
		"palette length":   plain(lines, pngChunk("PLTE", []byte{1})),
		"two heads":        plain(lines, pngChunk("IHDR", make([]byte, 13))),
		"end too early":    plain(lines, pngChunk("IEND", nil)),
		"no palette":       rawPNG(t, 4, 4, 8, 3, 0, make([]byte, 4*5)),
		"grey palette":     rawPNG(t, 4, 4, 8, 0, 0, make([]byte, 4*5), pngChunk("PLTE", make([]byte, 3))),
		"alpha twice":      rawPNG(t, 4, 4, 8, 6, 0, make([]byte, 4*17), pngChunk("tRNS", make([]byte, 6))),
		"without an end":   plain(lines)[:len(plain(lines))-12],
		"wrong checksum":   append(plain(lines)[:len(plain(lines))-1], 0),
		"chunk too long":   bytes.Replace(plain(lines), pngChunk("IEND", nil), []byte("\xff\xff\xff\xffIEND...."), 1),
		"palette too long": rawPNG(t, 4, 4, 2, 3, 0, make([]byte, 4*2), pngChunk("PLTE", make([]byte, 15))),
	} {
		_, err := look(source{}, data, newRoom())
		assert.ErrorContains(t, err, "damaged or cut off", name)
	}
}

// FuzzPNG holds that whatever image/png takes gives the same pixels row by row.
func FuzzPNG(f *testing.F) {
	f.Add(pngOf(f, noise(5, 5)))
	f.Add(rawPNG(f, 4, 4, 8, 3, 0, make([]byte, 4*5), pngChunk("PLTE", make([]byte, 9)), pngChunk("tRNS", []byte{7})))
	f.Fuzz(func(t *testing.T, data []byte) {
		config, err := png.DecodeConfig(bytes.NewReader(data))
		if err != nil || config.Width*config.Height > 1<<16 || config.Width > 1<<10 || pngInterlaced(data) {
			return
		}
		whole, bad := png.Decode(bytes.NewReader(data))
		all, err := newPNGRows(data)
		if err != nil {
			return // stricter
		}
		var got []uint8
		err = each(all, func(row *image.RGBA) { got = append(got, row.Pix...) })
		if err != nil || bad != nil {
			return
		}
		want := &wholeRows{m: whole, row: image.NewRGBA(image.Rect(0, 0, config.Width, 1))}
		require.NoError(t, each(want, func(row *image.RGBA) {
			require.Equal(t, row.Pix, got[:len(row.Pix)])
			got = got[len(row.Pix):]
		}))
		require.Empty(t, got)
	})
}

package picture

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"os"
	"path/filepath"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/model"
	"ferrule/compiler/parallel"
	"ferrule/compiler/tidy/yardstick"
	"ferrule/sheets/cell"
)

// Together nobody ever has more than there is.
func TestRoom(t *testing.T) {
	r := newRoom()
	var used, most atomic.Int64
	parallel.Each(200, 8, func(_, i int) {
		bytes := int64(i%5) * maxRoom / 4
		free := r.take(bytes)
		now := used.Add(bytes)
		for old := most.Load(); now > old && !most.CompareAndSwap(old, now); old = most.Load() {
		}
		used.Add(-bytes)
		free()
	})
	assert.Equal(t, int64(maxRoom), r.left)
	assert.LessOrEqual(t, most.Load(), int64(maxRoom))
	assert.Equal(t, int64(maxRoom), most.Load(), "all of it was used")
}

// blank is a folder of pictures of 16 bits without anything on them, and a catalogue that
// names all.
func blank(t testing.TB, n, w, h int) (dir string, cat *model.Catalogue) {
	dir, cat = t.TempDir(), &model.Catalogue{}
	lines := make([]byte, h*(1+8*w))
	sheet := &cell.Sheet{File: "a.xlsx"}
	for i := range n {
		name := fmt.Sprintf("%d.png", i)
		data := rawPNG(t, w, h, 16, 6, 0, lines, pngChunk("tEXt", []byte(name)))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), data, 0o644))
		at := cell.Place{Sheet: sheet, Pos: cell.Pos{Row: int32(2 + i), Col: 1}}
		cat.Platforms = append(cat.Platforms, &model.Platform{Picture: model.Picture{Name: name, At: at}})
	}
	return dir, cat
}

func publish(t testing.TB, dir string, cat *model.Catalogue) {
	set, err := Load(t.Context(), cat, Options{Folder: func(string) string { return dir }, Workers: 8}, func(f *Fault) { t.Error(f.Message) })
	require.NoError(t, err)
	for _, p := range set.All() {
		require.NoError(t, p.Write(func(File, []byte) error { return nil }))
	}
}

// Large pictures take little memory, however many workers look at them.
func TestManyLargePictures(t *testing.T) {
	dir, cat := blank(t, 8, 2_000, 1_500)
	peak := yardstick.PeakOf(func() { publish(t, dir, cat) })
	assert.Less(t, peak, float64(23<<20), "one of them, unpacked whole, takes as much")
}

// BenchmarkPictures looks at eight pictures of 30 million pixels at 16 bits and draws them.
func BenchmarkPictures(b *testing.B) {
	dir, cat := blank(b, 8, 6_000, 5_000)
	peak, before := 0.0, yardstick.ProcessorTime()
	for b.Loop() {
		peak = max(peak, yardstick.PeakOf(func() { publish(b, dir, cat) }))
	}
	b.ReportMetric(peak/(1<<20), "peak-MiB")
	b.ReportMetric((yardstick.ProcessorTime()-before).Seconds()/float64(b.N), "cpu-s")
}

// headJPEG is the head of a JPEG, with as many scans as are asked for.
func headJPEG(t *testing.T, frame byte, w, h uint16, scans int) []byte {
	data := jpegOf(t, image.NewRGBA(image.Rect(0, 0, 16, 16)))
	at := bytes.Index(data, []byte{0xff, 0xc0})
	require.Positive(t, at)
	data[at+1] = frame
	binary.BigEndian.PutUint16(data[at+5:], h)
	binary.BigEndian.PutUint16(data[at+7:], w)
	scan := bytes.Index(data, []byte{0xff, 0xda})
	for range scans - 1 {
		data = append(data, data[scan:scan+14]...)
	}
	return data
}

// A picture that would take too much by itself is told with what to do.
func TestTooMuchMemory(t *testing.T) {
	dir := t.TempDir()
	wide := make([]byte, 5_000*1)
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"slow.jpg":  {headJPEG(t, 0xc2, 6_000, 5_000, 1), "it has 6000 x 5000 pixels and is stored progressively, so that unpacking it takes 436 MB of memory, and 256 MB are the most"},
		"turns.jpg": {headJPEG(t, 0xc2, 60, 50, 101), "it draws its picture in more than 100 turns"},
		"woven.png": {rawPNG(t, 6_000, 5_000, 16, 6, 1, wide), "it has 6000 x 5000 pixels and is interlaced, so that unpacking it takes 350 MB of memory, and 256 MB are the most"},
		"thin.png":  {rawPNG(t, 1, 29_000_000, 8, 0, 0, wide), "it has 1 x 29000000 pixels, so that unpacking it takes 442 MB of memory, and 256 MB are the most"},
		"many.png":  {bigPNG(t, 6_001, 5_000), "it has 6001 x 5000 pixels, and 30 million are the most"},
	} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), c.data, 0o644))
		p, f := inspect(source{dir, name}, newRoom(), nil)
		assert.Nil(t, p, name)
		require.NotNil(t, f, name)
		assert.Equal(t, fmt.Sprintf("the picture %q cannot be shown: %s", name, c.want), f.Message)
		assert.Equal(t, "save it again with fewer pixels, as a plain PNG or JPEG, or clear the cell", f.Fix)
	}
	_, f := inspect(source{dir, "slow.jpg"}, newRoom(), nil)
	assert.False(t, f.Missing)
	room := newRoom()
	p := &Picture{format: JPEG, room: room}
	u, err := p.measure(headJPEG(t, 0xc0, 6_000, 5_000, 1))
	require.NoError(t, err, "one that is not progressive is unpacked")
	assert.Less(t, u.bytes, int64(maxRoom)/2)
}

package folder

import (
	"fmt"
	"io"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/parallel"
)

// manyFiles is about what 200 platforms are published as: files, and bytes of each.
const (
	manyFiles = 4600
	manyBytes = 27_000
)

// BenchmarkSync tells what it costs that a folder is kept by the disk before it is put in
// place: `write-s` is writing it, `sync-s` syncing it, as Put does and with other numbers of files at
// once, and `put-s` all that Put does with another one, over an earlier output.
func BenchmarkSync(b *testing.B) {
	for _, at := range []int{1, 4, writers} {
		b.Run(fmt.Sprintf("files=%d", at), func(b *testing.B) {
			var write, sync time.Duration
			for b.Loop() {
				h := many(b, filepath.Join(b.TempDir(), "site"), &write)
				start := time.Now()
				parallel.Each(len(h.names), at, func(_, i int) {
					require.NoError(b, h.disk.syncFile(filepath.Join(h.fresh, h.names[i])))
				})
				sync += time.Since(start)
				require.NoError(b, h.Close())
			}
			b.ReportMetric(write.Seconds()/float64(b.N), "write-s")
			b.ReportMetric(sync.Seconds()/float64(b.N), "sync-s")
		})
	}
	b.Run("put", func(b *testing.B) {
		var write, put time.Duration
		dir := filepath.Join(b.TempDir(), "site")
		for b.Loop() {
			h := many(b, dir, &write)
			start := time.Now()
			require.NoError(b, h.Put(b.Context()))
			put += time.Since(start)
			require.NoError(b, h.Close())
		}
		b.ReportMetric(write.Seconds()/float64(b.N), "write-s")
		b.ReportMetric(put.Seconds()/float64(b.N), "put-s")
	})
}

// many holds a folder and writes many files.
func many(b *testing.B, dir string, took *time.Duration) *Held {
	b.Helper()
	h, err := Hold(b.Context(), dir, nil, func() {})
	require.NoError(b, err)
	page := make([]byte, manyBytes)
	start := time.Now()
	for i := range manyFiles {
		require.NoError(b, h.File(fmt.Sprintf("public/parts/%d/%d.html", i%2, i), func(w io.Writer) error {
			_, err := w.Write(page)
			return err
		}))
	}
	*took += time.Since(start)
	return h
}

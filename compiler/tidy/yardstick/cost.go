package yardstick

import (
	"bufio"
	"io"
	"runtime"
	"runtime/metrics"
	"slices"
	"sync/atomic"
	"testing"
	"time"

	"github.com/klauspost/compress/flate"
	"github.com/klauspost/compress/zip"
	"github.com/stretchr/testify/require"
)

// InflateAndScan is the reference F: it inflates parts of a workbook, or all where none is
// named, on one goroutine and counts cells byte by byte.
func InflateAndScan(tb testing.TB, name string, parts ...string) (cells int) {
	z, err := zip.OpenReader(name)
	require.NoError(tb, err)
	defer z.Close()
	buf := make([]byte, 1<<16)
	for _, f := range z.File {
		if len(parts) > 0 && !slices.Contains(parts, f.Name) {
			continue
		}
		raw, err := f.OpenRaw()
		require.NoError(tb, err)
		r := flate.NewReader(bufio.NewReaderSize(raw, 1<<15))
		last := byte(0)
		for {
			n, err := r.Read(buf)
			for _, c := range buf[:n] {
				if c == 'c' && last == '<' {
					cells++
				}
				last = c
			}
			if err == io.EOF {
				break
			}
			require.NoError(tb, err)
		}
	}
	return cells
}

// Least keeps the least time of each of several things.
type Least map[string]time.Duration

// Keep takes note of a time.
func (l Least) Keep(name string, t time.Duration) {
	if old, ok := l[name]; !ok || t < old {
		l[name] = t
	}
}

// InUse is the memory in use once what nobody holds is gone.
func InUse() uint64 {
	runtime.GC()
	var now runtime.MemStats
	runtime.ReadMemStats(&now)
	return now.HeapInuse + now.StackInuse
}

// PeakOf tells by how many bytes memory in use grows at most, seen every millisecond.
func PeakOf(do func()) float64 {
	before, peak := InUse(), atomic.Uint64{}
	stop, stopped := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(stopped)
		now := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}, {Name: "/memory/classes/heap/unused:bytes"},
			{Name: "/memory/classes/heap/stacks:bytes"}} // what InUse adds up, read without stopping the program
		for {
			metrics.Read(now)
			peak.Store(max(peak.Load(), now[0].Value.Uint64()+now[1].Value.Uint64()+now[2].Value.Uint64()))
			select {
			case <-stop:
				return
			case <-time.After(time.Millisecond):
			}
		}
	}()
	do()
	close(stop)
	<-stopped
	return float64(peak.Load()) - float64(min(peak.Load(), before))
}

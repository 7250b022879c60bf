//go:build unix

package yardstick

import (
	"bufio"
	"io"
	"runtime"
	"syscall"
	"testing"
	"time"

	"github.com/klauspost/compress/flate"
	"github.com/klauspost/compress/zip"
	"github.com/stretchr/testify/require"
)

// InflateAndScan is the reference F: it inflates a workbook's parts on one goroutine and
// counts cells byte by byte.
func InflateAndScan(tb testing.TB, name string) (cells int) {
	z, err := zip.OpenReader(name)
	require.NoError(tb, err)
	defer z.Close()
	buf := make([]byte, 1<<16)
	for _, f := range z.File {
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

// ProcessorTime is what the process has used so far.
func ProcessorTime() time.Duration {
	var use syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &use); err != nil {
		panic("getrusage: " + err.Error())
	}
	return time.Duration(use.Utime.Nano() + use.Stime.Nano())
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

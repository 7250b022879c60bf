package sheets_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/sheets"
	"ferrule/sheets/guard"
)

// manyRows is a workbook whose sheet is long enough for several goroutines.
func manyRows(t *testing.T) []byte {
	var b strings.Builder
	for i := 1; i <= 30_000; i++ {
		fmt.Fprintf(&b, `<row r="%d"><c r="A%d"><v>%d</v></c></row>`, i, i, i)
	}
	return rows(b.String()).pack(t, zip.Store)
}

// planted panics once it is armed and the last bytes of the sheet are asked for.
type planted struct {
	io.ReaderAt
	armed bool
	from  int64
}

func (p *planted) ReadAt(b []byte, at int64) (int, error) {
	if p.armed && at >= p.from {
		panic("planted")
	}
	return p.ReaderAt.ReadAt(b, at)
}

func faultOf(t *testing.T, do func()) (f *guard.Fault) {
	t.Helper()
	defer func() {
		var ok bool
		f, ok = recover().(*guard.Fault)
		require.True(t, ok, "nothing was thrown that a command line could tell")
	}()
	do()
	return nil
}

// A panic of whoever fills blocks or scans them comes to the caller, with its stack and the
// name of what was read.
func TestPanicInWorkers(t *testing.T) {
	data := manyRows(t)
	r := &planted{ReaderAt: bytes.NewReader(data), from: int64(len(data)) / 2}
	book, err := sheets.Read(r, int64(len(data)))
	require.NoError(t, err)
	book.Workers, r.armed = 3, true
	f := faultOf(t, func() { _, _ = book.Rows(0, func(*sheets.Row) error { return nil }) })
	assert.Equal(t, "planted", f.Cause)
	assert.Contains(t, string(f.Stack), "(*pipeline).fill")
	require.Len(t, f.About, 1)
	assert.Contains(t, f.About[0], `reading the sheet "Fitment"`)

	r.armed = false
	f = faultOf(t, func() { _ = book.WithoutBook(0, sheets.Pace{Block: 1 << 10, Workers: 3}) })
	assert.Contains(t, fmt.Sprint(f.Cause), "nil pointer")
	assert.Contains(t, string(f.Stack), "(*pipeline).scan")
}

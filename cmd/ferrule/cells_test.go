package main

import (
	"bytes"
	"context"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/cmd/ferrule/cli"
	"ferrule/compiler/tidy/share"
)

// cells runs the command on one workbook.
func cells(name string) (status int, stdout, stderr string) {
	var out, err bytes.Buffer
	status = cli.Run(context.Background(), []string{"cells", name}, &out, &err)
	return status, out.String(), err.String()
}

// TestCellsOfDamagedBooks damages a sample: the same lines are printed, or none and the
// reason. No part of a workbook passes for the whole.
func TestCellsOfDamagedBooks(t *testing.T) {
	const sample = "../../testdata/faulty/vehicles.xlsx"
	whole, err := os.ReadFile(sample)
	require.NoError(t, err)
	status, good, _ := cells(sample)
	require.Zero(t, status)
	name := filepath.Join(t.TempDir(), "damaged.xlsx")
	random := rand.New(rand.NewPCG(4, 6))
	refused, tries := 0, share.Of(t, 600)
	for i := range tries {
		bad := bytes.Clone(whole)
		if i%6 == 0 {
			bad = bad[:random.IntN(len(bad))]
		} else {
			bad[random.IntN(len(bad))] ^= byte(1 + random.IntN(255))
		}
		require.NoError(t, os.WriteFile(name, bad, 0o600))
		status, stdout, stderr := cells(name)
		if status == 0 {
			require.Equal(t, good, stdout)
			require.Empty(t, stderr)
			continue
		}
		refused++
		require.Equal(t, 2, status)
		require.Empty(t, stdout)
		require.Regexp(t, `^ferrule: .*damaged\.xlsx cannot be read whole: .+\n$`, stderr)
	}
	assert.Greater(t, refused, tries/2)
}

// TestCellsOfHostileBooks wants all of a workbook or nothing, and one line for a cell.
func TestCellsOfHostileBooks(t *testing.T) {
	books, err := filepath.Glob("../../testdata/hostile/*.xls*")
	require.NoError(t, err)
	require.NotEmpty(t, books)
	for _, name := range books {
		status, stdout, stderr := cells(name)
		if status != 0 {
			assert.Equal(t, 2, status, name)
			assert.Empty(t, stdout, name)
			assert.Regexp(t, `^ferrule: .* cannot be read whole: .+\n$`, stderr)
			continue
		}
		assert.Empty(t, stderr, name)
		for line := range strings.Lines(stdout) {
			require.Regexp(t, `^[^\t]+\t[A-Z]{1,3}[1-9]\d*\t(text|number|date|bool|error|blank)\t[^\t\r]*\t[^\t\r]*\n$`, line, name)
		}
	}
}

// TestCellsOdd prints what the notation of scripts cannot say.
func TestCellsOdd(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	clock := "hh:mm"
	for at, v := range map[string]any{
		"A1": "a\rb\r\nc", "B1": `\t`, "D1": 1e-7, "E1": 1e-9, "F1": 1e22, "G1": 123456789012345680,
		"XFD2": "last column", "A3": 45293.75, "B3": 0.5, "C3": "_x000D_", "A5": 5e-324,
	} {
		require.NoError(t, f.SetCellValue("Sheet1", at, v))
	}
	// Spreadsheet programs store 17 digits; excelize writes 15 of its own accord.
	require.NoError(t, f.SetCellDefault("Sheet1", "C1", "3.0000000000000004E-1"))
	for at, style := range map[string]*excelize.Style{"A3": {NumFmt: 22}, "B3": {CustomNumFmt: &clock}} {
		id, err := f.NewStyle(style)
		require.NoError(t, err)
		require.NoError(t, f.SetCellStyle("Sheet1", at, at, id))
	}
	name := filepath.Join(t.TempDir(), "odd.xlsx")
	require.NoError(t, f.SaveAs(name))
	status, stdout, stderr := cells(name)
	require.Zero(t, status, stderr)
	assert.Equal(t, strings.Join([]string{
		"Sheet1\tA1\ttext\ta\\rb\\r\\nc\t",
		"Sheet1\tB1\ttext\t\\\\t\t",
		"Sheet1\tC1\tnumber\t0.30000000000000004\t",
		"Sheet1\tD1\tnumber\t0.0000001\t",
		"Sheet1\tE1\tnumber\t1e-09\t",
		"Sheet1\tF1\tnumber\t1e+22\t",
		"Sheet1\tG1\tnumber\t123456789012345680\t",
		"Sheet1\tXFD2\ttext\tlast column\t",
		"Sheet1\tA3\tdate\t2024-01-02T18:00:00\t",
		"Sheet1\tB3\tdate\t12:00:00\t",
		"Sheet1\tC3\ttext\t\\r\t",
		"Sheet1\tA5\tnumber\t5e-324\t",
		"",
	}, "\n"), stdout)
}

// full is a stream that takes so many bytes and no more.
type full struct{ left int }

func (f *full) Write(p []byte) (int, error) {
	n := min(len(p), f.left)
	if f.left -= n; n < len(p) {
		return n, syscall.ENOSPC
	}
	return n, nil
}

func TestCellsThatCannotBeWritten(t *testing.T) {
	const sample = "../../testdata/demo/fitment.xlsx"
	_, stdout, _ := cells(sample)
	for _, room := range []int{0, len(stdout) / 2, len(stdout) - 1} {
		var stderr bytes.Buffer
		assert.Equal(t, 2, cli.Run(context.Background(), []string{"cells", sample}, &full{room}, &stderr))
		assert.Equal(t, "ferrule: the cells could not be written: no space left on device\n", stderr.String())
	}
}

func TestCellsCanBeStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	var stdout, stderr bytes.Buffer
	assert.Equal(t, 2, cli.Run(ctx, []string{"cells", "../../testdata/demo/fitment.xlsx"}, &stdout, &stderr))
	assert.Empty(t, stdout.String())
	assert.Equal(t, "ferrule: stopped\n", stderr.String())
}

package yardstick_test

import (
	"archive/zip"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy/yardstick"
)

// TestInflateAndScan holds that the reference counts the cells of the parts that are
// named, and of all where none is.
func TestInflateAndScan(t *testing.T) {
	name := filepath.Join(t.TempDir(), "book.zip")
	f, err := os.Create(name)
	require.NoError(t, err)
	defer f.Close()
	z := zip.NewWriter(f)
	for _, part := range []struct{ name, text string }{{"one.xml", "<row><c/><c/></row>"}, {"two.xml", "<row><c/></row>"}} {
		w, err := z.Create(part.name)
		require.NoError(t, err)
		_, err = w.Write([]byte(part.text))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	assert.Equal(t, 3, yardstick.InflateAndScan(t, name))
	assert.Equal(t, 2, yardstick.InflateAndScan(t, name, "one.xml"))
	assert.Equal(t, 3, yardstick.InflateAndScan(t, name, "two.xml", "one.xml"))
	assert.Equal(t, 0, yardstick.InflateAndScan(t, name, "three.xml"))
}

package watch_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/watch"
	"ferrule/sheets/guard"
)

func write(t *testing.T, path, text string) {
	t.Helper()
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
}

// Each way in which a catalogue's files change makes a look differ from the one before.
func TestLookSeesChanges(t *testing.T) {
	dir := t.TempDir()
	book := filepath.Join(dir, "fitment.xlsx")
	write(t, book, "one")
	day := time.Date(2026, 6, 1, 8, 0, 0, 0, time.UTC)
	require.NoError(t, os.Chtimes(book, day, day))
	last := watch.At([]string{dir})
	require.Len(t, last, 1)
	assert.True(t, last.Equal(watch.At([]string{dir})), "nothing has changed")
	for _, step := range []struct {
		name string
		do   func()
	}{
		{"a size", func() { write(t, book, "longer"); require.NoError(t, os.Chtimes(book, day, day)) }},
		{"a time", func() { require.NoError(t, os.Chtimes(book, day, day.Add(time.Nanosecond*1000))) }},
		{"a name", func() { require.NoError(t, os.Rename(book, filepath.Join(dir, "parts.xlsx"))) }},
		{"a file more", func() { write(t, book, "one") }},
		{"a file less", func() { require.NoError(t, os.Remove(book)) }},
		{"a folder of pictures", func() { require.NoError(t, os.Mkdir(filepath.Join(dir, "pictures"), 0o700)) }},
	} {
		step.do()
		now := watch.At([]string{dir})
		assert.False(t, last.Equal(now), step.name)
		last = now
	}
}

// What spreadsheet programs write beside a workbook while it is open is none of the catalogue.
func TestLookPassesOver(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "fitment.xlsx"), "one")
	before := watch.At([]string{dir})
	for _, name := range []string{"~$fitment.xlsx", ".~lock.fitment.xlsx#", "lu1.tmp", "notes.txt"} {
		write(t, filepath.Join(dir, name), "one")
		assert.True(t, before.Equal(watch.At([]string{dir})), name)
	}
	assert.Empty(t, watch.At([]string{filepath.Join(dir, "gone")}), "what is not there is there again later")
	assert.Equal(t, before, watch.At([]string{filepath.Join(dir, "fitment.xlsx")}), "a workbook by its own name")
}

func TestAway(t *testing.T) {
	look := watch.Look{{Path: "a.xlsx"}, {Path: "b.xlsx", Away: true}}
	assert.Equal(t, []string{"b.xlsx"}, look.Away())
	assert.False(t, look.Equal(watch.Look{{Path: "a.xlsx"}, {Path: "b.xlsx"}}), "a file that has come here is a change")
}

// The first look comes at once, one after each change, and none after the end.
func TestChanges(t *testing.T) {
	dir := t.TempDir()
	book := filepath.Join(dir, "fitment.xlsx")
	write(t, book, "1")
	looks := make(chan watch.Look)
	ctx, cancel := context.WithCancel(t.Context())
	group := guard.NewGroup()
	group.Go(func() {
		defer close(looks)
		watch.Changes(ctx, []string{dir}, func(l watch.Look) {
			select {
			case looks <- l:
			case <-ctx.Done():
			}
		})
	})
	last := <-looks
	require.Len(t, last, 1)
	for size := int64(2); size < 6; size++ {
		write(t, filepath.Join(dir, "lu1.tmp"), "123456"[:size])
		require.NoError(t, os.Rename(filepath.Join(dir, "lu1.tmp"), book))
		now := <-looks
		assert.False(t, last.Equal(now), "told without a change")
		assert.Equal(t, size, now[0].Size)
		last = now
	}
	cancel()
	group.Wait()
	_, more := <-looks
	assert.False(t, more)
}

package folder

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/folder/found"
)

// at does something before the first step of a name.
func at(name string, do func()) disk {
	done := false
	return disk{before: func(step, _ string) error {
		if step == name && !done {
			done = true
			do()
		}
		return nil
	}}
}

// refused publishes over an earlier output, which stays as it is, with nothing beside it.
func refused(t *testing.T, dir string, d disk) error {
	t.Helper()
	err := put(context.Background(), d, dir, "later")
	require.Error(t, err)
	for _, name := range pages() {
		assert.Equal(t, "new", found.Files(t, dir)[name], name)
	}
	found.Alone(t, dir)
	return err
}

// TestForeignFileComesMeanwhile puts a file into the folder while it is replaced: it is told,
// and stays, even where it came after the last look.
func TestForeignFileComesMeanwhile(t *testing.T) {
	for step, does := range map[string]string{stepCreate: doMove, stepSyncFile: doMove, stepExchange: doAgain} {
		dir := filepath.Join(t.TempDir(), "site")
		require.NoError(t, publish(t, dir))
		notes := filepath.Join(dir, "staff", "notes.txt")
		err := refused(t, dir, at(step, func() { write(t, notes, "mine") }))
		assert.EqualError(t, err, dir+" is not replaced: it holds staff/notes.txt, which was not written by the build; "+
			does)
		assert.Equal(t, "mine", found.Files(t, dir)["staff/notes.txt"])
	}
}

// TestForeignFileComesLast puts a file into the old folder after everything was looked at. The
// new one stands; nothing is removed but what the build wrote, and the next build says so too.
func TestForeignFileComesLast(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	require.NoError(t, publish(t, dir))
	var old string
	d := disk{before: func(step, path string) error {
		if step == stepRemove && old == "" {
			old = filepath.Dir(filepath.Dir(filepath.Dir(path)))
			write(t, filepath.Join(old, "staff", "notes.txt"), "mine")
		}
		return nil
	}}
	err := put(context.Background(), d, dir, "later")
	require.ErrorContains(t, err, "the new output stands, yet the old one could not be removed")
	assert.Equal(t, "later", found.Files(t, dir)["public/index.html"])
	assert.ErrorContains(t, err, old)
	assert.Equal(t, "mine", found.Files(t, old)["staff/notes.txt"])
	err = publish(t, dir)
	require.ErrorContains(t, err, old+" is not replaced: it holds staff/notes.txt, which was not written by the build; move that away")
	assert.Equal(t, "later", found.Files(t, dir)["public/index.html"])
	require.NoError(t, os.Remove(filepath.Join(old, "staff", "notes.txt")))
	require.NoError(t, publish(t, dir))
	found.Alone(t, dir)
}

// TestSomethingStandsThereMeanwhile puts something in the place of a folder that did not exist.
func TestSomethingStandsThereMeanwhile(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	err := put(context.Background(), at(stepRename, func() { write(t, filepath.Join(dir, "notes.txt"), "mine") }), dir, "new")
	require.Error(t, err)
	assert.Contains(t, err.Error(), dir)
	assert.Equal(t, map[string]string{"notes.txt": "mine"}, found.Files(t, dir))
	found.Alone(t, dir)
}

var errDisk = errors.New("the disk is broken")

// TestEachStepFails lets each step fail in turn. What stands is whole: the old folder, or the
// new one where the error says so; and the next build leaves nothing beside it.
func TestEachStepFails(t *testing.T) {
	for _, renames := range []bool{false, true} {
		for n, over := 1, false; !over; n++ {
			dir := filepath.Join(t.TempDir(), "site")
			require.NoError(t, publish(t, dir))
			err, failed := failing(dir, n, renames)
			over = !failed
			require.Equal(t, failed, err != nil, "step %d: %v", n, err)
			stands := "new"
			if err == nil || errors.Is(err, errDisk) && assertStands(t, dir, err) {
				stands = "later"
			}
			for _, name := range pages() {
				require.Equal(t, stands, found.Files(t, dir)[name], "step %d: %v", n, err)
			}
			require.NoError(t, publish(t, dir))
			found.Alone(t, dir)
		}
	}
}

// assertStands tells whether the new folder stands, and wants the error to say so.
func assertStands(t *testing.T, dir string, err error) bool {
	t.Helper()
	stands := found.Files(t, dir)["public/index.html"] == "later"
	if stands {
		assert.ErrorContains(t, err, "the new output stands")
	} else {
		found.Alone(t, dir)
	}
	return stands
}

// failing publishes where the n-th step fails; failed is false where there are not so many.
func failing(dir string, n int, renames bool) (err error, failed bool) {
	seen := make(chan int, 1)
	seen <- 0
	d := disk{before: func(step, _ string) error {
		if renames && step == stepExchange {
			return errors.ErrUnsupported
		}
		now := <-seen + 1
		seen <- now
		if now == n {
			return errDisk
		}
		return nil
	}}
	err = put(context.Background(), d, dir, "later")
	return err, <-seen >= n
}

// TestFailedRenameMovesBack lets the second of the renames fail.
func TestFailedRenameMovesBack(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	require.NoError(t, publish(t, dir))
	renames := 0
	err := refused(t, dir, disk{before: func(step, _ string) error {
		switch step {
		case stepExchange:
			return errors.ErrUnsupported
		case stepRename:
			if renames++; renames == 2 {
				return errDisk
			}
		}
		return nil
	}})
	assert.ErrorIs(t, err, errDisk)
}

// TestRenamesWhereNothingExchanges publishes by renames over an earlier output.
func TestRenamesWhereNothingExchanges(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	require.NoError(t, publish(t, dir))
	d := disk{before: func(step, _ string) error {
		if step == stepExchange {
			return errors.ErrUnsupported
		}
		return nil
	}}
	require.NoError(t, put(context.Background(), d, dir, "later"))
	for _, name := range pages() {
		assert.Equal(t, "later", found.Files(t, dir)[name])
	}
	found.Alone(t, dir)
}

// TestNothingIsMadeForNothing holds a folder below others that do not exist, and lets go.
func TestNothingIsMadeForNothing(t *testing.T) {
	root := t.TempDir()
	h, err := Hold(t.Context(), filepath.Join(root, "a", "b", "site"), nil, func() {})
	require.NoError(t, err)
	require.DirExists(t, filepath.Join(root, "a", "b"))
	require.NoError(t, h.Close())
	entries, err := os.ReadDir(root)
	require.NoError(t, err)
	assert.Empty(t, entries)
}

// TestStopped ends the context before each step up to the exchange: nothing is changed.
func TestStopped(t *testing.T) {
	for _, step := range []string{stepSyncFile, stepSyncFolder} {
		dir := filepath.Join(t.TempDir(), "site")
		require.NoError(t, publish(t, dir))
		ctx, stop := context.WithCancel(context.Background())
		h, err := hold(ctx, disk{}, dir, nil, func() {})
		require.NoError(t, err)
		h.disk = at(step, stop)
		require.ErrorIs(t, h.Put(ctx), context.Canceled)
		require.NoError(t, h.Close())
		assert.Equal(t, "new", found.Files(t, dir)["public/index.html"])
		found.Alone(t, dir)
	}
}

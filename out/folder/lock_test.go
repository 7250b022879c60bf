package folder

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/folder/found"
)

// TestSecondWaits holds a folder twice: the second is told that it waits, and has it once the
// first has let go.
func TestSecondWaits(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	first, err := Hold(t.Context(), dir, nil, func() { t.Error("nobody else") })
	require.NoError(t, err)
	waits, second := make(chan bool), make(chan *Held)
	go func() {
		h, err := Hold(t.Context(), dir, nil, func() { close(waits) })
		assert.NoError(t, err)
		second <- h
	}()
	<-waits
	select {
	case <-second:
		t.Error("two have it")
	default:
	}
	require.NoError(t, first.Put(t.Context()))
	require.NoError(t, first.Close())
	h := <-second
	require.NoError(t, h.Put(t.Context()))
	require.NoError(t, h.Close())
	found.Alone(t, dir)
}

// TestWaitingEnds stops one that waits; the one that holds the folder goes on.
func TestWaitingEnds(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	first, err := Hold(t.Context(), dir, nil, func() {})
	require.NoError(t, err)
	ctx, stop := context.WithCancel(t.Context())
	_, err = Hold(ctx, dir, nil, stop)
	require.ErrorIs(t, err, context.Canceled)
	require.NoError(t, first.Put(t.Context()))
	require.NoError(t, first.Close())
}

// TestForeignFilesBeside puts files of others where a build has its own. Nothing of them is
// changed, and no name that a lock's file gives leads elsewhere.
func TestForeignFilesBeside(t *testing.T) {
	for _, text := range []string{"mine", "mine\n", journalHead + "\nnew ../precious\n", journalHead + "\nnew precious\n",
		journalHead + "\nnew .site.ferrule-new-1/../precious\n", journalHead + "\nnonsense\n"} {
		root := t.TempDir()
		kept := write(t, filepath.Join(root, "precious", "x"), "x")
		lock := write(t, filepath.Join(root, ".site.ferrule-lock"), text)
		err := publish(t, filepath.Join(root, "site"))
		require.ErrorContains(t, err, lock, text)
		assert.FileExists(t, kept)
		assert.Equal(t, text, found.Files(t, root)[".site.ferrule-lock"])
	}
	root := t.TempDir()
	require.NoError(t, os.Symlink(filepath.Join(root, "elsewhere"), filepath.Join(root, ".site.ferrule-lock")))
	require.ErrorContains(t, publish(t, filepath.Join(root, "site")), "is in the way")
	assert.NoFileExists(t, filepath.Join(root, "elsewhere"))
}

// TestWhatLooksLikeOurs puts folders beside whose names a build might give, and which no
// journal names: they stay.
func TestWhatLooksLikeOurs(t *testing.T) {
	root := t.TempDir()
	kept := write(t, filepath.Join(root, ".site.ferrule-new-1", markerName), markerHead+"\n")
	write(t, filepath.Join(root, ".site.ferrule-lock"), journalHead[:10])
	require.NoError(t, publish(t, filepath.Join(root, "site")))
	assert.FileExists(t, kept)
	assert.NoFileExists(t, filepath.Join(root, ".site.ferrule-lock"))
}

package folder

import (
	"context"
	"errors"
	"path/filepath"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestOrder publishes over an earlier output and looks at what came before what: all files and
// folders are kept by the disk before the folders change places, and so is the journal's line;
// that they did is kept before anything of the old folder is removed.
func TestOrder(t *testing.T) {
	for _, renames := range []bool{false, true} {
		dir := filepath.Join(t.TempDir(), "site")
		require.NoError(t, publish(t, dir))
		steps := record(t, dir, renames)
		swapped, notes := stepExchange, 2
		if renames {
			swapped, notes = stepRename, 3
		}
		swap := slices.IndexFunc(steps, func(s taken) bool { return s.step == swapped })
		removal := slices.IndexFunc(steps, func(s taken) bool { return s.step == stepRemove })
		require.Positive(t, swap)
		require.Less(t, swap, removal)
		before, between := steps[:swap], steps[swap:removal]
		made := all(before, stepMkdir)[0] // the new folder
		for _, name := range append(pages(), markerName) {
			assert.Contains(t, all(before, stepSyncFile), filepath.Join(made, name))
		}
		for _, name := range []string{".", "public", "public/guides", "public/parts", "staff"} {
			assert.Contains(t, all(before, stepSyncFolder), filepath.Join(made, name))
		}
		assert.Equal(t, notes, len(all(before, stepNote)), "the journal says what begins")
		assert.Contains(t, between, taken{stepSyncFolder, filepath.Dir(dir)})
	}
}

// taken is a step that was taken.
type taken struct{ step, path string }

func record(t *testing.T, dir string, renames bool) (out []taken) {
	t.Helper()
	var mu sync.Mutex
	err := put(context.Background(), disk{before: func(step, path string) error {
		mu.Lock()
		defer mu.Unlock()
		out = append(out, taken{step, path})
		if renames && step == stepExchange {
			return errors.ErrUnsupported
		}
		return nil
	}}, dir, "later")
	require.NoError(t, err)
	return out
}

// all gives the paths of all steps of a name.
func all(steps []taken, name string) (paths []string) {
	for _, s := range steps {
		if s.step == name {
			paths = append(paths, s.path)
		}
	}
	return paths
}

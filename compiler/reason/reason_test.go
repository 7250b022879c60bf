package reason_test

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/reason"
)

func TestOf(t *testing.T) {
	path := filepath.Join(t.TempDir(), "none")
	_, err := os.Open(path)
	assert.NotContains(t, reason.Of(err).Error(), path)
	assert.ErrorIs(t, reason.Of(err), fs.ErrNotExist)
	assert.Equal(t, reason.Of(err), reason.Of(fmt.Errorf("again: %w", err)), "also where it was wrapped")
	other := errors.New("it is torn")
	assert.Equal(t, other, reason.Of(other))
}

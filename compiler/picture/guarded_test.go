package picture

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/model"
	"ferrule/sheets/cell"
	"ferrule/sheets/guard"
)

// planted is a context that panics when it is asked.
type planted struct{ context.Context }

func (planted) Err() error { panic("planted") }

// naming is a catalogue whose one platform names a picture.
func naming(name string) *model.Catalogue {
	at := cell.Place{Sheet: &cell.Sheet{File: "a.xlsx"}, Pos: cell.Pos{Row: 2, Col: 3}}
	return &model.Catalogue{Platforms: []*model.Platform{{Picture: model.Picture{Name: name, At: at}}}}
}

// A panic of a worker comes to the caller, with its stack and the picture's name.
func TestPanicInWorkers(t *testing.T) {
	defer func() {
		f, ok := recover().(*guard.Fault)
		require.True(t, ok, "nothing was thrown that a command line could tell")
		assert.Equal(t, "planted", f.Cause)
		assert.Equal(t, []string{`looking at the picture "arm.png" of a.xlsx`}, f.About)
		assert.Contains(t, string(f.Stack), "planted")
	}()
	_, _ = Load(planted{t.Context()}, naming("arm.png"), Options{Folder: func(string) string { return t.TempDir() }, Workers: 2}, func(*Fault) {})
}

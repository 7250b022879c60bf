package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/cmd/ferrule/cli"
)

// fits is where a part goes, as where and parts/<part>.json tell it; what one of them alone
// has is left out.
type fits struct {
	Part          string
	Status        string
	Replaces      []string
	References    any
	Kits          any
	Contents      any
	Fits          []map[string]any
	Compatibility []map[string]any
}

func (f *fits) withoutGuides() {
	for _, list := range [][]map[string]any{f.Fits, f.Compatibility} {
		for _, one := range list {
			delete(one, "guide")
		}
	}
}

// TestWhereSaysWhatIsPublished holds the answer for every number of the demo against the file of
// its part, and every other number against the part that it stands for.
func TestWhereSaysWhatIsPublished(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	t.Chdir("../../testdata")
	var out, told bytes.Buffer
	require.Zero(t, cli.Run(context.Background(), []string{"build", "demo", "-o", dir, "--today", today}, &out, &told), told.String())
	files, err := filepath.Glob(filepath.Join(dir, "public", "parts", "*.json"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	args := []string{"where", "demo"}
	published := map[string]fits{}
	stands := map[string]string{}
	for _, name := range files {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		var f fits
		require.NoError(t, json.Unmarshal(text, &f))
		f.withoutGuides()
		published[f.Part] = f
		args = append(args, f.Part)
		others, _ := f.References.([]any)
		for _, o := range others {
			number := o.(map[string]any)["number"].(string)
			args, stands[number] = append(args, number), f.Part
		}
	}
	require.NotEmpty(t, stands)
	out.Reset()
	require.Zero(t, cli.Run(context.Background(), append(args, "--format", "json"), &out, &told), told.String())
	var answer struct {
		Numbers []struct {
			Number     string
			References []struct{ Part string }
		}
		Parts []fits
	}
	require.NoError(t, json.Unmarshal(out.Bytes(), &answer))
	assert.Len(t, answer.Parts, len(published))
	for _, f := range answer.Parts {
		assert.Equal(t, published[f.Part], f, f.Part)
	}
	for _, n := range answer.Numbers {
		if part := stands[n.Number]; assert.True(t, part != "" || published[n.Number].Part != "", n.Number) && part != "" {
			require.Len(t, n.References, 1)
			assert.Equal(t, part, n.References[0].Part)
		}
	}
}

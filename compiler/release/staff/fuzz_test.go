package staff_test

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/model"
	"ferrule/compiler/release/staff"
)

// FuzzRead holds that no folder makes reading panic, and that a catalogue which was read is
// written, read again and written as the same: nothing of it is made up or half known.
func FuzzRead(f *testing.F) {
	whole := writtenFolder(f)
	first := filesOfGuides(whole["catalogue.json"].Data)[0]
	f.Add(whole["catalogue.json"].Data, whole["findings.json"].Data, whole["sheets.json"].Data, whole[first].Data)
	f.Add([]byte(`{}`), []byte(`{}`), []byte(`{}`), []byte(`{}`))
	f.Add([]byte(`{"platforms":[{"name":"H7","years":[2001,1999]}],"guides":[{"platform":"H7","file":"../a"}]}`), []byte(`null`), []byte(`[]`), []byte(`5`))
	f.Fuzz(func(t *testing.T, catalogue, findings, sheets, guide []byte) {
		folder := maps.Clone(whole)
		for name, data := range map[string][]byte{"catalogue.json": catalogue, "findings.json": findings, "sheets.json": sheets, first: guide} {
			folder[name] = &fstest.MapFile{Data: data}
		}
		holdsRead(t, folder)
	})
}

// FuzzFields puts any value in the place of any other in what a build wrote, which changed
// bytes hardly ever do.
func FuzzFields(f *testing.F) {
	whole := writtenFolder(f)
	names := slices.Sorted(maps.Keys(whole))
	for i, value := range []string{`null`, `-1`, `"x"`, `[]`, `{}`, `1e99`, `99999999999999999999`, `"1/0"`, `[null]`, `"2999-99-99"`, `true`} {
		f.Add(uint8(i), uint16(i*37), value)
	}
	f.Fuzz(func(t *testing.T, file uint8, at uint16, value string) {
		var instead, all any
		if json.Unmarshal([]byte(value), &instead) != nil {
			instead = value
		}
		name := names[int(file)%len(names)]
		require.NoError(t, json.Unmarshal(whole[name].Data, &all))
		n := int(at) % count(all)
		changed, err := json.Marshal(replaced(all, &n, instead))
		require.NoError(t, err)
		folder := maps.Clone(whole)
		folder[name] = &fstest.MapFile{Data: changed}
		holdsRead(t, folder)
	})
}

// count counts the values in a value, itself included.
func count(v any) int {
	n := 1
	switch v := v.(type) {
	case []any:
		for _, e := range v {
			n += count(e)
		}
	case map[string]any:
		for _, e := range v {
			n += count(e)
		}
	}
	return n
}

// replaced gives a value with the nth value in it replaced.
func replaced(v any, n *int, instead any) any {
	if *n--; *n < 0 {
		if *n == -1 {
			return instead
		}
		return v
	}
	switch v := v.(type) {
	case []any:
		for i := range v {
			v[i] = replaced(v[i], n, instead)
		}
	case map[string]any:
		for _, key := range slices.Sorted(maps.Keys(v)) {
			v[key] = replaced(v[key], n, instead)
		}
	}
	return v
}

// holdsRead reads a folder, and where that can be done writes its catalogue twice over.
func holdsRead(t *testing.T, folder fstest.MapFS) {
	t.Helper()
	got, err := staff.Read(folder)
	if err != nil {
		require.NotEmpty(t, err.Error())
		return
	}
	require.Len(t, got.Guides, len(got.Catalogue.Platforms))
	for _, found := range got.Findings {
		require.NotEmpty(t, found.Fingerprint())
	}
	once := rewritten(t, got.Catalogue, folder["catalogue.json"].Data)
	folder["catalogue.json"] = &fstest.MapFile{Data: once}
	again, err := staff.Read(folder)
	require.NoError(t, err, "what was read is written and does not read")
	require.Equal(t, string(once), string(rewritten(t, again.Catalogue, once)))
}

// rewritten writes a catalogue, whose guides stay in the files that another text names.
func rewritten(t *testing.T, c *model.Catalogue, as []byte) []byte {
	t.Helper()
	files := filesOfGuides(as)
	file := map[*model.Platform]string{}
	for i, p := range c.Platforms {
		file[p] = files[i]
	}
	var out bytes.Buffer
	require.NoError(t, staff.Catalogue(&out, c, func(p *model.Platform) string { return file[p] }))
	return out.Bytes()
}

func filesOfGuides(catalogue []byte) []string {
	var list struct {
		Guides []struct{ File string }
	}
	if json.Unmarshal(catalogue, &list) != nil {
		return nil
	}
	var out []string
	for _, g := range list.Guides {
		out = append(out, g.File)
	}
	return out
}

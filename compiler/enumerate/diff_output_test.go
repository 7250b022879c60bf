package enumerate

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/cmd/ferrule/cli"
	"ferrule/schema"
)

// diffOutput is what `ferrule diff --format json` prints.
type diffOutput struct {
	Old, New json.RawMessage
	Summary  map[string]diffSum
	Renames  []struct{ What, Trait, Old, New, Why string }
	Splits   []struct{ Platform, Trait, In string }
	Vehicles []struct {
		Kind, Platform string
		Whole          bool
		diffRegion
	}
	Changes   []diffChange
	Irregular []json.RawMessage
}

type diffSum struct {
	Entries, Accepted, Configurations int
	OnTheRoad                         float64 `json:"on_the_road"`
}

type diffRegion struct {
	Configurations int
	OnTheRoad      float64 `json:"on_the_road"`
	Where          []box
	Rest           int
	Example        example
}

type diffChange struct {
	Kind, Platform, Position string
	diffRegion
	Old, New diffAnswer
	Accepted *acceptance
}

type diffAnswer struct {
	Outcome      string
	Settled      *bool
	Alternatives [][]diffItem
	With         string
	Cells        []ref
	More         int
}

type diffItem struct {
	Part     string
	Quantity int
	Holds    []diffItem
}

// diffText runs diff and gives what it prints, which meets its schema.
func diffText(t testing.TB, old, new string) []byte {
	t.Helper()
	var stdout, stderr bytes.Buffer
	args := []string{"diff", old, new, "--format", "json", "--today", "2027-03-01", "--fail-on", "never"}
	require.Zero(t, cli.Run(context.Background(), args, &stdout, &stderr), "%s", stderr.String())
	require.NoError(t, schema.ValidatePublished("diff.schema.json", stdout.Bytes()))
	return stdout.Bytes()
}

func diffOf(t testing.TB, old, new string) *diffOutput {
	t.Helper()
	return parseDiff(t, diffText(t, old, new))
}

func parseDiff(t testing.TB, text []byte) *diffOutput {
	t.Helper()
	var out diffOutput
	require.NoError(t, json.Unmarshal(text, &out))
	return &out
}

// empty tells whether nothing differs.
func (d *diffOutput) empty() bool {
	return len(d.Renames)+len(d.Splits)+len(d.Vehicles)+len(d.Changes)+len(d.Irregular) == 0
}

// names is what a diff says is called otherwise: by what is named, from old to new.
type names map[string]map[string]string

func (d *diffOutput) names() names {
	out := names{}
	for _, r := range d.Renames {
		what := r.What + " " + r.Trait
		if out[what] == nil {
			out[what] = map[string]string{}
		}
		out[what][r.Old] = r.New
	}
	return out
}

// now gives what something is called in NEW; trait is that of a value, by NEW's name.
func (n names) now(what, trait, old string) string {
	if now, ok := n[what+" "+trait][old]; ok {
		return now
	}
	return old
}

// saidBy writes an answer so that two are equal where releases say the same.
func (n names) saidBy(a diffAnswer) string {
	if a.Outcome != "fitted" {
		if a.Outcome == "" {
			return "nowhere"
		}
		return a.Outcome
	}
	text := "with " + n.now("position", "", a.With)
	if a.With == "" {
		text = ""
		for _, alt := range a.Alternatives {
			text += "| " + n.itemsBy(alt)
		}
	}
	if a.Settled != nil {
		text += " unsettled"
	}
	return text
}

func (n names) itemsBy(items []diffItem) string {
	var out []string
	for _, it := range items {
		text := fmt.Sprintf("%d x %s", it.Quantity, n.now("part", "", it.Part))
		if len(it.Holds) > 0 {
			text += " (" + n.itemsBy(it.Holds) + ")"
		}
		out = append(out, text)
	}
	return sorted(out)
}

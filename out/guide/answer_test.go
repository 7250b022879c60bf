package guide_test

import (
	"encoding/json"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/out/data"
)

// referenceScript answers a vehicle from the published JSON, for those who make a finder of their own.
const referenceScript = "../../schema/answer.js"

// scripted is what the script says of a vehicle.
type scripted struct {
	Exists bool
	Ask    []string
	Places []struct {
		Position, Outcome string
		Settled           *bool
		Alternatives      [][]struct {
			Part     string
			Quantity int
		}
	}
}

// asks asks the script about vehicles of a guide.
func asks(t *testing.T, s *sample, g *decide.Guide, told []map[string]any) []scripted {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		without(t, "node")
	}
	script, err := filepath.Abs(referenceScript)
	require.NoError(t, err)
	var guide strings.Builder
	require.NoError(t, data.PublicGuide(&guide, s.Cat, g))
	input, err := json.Marshal(map[string]any{"guide": json.RawMessage(guide.String()), "told": told})
	require.NoError(t, err)
	dir := t.TempDir()
	text, err := os.ReadFile(script)
	require.NoError(t, err)
	write(t, dir, map[string]string{"answer.mjs": string(text), "run.mjs": `import { answer } from "./answer.mjs";
import { readFileSync } from "node:fs";
const { guide, told } = JSON.parse(readFileSync(0, "utf8"));
process.stdout.write(JSON.stringify(told.map((v) => answer(guide, v))));`})
	cmd := exec.Command(node, filepath.Join(dir, "run.mjs"))
	cmd.Stdin, cmd.Stderr = strings.NewReader(string(input)), os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	var got []scripted
	require.NoError(t, json.Unmarshal(out, &got))
	require.Len(t, got, len(told))
	return got
}

// toScript tells a vehicle as the script wants it: every trait of the platform.
func toScript(g *decide.Guide, v vehicle) map[string]any {
	year, _ := strconv.Atoi(v["Model year"])
	out := map[string]any{"Years": year}
	for _, u := range g.Traits {
		name := u.Trait.Name
		if out[name] = nil; v[name] != "" && v[name] != "n/a" {
			out[name] = v[name]
		}
	}
	return out
}

// in tells whether a vehicle is in a box.
func in(g *decide.Guide, b model.Box, v vehicle) bool {
	year, _ := strconv.Atoi(v["Model year"])
	if b.Years != nil && !slices.ContainsFunc(b.Years, func(s model.Span) bool { return s.From <= year && year <= s.To }) {
		return false
	}
	return !slices.ContainsFunc(b.Traits, func(c model.TraitSet) bool { return !meets(c, g, v) })
}

// line says what a case tells, parts with their quantities.
func (a *scripted) lines() map[string]string {
	out := map[string]string{}
	for _, p := range a.Places {
		line := p.Outcome
		if p.Settled != nil && !*p.Settled {
			line += " not settled"
		}
		for _, alternative := range p.Alternatives {
			line += " or"
			for _, i := range alternative {
				line += " " + strconv.Itoa(i.Quantity) + " x " + i.Part
			}
		}
		out[p.Position] = line
	}
	return out
}

// want says the same of what was decided.
func want(g *decide.Guide, v vehicle) map[string]string {
	out := map[string]string{}
	for _, a := range g.Answers {
		for i := range a.Cases {
			c := &a.Cases[i]
			if !in(g, c.Where, v) {
				continue
			}
			line := c.Outcome.String()
			if c.Unsettled {
				line += " not settled"
			}
			if !c.Withheld() {
				for _, alternative := range c.Alternatives {
					line += " or"
					for _, i := range alternative {
						line += " " + strconv.Itoa(i.Quantity) + " x " + i.Part.Number
					}
				}
			}
			out[a.Position.Name] = line
		}
	}
	return out
}

// The script says of every vehicle of the demo, and of a catalogue with numbers, dates and Breaks, what was
// decided; of 500 that do not exist that they do not; and of one that is not told whole what to ask.
func TestReferenceScript(t *testing.T) {
	exist, missing := 0, 0
	r := rand.New(rand.NewPCG(1, 22))
	for name, s := range map[string]*sample{"demo": demoSample(t), "lines": lineSample(t)} {
		each := 500 / len(s.Guides)
		for _, g := range s.Guides {
			all := vehicles(s.Cat, g)
			var told []map[string]any
			known := map[string]bool{}
			for _, v := range all {
				one := toScript(g, v)
				told = append(told, one)
				text, err := json.Marshal(one)
				require.NoError(t, err)
				known[string(text)] = true
			}
			for tries := 0; name == "demo" && len(told) < len(all)+each; tries++ {
				require.Less(t, tries, 1_000_000, "%s: nearly all exist", g.Platform.Name)
				one := toScript(g, drawn(r, g))
				if text, err := json.Marshal(one); assert.NoError(t, err) && !known[string(text)] {
					told = append(told, one)
				}
			}
			got := asks(t, s, g, told)
			for i := range got {
				if i >= len(all) {
					missing++
					require.False(t, got[i].Exists, "%v", told[i])
					continue
				}
				exist++
				require.True(t, got[i].Exists, "%v", told[i])
				require.Empty(t, got[i].Ask)
				require.Equal(t, want(g, all[i]), got[i].lines(), "%s %v", g.Platform.Name, told[i])
			}
			checkUntold(t, s, g, told[0])
		}
	}
	assert.Greater(t, exist, 6_000)
	assert.Equal(t, 500, missing)
	t.Logf("%d vehicles that exist, %d that do not", exist, missing)
	text, err := os.ReadFile(referenceScript)
	require.NoError(t, err)
	assert.LessOrEqual(t, strings.Count(string(text), "\n"), 80)
}

// checkUntold leaves out one thing after another that is told of a vehicle: where vehicles differ in it,
// that is what the script asks for, and it names no part.
func checkUntold(t *testing.T, s *sample, g *decide.Guide, whole map[string]any) {
	t.Helper()
	traits := slices.Sorted(maps.Keys(whole))
	var told []map[string]any
	for _, trait := range traits {
		less := maps.Clone(whole)
		delete(less, trait)
		told = append(told, less)
	}
	asked := 0
	for i, a := range asks(t, s, g, told) {
		assert.True(t, a.Exists)
		if len(a.Ask) > 0 {
			asked++
			assert.Equal(t, []string{traits[i]}, a.Ask)
			assert.Empty(t, a.Places)
		}
	}
	assert.Positive(t, asked)
}

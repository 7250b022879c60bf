package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/cmd/ferrule/cli"
	"ferrule/compiler/tidy"
	"ferrule/out/workbook"
)

// attack is a catalogue that tries at once whatever may make work long: kits that hold two
// others to a depth of 60, and one that holds itself; lists of hundreds of parts and values in
// a cell; a trait with thousands of values, and many traits on one row; names that look alike,
// declared and misspelt; rules and limits about all of them; and acceptances that name nothing.
// names is how many look alike; what is looked for on each of the platforms is bounded by itself.
func attack(names, platforms int) []tidy.Sheet {
	return []tidy.Sheet{
		table("Settings", "Setting|Value", "title|Everything"),
		table("Platforms", "Platform|Years", each(platforms, func(i int) string { return fmt.Sprintf("H%d|1960-2026", i) })...),
		table("Traits", "Trait|Value|Kind", slices.Concat(
			each(3000, func(i int) string { return fmt.Sprintf("Body|B-%d|choice", i) }),
			each(24*20, func(i int) string { return fmt.Sprintf("T%d|V%d|choice", i/20, i%20) }))...),
		table("Vehicles", "Platform|Years|Body|"+heads("T%d", 24), each(platforms, func(i int) string {
			return fmt.Sprintf("H%d|1960-2026|any|%s", i, cellsOf("any", 24))
		})...),
		table("Positions", "Position", each(20, func(i int) string { return fmt.Sprintf("P%d", i) })...),
		table("Parts", "Part|Name|Family", slices.Concat(
			each(names, func(i int) string { return alike(i) + "|Damper|Damper" }),
			each(122, func(i int) string { return fmt.Sprintf("K-%d-%d|Kit|Kit", i/2, i%2) }), []string{"ROUND|Kit|Kit"})...),
		table("Kits", "Kit|Part|Quantity", slices.Concat(
			each(240, func(i int) string { return fmt.Sprintf("K-%d-%d|K-%d-%d|2", i/4, i/2%2, i/4+1, i%2) }),
			[]string{"K-60-0|" + alike(1) + "|1", "K-60-1|ROUND|1", "ROUND|K-0-0|3"})...),
		table("Compatibility", "Part|Family|With|Effect|Reason", slices.Concat(
			each(500, func(i int) string { return alike(i) + "||" + alike(i+1) + "|forbid|they meet" }),
			[]string{"|Damper|Kit|require|always", "|Kit|Damper|forbid|never", "K-0-0|||caution|deep"})...),
		table("Fitment", "Platform|Years|Body|"+heads("T%d", 24)+"|"+heads("P%d", 20), slices.Concat(
			each(3*platforms, func(i int) string { return attackRow(i, names, platforms) }), each(names/20, func(i int) string { return slipRow(i, platforms) }))...),
		table("Accepted", "Finding|Platform|Position|Part|Reason|By", each(1000, func(i int) string {
			return fmt.Sprintf("fitment-conflict|H%d|P%d|%s|it is so|desk", i%50, i%120, slip(i))
		})...),
	}
}

// attackRow has long lists everywhere, kits, and conditions on all traits.
func attackRow(i, names, platforms int) string {
	bodies := strings.Join(each(1500, func(k int) string { return fmt.Sprintf("B-%d", (i*7+k)%3000) }), ", ")
	traits := strings.Join(each(24, func(k int) string {
		if (k+i)%6 > 0 {
			return ""
		}
		return fmt.Sprintf("not V%d, V%d", (i+k)%20, (i*3+k)%20)
	}), "|")
	parts := strings.Join(each(20, func(k int) string {
		switch k {
		case 0:
			return strings.Join(each(1000, func(n int) string { return alike((i*1000 + n) % names) }), " or ")
		case 1:
			return fmt.Sprintf("K-0-%d", i%2)
		case 2:
			return "ROUND"
		}
		return alike((i*20 + k) % names)
	}), "|")
	return fmt.Sprintf("H%d|%d-2026|%s|%s|%s", i%platforms, 1960+i%60, bodies, traits, parts)
}

// slipRow names parts and values that nothing declares and that look like many that are.
func slipRow(i, platforms int) string {
	parts := strings.Join(each(20, func(k int) string { return slip(i*20 + k) }), "|")
	return fmt.Sprintf("H%d|2001||%s|%s", i%platforms, cellsOf("VO", 24), parts)
}

// alike and slip give part numbers of letters and digits that are taken for each other: the
// first those that are declared, the second others.
func alike(i int) string {
	return "BO0-" + strings.NewReplacer("0", "O", "1", "I", "2", "Z", "5", "S").Replace(fmt.Sprintf("%05d", i))
}

func slip(i int) string { return "B0O-" + fmt.Sprintf("%05d", i) + "l" }

func heads(format string, n int) string {
	return strings.Join(each(n, func(i int) string { return fmt.Sprintf(format, i) }), "|")
}

func cellsOf(text string, n int) string {
	return strings.Join(each(n, func(int) string { return text }), "|")
}

func each(n int, text func(int) string) []string {
	out := make([]string, n)
	for i := range out {
		out[i] = text(i)
	}
	return out
}

func table(name, header string, rows ...string) tidy.Sheet {
	s := tidy.Sheet{Name: name}
	for _, row := range append([]string{header}, rows...) {
		s.Rows = append(s.Rows, strings.Split(row, "|"))
	}
	return s
}

// TestEverythingAtOnce holds that such a catalogue ends with findings: the kits that hold
// themselves are told once, every name that nothing declares at its cell, and no more than what
// is written can be at fault in.
func TestEverythingAtOnce(t *testing.T) {
	dir := t.TempDir()
	const names = 400
	require.NoError(t, workbook.Write(dir, attack(names, 1)))
	var stdout, stderr bytes.Buffer
	status := cli.Run(context.Background(), []string{"check", filepath.Join(dir, workbook.Name), "--format", "jsonl", "--today", "2027-03-01"}, &stdout, &stderr)
	require.Equal(t, 1, status, "%.2000s", stderr.String())
	count := map[string]int{}
	for line := range strings.Lines(stdout.String()) {
		var f struct{ Code string }
		require.NoError(t, json.Unmarshal([]byte(line), &f))
		count[f.Code]++
	}
	assert.Equal(t, 1, count["kit-cycle"])
	assert.GreaterOrEqual(t, count["part-unknown"], names, "each slip in a fitment cell")
	assert.GreaterOrEqual(t, count["reference-unknown"], names/20*24, "each value that no trait has")
	assert.NotZero(t, count["coverage-gap"])
	assert.LessOrEqual(t, count["part-unknown"], names+1000)
	assert.LessOrEqual(t, count["coverage-gap"], 20, "one a position")
}

// BenchmarkEverythingAtOnce is the same with 10,000 names and four platforms.
func BenchmarkEverythingAtOnce(b *testing.B) {
	dir := b.TempDir()
	require.NoError(b, workbook.Write(dir, attack(10_000, 4)))
	work(b, "check", filepath.Join(dir, workbook.Name))
}

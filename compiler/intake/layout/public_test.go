package layout_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/compiler/intake/table"
	"ferrule/schema"
)

// public is where tables that others have published stand as they are, each as NAME.csv, with
// NAME.tsv beside it, which says in at most ten rows how it is read.
const public = "testdata/public"

// laid reads a public table by its declarations, and gives the rows that come of it, sorted, with
// what was told.
func laid(t *testing.T, name string) (rows []string, told []*finding.Finding) {
	t.Helper()
	dir := t.TempDir()
	for from, to := range map[string]string{name + ".csv": name + ".csv", name + ".tsv": "Layouts.tsv"} {
		data, err := os.ReadFile(filepath.Join(public, from))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(dir, to), data, 0o600))
	}
	src, err := intake.Find([]string{dir})
	require.NoError(t, err)
	r := intake.NewReader()
	for _, b := range src.Books {
		r.Book(b)
	}
	r.Finish(src, func(f *finding.Finding) { told = append(told, f) })
	require.True(t, r.Whole)
	for _, tab := range r.Tables {
		if tab.Kind == schema.Fitment {
			for i := range tab.Records {
				rows = append(rows, asRow(tab, &tab.Records[i]))
			}
		}
	}
	slices.Sort(rows)
	return rows, told
}

func asRow(t *table.Table, rec *table.Record) string {
	fields := map[string]string{}
	for _, f := range rec.Fields {
		fields[t.Columns[f.Column].Name] = f.Text
	}
	return rowOf(fields)
}

// rowOf writes a row with its columns by name.
func rowOf(fields map[string]string) string {
	var out []string
	for column, text := range fields {
		if text != "" {
			out = append(out, column+"="+text)
		}
	}
	slices.Sort(out)
	return strings.Join(out, "; ")
}

// raw is a public table as the standard library reads it, by heading; a heading without a name
// is its number.
func raw(t *testing.T, name string, header int) (out []map[string]string, heads []string) {
	t.Helper()
	f, err := os.Open(filepath.Join(public, name+".csv"))
	require.NoError(t, err)
	defer f.Close() //nolint:errcheck // it was only read
	all, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	heads = all[header-1]
	for _, cells := range all[header:] {
		row := map[string]string{}
		for i, text := range cells {
			row[heads[i]] = text
		}
		out = append(out, row)
	}
	return out, heads
}

// TestPublic holds that each public table is read by its declarations into the rows that a few
// lines of plain Go make of it, and that every cell is accounted for: nothing is told of it.
func TestPublic(t *testing.T) {
	wants := wanted()
	files, err := filepath.Glob(filepath.Join(public, "*.csv"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 10)
	require.Len(t, wants, len(files))
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".csv")
		t.Run(name, func(t *testing.T) {
			declared, err := os.ReadFile(filepath.Join(public, name+".tsv"))
			require.NoError(t, err)
			require.LessOrEqual(t, strings.Count(string(declared), "\n"), 1+10)
			want := wants[name](t)
			slices.Sort(want)
			rows, told := laid(t, name)
			for _, f := range told {
				assert.Fail(t, "told", "%s at %s: %s (%s)", f.Code, f.Cells[0].Place, f.Message, f.Fix)
			}
			require.NotEmpty(t, want)
			assert.Equal(t, want, rows)
		})
	}
}

// wanted gives what comes of each table.
func wanted() map[string]func(*testing.T) []string {
	return map[string]func(*testing.T) []string{
		"boards": wantBoards, "boards-sbc": wantSmallBoards, "cars": wantCars("cars"), "more-cars": wantCars("more-cars"),
		"client-go": wantClients, "django": wantDjango, "jump-labels": wantLabels, "keyboards": wantKeyboards, "node": wantNode, "usb": wantUSB,
	}
}

func wantBoards(t *testing.T) (out []string) {
	rows, heads := raw(t, "boards", 1)
	for _, r := range rows {
		for _, board := range heads[1:] {
			row := map[string]string{"Platform": board, "Position": r["Feature"], "Fits": "BSP"}
			switch r[board] {
			case "N/A":
				continue
			case "N":
				row["Fits"] = "none: not supported"
			case "Y (w/DMA)":
				row["DMA"] = "yes"
			}
			out = append(out, rowOf(row))
		}
	}
	return out
}

func wantSmallBoards(t *testing.T) (out []string) {
	rows, heads := raw(t, "boards-sbc", 1)
	for _, r := range rows {
		for _, place := range heads[6:] {
			row := map[string]string{"Platform": r["Device"], "Chip": r["Chip"], "Maker": r["Vender"], "Position": place, "Fits": r["Defconfig"]}
			switch r[place] {
			case "❌":
				row["Fits"] = "none: not supported"
			case "⚠️":
				row["Support"] = "partial"
			}
			out = append(out, rowOf(row))
		}
	}
	return out
}

func wantCars(name string) func(*testing.T) []string {
	return func(t *testing.T) (out []string) {
		rows, _ := raw(t, name, 1)
		for _, r := range rows {
			model, years := r["Model (US Market Reference)"], ""
			for i := 1; i < len(model); i++ {
				// The years begin at the first blank before a year of this century or the last.
				if model[i-1] == ' ' && strings.HasPrefix(model[i:], "20") {
					model, years = model[:i-1], model[i:]
					break
				}
			}
			out = append(out, rowOf(map[string]string{"Platform": model, "Years": longYears(years), "Make": r["Make"], "Package": r["Supported Package"],
				"Position": "ACC", "Fits": r["ACC"], "Least speed": r["No ACC accel below"], "Note": r["No ALC below"]}))
		}
		return out
	}
}

// longYears writes 2016-19 as 2016-2019.
func longYears(years string) string {
	all := strings.Split(years, ", ")
	for i, y := range all {
		if len(y) == len("2016-19") {
			all[i] = y[:5] + y[:2] + y[5:]
		}
	}
	return strings.Join(all, ", ")
}

func wantClients(t *testing.T) (out []string) {
	rows, heads := raw(t, "client-go", 1)
	for _, version := range heads[1:] {
		var partial []string
		for _, r := range rows {
			switch r[version] {
			case "✓":
				out = append(out, rowOf(map[string]string{"Platform": version, "Position": "Client", "Support": "full", "Fits": r[""]}))
			case "+-":
				partial = append(partial, r[""])
			}
		}
		out = append(out, rowOf(map[string]string{"Platform": version, "Position": "Client", "Support": "partial", "Fits": strings.Join(partial, " or ")}))
	}
	return out
}

func wantDjango(t *testing.T) (out []string) {
	rows, _ := raw(t, "django", 1)
	for _, r := range rows {
		for _, version := range strings.Split(r["Django version"], ", ") {
			out = append(out, rowOf(map[string]string{"Platform": version, "Position": "Python",
				"Fits": strings.ReplaceAll(r["Python versions"], ", ", " or ")}))
		}
	}
	return out
}

func wantLabels(t *testing.T) (out []string) {
	rows, _ := raw(t, "jump-labels", 4)
	for _, r := range rows {
		fits := map[string]string{"ok": "jump-labels", "TODO": "planned: not ported"}[r["status"]]
		out = append(out, rowOf(map[string]string{"Platform": r["arch"], "Position": "Kernel", "Fits": fits}))
	}
	return out
}

func wantKeyboards(t *testing.T) (out []string) {
	rows, _ := raw(t, "keyboards", 1)
	family := ""
	for _, r := range rows {
		if r["FAMILY"] != "" {
			family = r["FAMILY"]
		}
		out = append(out, rowOf(map[string]string{"Platform": family, "Model": r["MODEL"], "Position": "Keyboard", "Fits": r["Status"], "Note": r["DEVICE ID"]}))
	}
	return out
}

func wantNode(t *testing.T) (out []string) {
	rows, _ := raw(t, "node", 1)
	for _, r := range rows {
		for _, arch := range strings.Split(r["Architectures"], ", ") {
			out = append(out, rowOf(map[string]string{"Platform": r["System"], "Position": "Support", "Fits": r["Support type"],
				"Version": r["Version"], "Architecture": arch, "Note": r["Notes"]}))
		}
	}
	return out
}

func wantUSB(t *testing.T) (out []string) {
	rows, _ := raw(t, "usb", 1)
	maker := ""
	for _, r := range rows {
		if r["Manufacturer"] != "" {
			maker = r["Manufacturer"]
		}
		for _, place := range []string{"Device", "Host", "Highspeed"} {
			fits := map[string]string{"✔": r["Driver"], "✖": "none: not supported by hardware"}[r[place]]
			if fits != "" {
				out = append(out, rowOf(map[string]string{"Maker": maker, "Platform": r["Family"], "Position": place, "Fits": fits, "Note": r["Note"]}))
			}
		}
	}
	return out
}

package measure

import (
	"encoding/json"
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// without skips a test that a tool is missing for. Where CI is set the tools must
// be there.
func without(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("CI") != "" {
		t.Fatalf("%s is missing; .ci/run installs it", what)
	}
	t.Skipf("%s is missing; .ci/run installs it", what)
}

type pair struct{ from, to Unit }

// pairs gives every two units of one dimension.
func pairs() []pair {
	var out []pair
	for _, from := range Units() {
		for _, to := range Units() {
			if from.Dimension() == to.Dimension() {
				out = append(out, pair{from, to})
			}
		}
	}
	return out
}

// near compares what another program says one of from is in to, within so much of it.
func near(t *testing.T, p pair, said, within string) {
	t.Helper()
	theirs, ok := new(big.Rat).SetString(said)
	require.True(t, ok, "%s in %s: %s", p.from, p.to, said)
	ours := Convert(big.NewRat(1, 1), p.from, p.to)
	off := new(big.Rat).Sub(ours, theirs)
	assert.LessOrEqual(t, off.Abs(off).Quo(off, ours).Cmp(rat(within)), 0, "1 %s is %s %s, and they say %s", p.from, ours.FloatString(20), p.to, said)
}

// GNU units (Debian package units) knows every unit of the table by a name of its own, and
// converts every pair to the last digit of a double.
func TestGNUUnits(t *testing.T) {
	names := map[Unit]string{
		Inch: "inch", Millimetre: "mm", Foot: "ft", Yard: "yard", Mile: "mile", Centimetre: "cm", Metre: "m", Kilometre: "km",
		Pound: "pound", Ounce: "ounce", Kilogram: "kg", Gram: "g", Tonne: "tonne",
		PoundForce: "lbf", Newton: "N", Kilonewton: "kN", KilogramForce: "kgf",
		PoundForceFoot: "lbf ft", PoundForceInch: "lbf inch", NewtonMetre: "N m", KilonewtonMetre: "kN m",
		KilogramForceMetre: "kgf m", KilogramForceCentimetre: "kgf cm",
		PoundForcePerSquareInch: "psi", Kilopascal: "kPa", Bar: "bar", Millibar: "millibar", Pascal: "Pa", Megapascal: "MPa",
		KilogramForcePerSquareCentimetre: "kgf/cm^2",
		PoundForcePerInch:                "lbf/inch", NewtonPerMillimetre: "N/mm", NewtonPerMetre: "N/m", KilonewtonPerMetre: "kN/m", KilogramForcePerMillimetre: "kgf/mm",
		PoundForceFootPerDegree: "lbf ft/degree", NewtonMetrePerDegree: "N m/degree", Degree: "degree", Radian: "radian",
		CubicInch: "in^3", FluidOunce: "usfloz", Pint: "uspint", Quart: "usquart", Gallon: "usgallon",
		CubicCentimetre: "cm^3", Millilitre: "milliliter", Litre: "liter", CubicMetre: "m^3",
		SquareInch: "in^2", SquareMillimetre: "mm^2", SquareCentimetre: "cm^2", SquareMetre: "m^2",
		MilePerHour: "mile/hour", FootPerSecond: "ft/s", InchPerSecond: "inch/s",
		KilometrePerHour: "km/hour", MetrePerSecond: "m/s", MillimetrePerSecond: "mm/s",
		Micrometre: "micrometer", Decanewton: "daN", NewtonCentimetre: "N cm", NewtonMillimetre: "N mm", DecanewtonMetre: "daN m",
		Hectopascal: "hPa", KilogramForcePerCentimetre: "kgf/cm", DecanewtonPerMillimetre: "daN/mm",
		DegreeCelsius: "tempC", DegreeFahrenheit: "tempF",
		One: "1", Percent: "percent",
	}
	require.Len(t, names, len(Units()))
	program, err := exec.LookPath("units")
	if err != nil {
		without(t, "GNU units")
	}
	var in strings.Builder
	for _, p := range pairs() {
		from := names[p.from]
		if p.from.zero() != nil {
			from += "(1)" // a function: what is 0 of a temperature is no nothing
		}
		in.WriteString(from + "\n" + names[p.to] + "\n")
	}
	run := exec.Command(program, "--terse", "--output-format", "%.17g")
	run.Stdin = strings.NewReader(in.String())
	run.Env = append(os.Environ(), "LC_ALL=C")
	out, err := run.Output()
	require.NoError(t, err)
	said := strings.Fields(string(out))
	require.Len(t, said, len(pairs()), "one answer a pair")
	for i, p := range pairs() {
		within := "1e-14"
		if p.from.zero() != nil {
			within = "1e-13" // of hundreds of kelvin, by way of which they go
		}
		near(t, p, said[i], within)
	}
}

// The npm package @lhncbc/ucum-lhc converts by UCUM codes.
func TestUCUM(t *testing.T) {
	folder := filepath.Join("testdata", "ucum")
	node, err := exec.LookPath("node")
	if err != nil {
		without(t, "node")
	}
	modules := filepath.Join(folder, "node_modules")
	if _, err := os.Stat(filepath.Join(modules, "@lhncbc", "ucum-lhc", "package.json")); err != nil {
		without(t, "the node module @lhncbc/ucum-lhc")
	}
	var asked [][2]string
	for _, p := range pairs() {
		asked = append(asked, [2]string{p.from.UCUM(), p.to.UCUM()})
	}
	in, err := json.Marshal(asked)
	require.NoError(t, err)
	run := exec.Command(node, filepath.Join(folder, "convert.cjs"), modules)
	run.Stdin = strings.NewReader(string(in))
	out, err := run.Output()
	require.NoError(t, err)
	var said []json.Number
	require.NoError(t, json.Unmarshal(out, &said))
	require.Len(t, said, len(asked))
	for i, p := range pairs() {
		near(t, p, said[i].String(), "1e-12")
	}
}

func TestUCUMIsPinned(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("testdata", "ucum", "package.json"))
	require.NoError(t, err)
	var p struct{ Dependencies map[string]string }
	require.NoError(t, json.Unmarshal(data, &p))
	require.Len(t, p.Dependencies, 1)
	assert.Regexp(t, `^\d+\.\d+\.\d+$`, p.Dependencies["@lhncbc/ucum-lhc"])
}

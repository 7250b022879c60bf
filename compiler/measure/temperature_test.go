package measure

import (
	"fmt"
	"math/big"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Fixed points of both scales: absolute zero, where the two meet, ice, and water that boils
// at the pressure of the old definition. From memory.
func TestFixedPoints(t *testing.T) {
	for c, f := range map[string]string{"-273.15": "-459.67", "-40": "-40", "0": "32", "100": "212", "37": "98.6"} {
		assert.Zero(t, Convert(rat(c), DegreeCelsius, DegreeFahrenheit).Cmp(rat(f)), "%s °C", c)
		assert.Zero(t, Convert(rat(f), DegreeFahrenheit, DegreeCelsius).Cmp(rat(c)), "%s °F", f)
	}
	low, high := quantity(t, "-40 to 93 °C").SI()
	assert.Equal(t, "233.15 366.15", Decimal(low, 3)+" "+Decimal(high, 3), "in kelvin")
	assert.Equal(t, "10 °C (18 °F)", Degrees(big.NewRat(10, 1), DegreeCelsius))
}

// GNU units converts temperatures by functions: tempC(20) to tempF.
func TestTemperaturesAgainstGNUUnits(t *testing.T) {
	program, err := exec.LookPath("units")
	if err != nil {
		without(t, "GNU units")
		return
	}
	var in strings.Builder
	type asked struct {
		value    *big.Rat
		from, to Unit
	}
	var all []asked
	for n := -200; n <= 1000; n += 7 {
		v := big.NewRat(int64(n), 4)
		for _, a := range []asked{{v, DegreeCelsius, DegreeFahrenheit}, {v, DegreeFahrenheit, DegreeCelsius}} {
			names := map[Unit]string{DegreeCelsius: "tempC", DegreeFahrenheit: "tempF"}
			fmt.Fprintf(&in, "%s(%s)\n%s\n", names[a.from], v.FloatString(2), names[a.to])
			all = append(all, a)
		}
	}
	run := exec.Command(program, "--terse", "--output-format", "%.12g")
	run.Stdin = strings.NewReader(in.String())
	run.Env = append(os.Environ(), "LC_ALL=C")
	out, err := run.Output()
	require.NoError(t, err)
	said := strings.Fields(string(out))
	require.Len(t, said, len(all))
	for i, a := range all {
		off := new(big.Rat).Sub(Convert(a.value, a.from, a.to), rat(said[i]))
		assert.LessOrEqual(t, off.Abs(off).Cmp(rat("1/1000000000")), 0, "%s %s is %s", a.value, a.from, said[i])
	}
	t.Log(len(all), "temperatures compared")
}

func TestTemperatureWords(t *testing.T) {
	for text, want := range map[string]string{
		"93 °C": "93 °C (199 °F)", "-40 °C": "-40 °C (-40 °F)", "0 °C": "0 °C (32 °F)", "200 °F": "200 °F (93 °C)", "36.5 °C": "36.5 °C (97.7 °F)",
		"-40 to 85 °C": "-40 to 85 °C (-40 to 185 °F)", "90 °C ±5": "90 ±5 °C (194 ±9 °F)", "max 120 °C": "max 120 °C (248 °F)",
	} {
		assert.Equal(t, want, quantity(t, text).String())
	}
	assert.Equal(t, "temperature", DegreeCelsius.Dimension().String())
}

func TestBoundWords(t *testing.T) {
	for text, want := range map[string]string{
		"120 psi max": "max 120 psi (827 kPa)", "≥ 8 bar": "min 8 bar (116 psi)", "up to 40 %": "max 40 %",
	} {
		assert.Equal(t, want, quantity(t, text).String())
	}
	assert.False(t, quantity(t, "max 8 bar").Equal(quantity(t, "8 bar")))
}

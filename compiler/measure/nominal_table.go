package measure

import (
	_ "embed"
	"fmt"
	"math/big"
	"strings"
	"sync"
)

//go:embed nominal.tsv
var nominalTable string

// builtIn reads the embedded table, once; nothing changes it after.
var builtIn = sync.OnceValue(func() []Row {
	var rows []Row
	headed := false
	for i, line := range strings.Split(nominalTable, "\n") {
		switch {
		case line == "" || line[0] == '#':
		case !headed:
			headed = true
		default:
			r, ok := tableRow(strings.Split(line, "\t"))
			if !ok {
				panic(fmt.Sprintf("measure: nominal.tsv, line %d is broken", i+1))
			}
			rows = append(rows, r)
		}
	}
	return rows
})

// tableRow reads System, Of, Unit, Nominal, Tolerance, Wall, Least inside, Source, Mark.
func tableRow(f []string) (Row, bool) {
	if len(f) != 9 {
		return Row{}, false
	}
	of, ok1 := map[string]LineKind{Tube.String(): Tube, Hose.String(): Hose}[f[1]]
	unit, ok2 := map[string]Unit{Inch.String(): Inch, Millimetre.String(): Millimetre}[f[2]]
	if !ok1 || !ok2 {
		return Row{}, false
	}
	var lengths [4]*big.Rat
	for i, text := range f[3:7] {
		if text == "" {
			continue
		}
		var ok bool
		if lengths[i], ok = new(big.Rat).SetString(text); !ok {
			return Row{}, false
		}
	}
	r := Row{System: f[0], Size: Size{Line: of, Unit: unit, Num: lengths[0], Wall: lengths[2]}, Source: f[7], Mark: Mark(f[8])}
	r.Tolerance, r.Least = millimetres(lengths[1], unit), millimetres(lengths[3], unit)
	if r.Size.Num == nil {
		return Row{}, false
	}
	r.Size.Text = r.Size.statement(unit)
	return r, true
}

// millimetres converts a length, if there is one.
func millimetres(length *big.Rat, unit Unit) *big.Rat {
	if length == nil {
		return nil
	}
	return Convert(length, unit, Millimetre)
}

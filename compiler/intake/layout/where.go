package layout

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"ferrule/sheets/cell"
)

// What stands under Where of a table.
var (
	headerSaid  = regexp.MustCompile(`(?i)^headers? +(\d{1,7})(?: ?(?:[-\x{2010}-\x{2015}]|to|and) ?(\d{1,7}))?`)
	noHeader    = regexp.MustCompile(`(?i)^no headers?`)
	rowsSaid    = regexp.MustCompile(`(?i)^rows? +(\d{1,7})(?: ?(?:([-\x{2010}-\x{2015}\x{2026}]|\.\.\.|to)) ?(\d{1,7})?)?`)
	untilSaid   = regexp.MustCompile(`(?i)^until +["\x{201c}\x{201e}]([^"\x{201c}\x{201d}]+)["\x{201c}\x{201d}]`)
	betweenSaid = regexp.MustCompile(`(?i)^(?:[,; ]+|with |and )+`)
	columnSaid  = regexp.MustCompile(`(?i)^column +([a-z]{1,3})$`)
	cellSaid    = regexp.MustCompile(`(?i)^cell +\$?([a-z]{1,3})\$?(\d{1,7})$`)
	rowTextSaid = regexp.MustCompile(`(?i)^row +["\x{201c}\x{201e}](.+)["\x{201c}\x{201d}]$`)
	textSaid    = regexp.MustCompile(`^["\x{201c}\x{201e}](.*)["\x{201c}\x{201d}]$`)
	sheetSaid   = regexp.MustCompile(`(?i)^(?:the )?(?:sheet|sheet['\x{2019}]s|name of the sheet|tab) ?(?:name)?$`)
)

// row gives the number of a row that is written in digits; 0 for none.
func row(digits string) int32 {
	n, err := strconv.ParseInt(digits, 10, 32)
	if err != nil {
		return 0
	}
	return int32(n)
}

// place is what a Where names.
type place struct {
	what what
	text string // of a head, a text or a row
	col  int32
	pos  cell.Pos
	rows span
}

type what uint8

const (
	aHead      what = iota
	aColumn         // column C
	sheetName       // sheet name
	aCell           // cell B1
	aText           // "text"
	aRowText        // row "Total"
	rowNumbers      // rows 1-2
	theHeads        // heads
	theCells        // cells
)

// placeOf reads a Where that names one thing. A head is whatever nothing else is.
func placeOf(where string) place {
	where = strings.TrimSpace(where)
	if m := columnSaid.FindStringSubmatch(where); m != nil {
		if p, ok := cell.Parse(strings.ToUpper(m[1]) + "1"); ok {
			return place{what: aColumn, text: where, col: p.Col}
		}
	}
	if m := cellSaid.FindStringSubmatch(where); m != nil {
		if p, ok := cell.Parse(strings.ToUpper(m[1]) + m[2]); ok {
			return place{what: aCell, text: where, pos: p}
		}
	}
	if m := rowTextSaid.FindStringSubmatch(where); m != nil {
		return place{what: aRowText, text: strings.TrimSpace(m[1])}
	}
	if m := rowsSaid.FindStringSubmatch(where); m != nil && m[0] == where {
		s := span{row(m[1]), row(m[3])}
		if m[2] == "" {
			s.To = s.From
		}
		return place{what: rowNumbers, text: where, rows: s}
	}
	if m := textSaid.FindStringSubmatch(where); m != nil {
		return place{what: aText, text: strings.TrimSpace(m[1])}
	}
	switch {
	case sheetSaid.MatchString(where):
		return place{what: sheetName, text: where}
	case strings.EqualFold(where, "heads"):
		return place{what: theHeads, text: where}
	case strings.EqualFold(where, "cells"):
		return place{what: theCells, text: where}
	}
	return place{what: aHead, text: where}
}

// stretchSaid parts the first from the last head of a stretch of columns.
var stretchSaid = regexp.MustCompile(` *(?:\x{2026}|\.\.\.) *`)

// stretchOf reads the first and the last of a stretch of heads.
func stretchOf(where string) (from, to place, ok bool) {
	at := stretchSaid.FindAllStringIndex(where, -1)
	if len(at) != 1 || at[0][0] == 0 || at[0][1] == len(where) {
		return place{}, place{}, false
	}
	return placeOf(where[:at[0][0]]), placeOf(where[at[0][1]:]), true
}

// signs that have words, since a cell shows them badly.
var signWords = map[string]string{"line break": "\n", "new line": "\n", "newline": "\n", "space": " ", "tab": "\t"}

// subjectOf reads the Where of a split: what is split, and at which sign.
func subjectOf(where string) (subject place, sign string, ok bool) {
	where = strings.TrimSpace(where)
	for _, w := range slices.Sorted(keys(signWords)) {
		if rest, found := cutFold(where, w); found {
			return placeOf(rest), signWords[w], rest != ""
		}
	}
	if n := len(where); strings.HasSuffix(where, `"`) && strings.Count(where, `"`) >= 2 {
		from := strings.LastIndexByte(where[:n-1], '"')
		sign, rest := where[from+1:n-1], strings.TrimSpace(where[:from])
		if strings.TrimSpace(sign) != "" {
			sign = strings.TrimSpace(sign)
		}
		return placeOf(rest), sign, sign != "" && rest != ""
	}
	i := strings.LastIndexAny(where, " \t\n")
	if i < 0 {
		return place{}, "", false
	}
	return placeOf(where[:i]), where[i+1:], true
}

func keys(m map[string]string) func(func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// cutFold cuts a last word off, in any case.
func cutFold(s, end string) (string, bool) {
	if len(s) <= len(end) || !strings.EqualFold(s[len(s)-len(end):], end) || s[len(s)-len(end)-1] != ' ' {
		return "", false
	}
	return strings.TrimSpace(s[:len(s)-len(end)]), true
}

package markup

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// storedValue stands between a formula and its stored value. No formula can hold it,
// since `=>` is no operator.
const storedValue = " => "

// parseCell reads the notation of one cell, as the package comment gives it.
func parseCell(s string) (Cell, error) {
	if formula, ok := strings.CutPrefix(s, "="); ok && formula != "" {
		formula, stored, _ := strings.Cut(formula, storedValue)
		c, err := parseValue(stored)
		if err == nil {
			c.Formula, err = unescape(formula)
		}
		return c, err
	}
	return parseValue(s)
}

func parseValue(s string) (Cell, error) {
	switch {
	case s == "":
		return Cell{}, nil
	case s[0] == '\'':
		text, err := unescape(s[1:])
		return Words(text), err
	case isNumber(s):
		return Cell{Kind: Number, Text: s}, nil
	case isDate(s):
		return Cell{Kind: Date, Text: s}, nil
	case s == "TRUE" || s == "FALSE":
		return Cell{Kind: Bool, Text: s}, nil
	case isError(s):
		return Cell{Kind: Error, Text: s}, nil
	}
	text, err := unescape(s)
	return Words(text), err
}

// isNumber tells whether s is a decimal number in its shortest form, which a
// spreadsheet program would store without loss.
func isNumber(s string) bool {
	f, err := strconv.ParseFloat(s, 64)
	return err == nil && !math.IsInf(f, 0) && strconv.FormatFloat(f, 'f', -1, 64) == s && s != "NaN"
}

func isDate(s string) bool {
	_, err := time.Parse(time.DateOnly, s)
	return err == nil
}

// isError knows the error values of ECMA-376, Part 1, 18.17.3.
func isError(s string) bool {
	switch s {
	case "#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A":
		return true
	}
	return false
}

func unescape(s string) (string, error) {
	if !strings.Contains(s, `\`) {
		return s, nil
	}
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] != '\\' {
			b.WriteByte(s[i])
			continue
		}
		if i++; i == len(s) {
			return "", fmt.Errorf(`%q ends in a lone backslash, write \\`, s)
		}
		switch s[i] {
		case 'n':
			b.WriteByte('\n')
		case 't':
			b.WriteByte('\t')
		case '\\':
			b.WriteByte('\\')
		default:
			return "", fmt.Errorf(`\%c means nothing, write \n, \t or \\`, s[i])
		}
	}
	return b.String(), nil
}

// serial gives a date in the 1900 date system. Dates before 1900-03-01 are one off
// there, because of the day that never was (ECMA-376, Part 1, 18.17.4.1).
func serial(iso string) (int, error) {
	t, err := time.Parse(time.DateOnly, iso)
	if err != nil {
		return 0, fmt.Errorf("%q is not a date such as 2028-06-30", iso)
	}
	n := int(t.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours()) / 24
	if n < 61 {
		n--
	}
	if n < 1 {
		return 0, fmt.Errorf("%s is before 1900-01-01, the first date of a workbook", iso)
	}
	return n, nil
}

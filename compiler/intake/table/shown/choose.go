package shown

import (
	"math/big"
	"regexp"
	"slices"
)

var comparison = regexp.MustCompile(`^(<=|>=|<>|<|>|=)(-?\d+(?:\.\d+)?)$`)

// condition reads what stands in brackets before a section: <100.
func condition(inside string) (sign string, bound *big.Rat, ok bool) {
	m := comparison.FindStringSubmatch(inside)
	if m == nil {
		return "", nil, false
	}
	bound, ok = new(big.Rat).SetString(m[2])
	return m[1], bound, ok
}

// choose gives the section of a format that shows a number, and whether a minus stands
// before it. False stands for conditions in other places than the first two sections, and
// for numbers that no section is for.
func choose(sections [][]piece, value *big.Rat) (section []piece, minus, ok bool) {
	minus = value.Sign() < 0
	if slices.ContainsFunc(sections, conditional) {
		section, ok = byCondition(sections, value)
		return section, false, ok && !minus
	}
	switch {
	case minus && len(sections) > 1:
		return sections[1], false, true
	case value.Sign() == 0 && len(sections) > 2:
		return sections[2], minus, true
	}
	return sections[0], minus, true
}

func isWhen(p piece) bool { return p.kind == when }

func conditional(section []piece) bool { return slices.ContainsFunc(section, isWhen) }

// byCondition takes the first of two sections whose condition holds, else the one behind them.
func byCondition(sections [][]piece, value *big.Rat) ([]piece, bool) {
	n := 0
	for n < len(sections) && conditional(sections[n]) {
		at := slices.IndexFunc(sections[n], isWhen)
		if sign, bound, _ := condition(sections[n][at].text); holds(value.Cmp(bound), sign) {
			return slices.DeleteFunc(slices.Clone(sections[n]), isWhen), true
		}
		n++
	}
	if n == 0 || n > 2 || n >= len(sections) || slices.ContainsFunc(sections[n:], conditional) {
		return nil, false
	}
	return sections[n], true
}

func holds(order int, sign string) bool {
	switch sign {
	case "<":
		return order < 0
	case "<=":
		return order <= 0
	case ">":
		return order > 0
	case ">=":
		return order >= 0
	case "=":
		return order == 0
	}
	return order != 0
}

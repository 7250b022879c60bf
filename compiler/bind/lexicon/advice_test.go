package lexicon

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/bind/mend"
	"ferrule/compiler/model"
)

// numbered gives a lexicon that knows parts.
func numbered(numbers ...string) *Lexicon {
	x := New(Unknowable{})
	for _, n := range numbers {
		x.AddPart(&model.Part{Number: n, Known: true})
	}
	return x
}

// TestFitsAdvice holds that what is told to write in place of a fitment cell reads without
// a word, and keeps every number and quantity that the cell held; what has no place in it is
// quoted.
func TestFitsAdvice(t *testing.T) {
	numbers := []string{"QX-140", "QX-141", "ZB-20", "KR-7"}
	joints := []string{" or ", ", ", " / ", "/", " & ", " and ", "\n", " + ", "; "}
	before := []string{"", "2 ", "3x", "2pcs ", "qty 4 ", "2 x "}
	behind := []string{"", " x2", " (3)", " (left side)", "*", " only", " qty 2"}
	rapid.Check(t, func(t *rapid.T) {
		x := numbered(numbers...)
		var text strings.Builder
		var held []string // of which each must be in what is told
		for i := range rapid.IntRange(1, 3).Draw(t, "parts") {
			if i > 0 {
				text.WriteString(rapid.SampledFrom(joints).Draw(t, "joint"))
			}
			n := rapid.SampledFrom(numbers).Draw(t, "number")
			said := n
			if rapid.Bool().Draw(t, "no hyphen") {
				said = strings.ReplaceAll(n, "-", "")
			}
			head, tail := rapid.SampledFrom(before).Draw(t, "before"), rapid.SampledFrom(behind).Draw(t, "behind")
			if head != "" && strings.ContainsAny(tail, "23") {
				tail = ""
			}
			text.WriteString(head + said + tail)
			held = append(held, n)
			if q := regexp.MustCompile(`\d`).FindString(head + tail); q != "" {
				held = append(held, q+" x "+n)
			}
			if strings.Contains(tail, "left") {
				held = append(held, "left side")
			}
			if strings.Contains(tail, "only") {
				held = append(held, "only")
			}
		}
		if _, ok := x.silently(text.String()); ok {
			return
		}
		a, ok := x.partMender().Advise(text.String())
		require.True(t, ok, "%q", text.String())
		require.NotEmpty(t, a.Write, "%q: %s", text.String(), a.Says)
		for _, w := range a.Write {
			_, reads := x.silently(w)
			require.True(t, reads, "%q: %s", text.String(), w)
			require.Contains(t, a.Says, w)
			for _, h := range held {
				require.Contains(t, w+strings.Join(a.Aside, "|"), h, "%q: %s", text.String(), a.Says)
			}
		}
		c := x.Fits(text.String())
		require.NotEqual(t, None, c.Fault.Flaw, "%q", text.String())
		require.Empty(t, c.Unknown, "%q is told once", text.String())
	})
}

// TestConditionAdvice holds that what is told to write in place of a condition reads, and
// names all that the cell named, left out where the cell left it out.
func TestConditionAdvice(t *testing.T) {
	values := []string{"Leaf", "Air beam", "Independent", "Rubber"}
	x, trait := declared(t, model.Choice, values...)
	rapid.Check(t, func(t *rapid.T) {
		out := rapid.SampledFrom([]string{"", "except ", "all but ", "w/o ", "<> ", "non-", "not ", "no "}).Draw(t, "out")
		names := rapid.SliceOfNDistinct(rapid.SampledFrom(values), 1, 3, rapid.ID[string]).Draw(t, "names")
		joint := rapid.SampledFrom([]string{", ", " / ", " & ", " and ", " or "}).Draw(t, "joint")
		if strings.HasPrefix(out, "no") && rapid.Bool().Draw(t, "again") {
			joint += out
		}
		text := out + strings.Join(names, joint)
		c := x.Condition(trait, text)
		if c.Reads() {
			return
		}
		_, cell, found := strings.Cut(c.Fault.Says, "; write ")
		require.True(t, found, "%q: %s%s", text, c.Fault.Says, c.Fault.Name)
		back := x.Condition(trait, cell)
		require.Empty(t, back.Fault, "%q: %s", text, c.Fault.Says)
		for i, v := range values {
			named := false
			for _, n := range names {
				named = named || n == v
			}
			require.Equal(t, named != (out != ""), back.Set.Has(i), "%q: %s", text, c.Fault.Says)
		}
	})
}

// TestYearsAdvice holds that what is told to write in place of years reads, and says the
// years that the cell said.
func TestYearsAdvice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		form := rapid.SampledFrom([]string{"03/Y", "March Y", "Y.5", "Y½", "Y on", "Y-", "-Y", "up to Y", "since Y", "from Y onwards", "MYY", "pre Y", "after Y", "Y & Y", "all except Y", "not Y, not Y", "Y thru Z", "Y-present"}).Draw(t, "form")
		year := rapid.SampledFrom([]string{"1998", "2004", "2011"}).Draw(t, "year")
		text := strings.ReplaceAll(strings.ReplaceAll(strings.Replace(form, "MYY", "MY\x00", 1), "Y", year), "Z", "2019")
		text = strings.Replace(text, "M"+year+"\x00", "MY"+year, 1)
		_, why := grammar.ReadYears(text)
		if why == "" {
			return
		}
		a, ok := mend.Years(text, func(cell string) bool { _, why := grammar.ReadYears(cell); return why == "" })
		require.True(t, ok, "%q", text)
		years, why := ReadYears(a.Write[0])
		require.Empty(t, why, "%q: %s", text, a.Says)
		at := map[string]int{"1998": 1998, "2004": 2004, "2011": 2011}[year]
		holds := !strings.HasPrefix(form, "all") && !strings.HasPrefix(form, "not") && !strings.HasPrefix(form, "pre") && !strings.HasPrefix(form, "after")
		require.Equal(t, holds, years.Has(at), "%q: %s", text, a.Says)
	})
}

// TestNearPart holds that a number is offered only where it is current, one letter away and
// no other is as near.
func TestNearPart(t *testing.T) {
	x := numbered("QX-140", "QX-141", "ZB-20", "KR-70", "KR-71", "LM-1101")
	x.parts["kr-70"].Status = model.Superseded
	for text, want := range map[string]string{
		"QX-149":  "",        // two are as near
		"ZB-2O":   "ZB-20",   // looks the same
		"ZB20":    "ZB-20",   // the same without its hyphen
		"ZB-21":   "ZB-20",   // one letter
		"ZB-31":   "",        // two letters
		"KR-72":   "KR-71",   // the other is superseded
		"1101":    "LM-1101", // digits alone
		"LM-1101": "LM-1101",
	} {
		require.Equal(t, want, x.nearPart(text), text)
	}
}

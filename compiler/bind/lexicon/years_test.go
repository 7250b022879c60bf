package lexicon

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/model"
)

func spans(pairs ...int) []model.Span {
	var out []model.Span
	for i := 0; i < len(pairs); i += 2 {
		out = append(out, model.Span{From: pairs[i], To: pairs[i+1]})
	}
	return out
}

func TestReadYears(t *testing.T) {
	for text, want := range map[string]*model.Years{
		"":                     nil,
		" any ":                nil,
		"ANY":                  nil,
		"2011":                 {Spans: spans(2011, 2011)},
		"2007-2012":            {Spans: spans(2007, 2012)},
		"2007 – 2012":          {Spans: spans(2007, 2012)},
		"2007—2012":            {Spans: spans(2007, 2012)},
		"2007 to 2012":         {Spans: spans(2007, 2012)},
		"from 2007 to 2012":    {Spans: spans(2007, 2012)},
		"2011-2011":            {Spans: spans(2011, 2011)},
		"2007+":                {Spans: spans(2007, model.LastYear)},
		"2007 +":               {Spans: spans(2007, model.LastYear)},
		"from 2007":            {Spans: spans(2007, model.LastYear)},
		"to 2006":              {Spans: spans(model.FirstYear, 2006)},
		"To  2006":             {Spans: spans(model.FirstYear, 2006)},
		"2001, 2003-2004":      {Spans: spans(2001, 2001, 2003, 2004)},
		"2001; 2003\n2005+":    {Spans: spans(2001, 2001, 2003, 2003, 2005, model.LastYear)},
		"2001 or to 1999":      {Spans: spans(2001, 2001, model.FirstYear, 1999)},
		"not 2003":             {Not: true, Spans: spans(2003, 2003)},
		"Not 2003 or 2005":     {Not: true, Spans: spans(2003, 2003, 2005, 2005)},
		"not 2001-2003, 2007+": {Not: true, Spans: spans(2001, 2003, 2007, model.LastYear)},
	} {
		got, why := ReadYears(text)
		assert.Empty(t, why, "%q", text)
		assert.Equal(t, want, got, "%q", text)
	}
}

func TestReadYearsRefuses(t *testing.T) {
	for text, says := range map[string]string{
		"n/a":            "takes no n/a",
		"2012-2007":      `"2012-2007" run backwards; write 2007-2012`,
		"201":            `"201" is not a year .*write 2011, 2007-2012`,
		"20011":          `"20011" is not a year`,
		"2001.5":         "a part of a year, .* write 2001;",
		"2001-":          "write 2001\\+",
		"-2001":          "write to 2001$",
		"2001, any":      `"any" is not a year`,
		"2001, not 2003": `"not 2003" is not a year`,
		"not":            `"not" is not a year`,
		",":              `"," names no year`,
		"２００１":           "is not a year",
	} {
		_, why := ReadYears(text)
		assert.Regexp(t, says, why, "%q", text)
	}
}

// TestYearsReadBack prints lists of years and reads them again.
func TestYearsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := &model.Years{Not: rapid.Bool().Draw(t, "not")}
		var words []string
		for range rapid.IntRange(1, 4).Draw(t, "pieces") {
			from := rapid.IntRange(1980, 2030).Draw(t, "from")
			to := from + rapid.IntRange(0, 9).Draw(t, "more")
			span := model.Span{From: from, To: to}
			word := fmt.Sprintf("%d%s%d", from, rapid.SampledFrom([]string{"-", " - ", "–", " to "}).Draw(t, "dash"), to)
			switch rapid.IntRange(0, 3).Draw(t, "form") {
			case 0:
				span.To, word = from, fmt.Sprint(from)
			case 1:
				span.To, word = model.LastYear, fmt.Sprintf("%d+", from)
			case 2:
				span.From, word = model.FirstYear, fmt.Sprintf("to %d", to)
			}
			want.Spans, words = append(want.Spans, span), append(words, word)
		}
		text := strings.Join(words, rapid.SampledFrom([]string{", ", ";", "\n", " or ", "  OR "}).Draw(t, "separator"))
		if want.Not {
			text = "not " + text
		}
		got, why := ReadYears(text)
		require.Empty(t, why, "%q", text)
		require.Equal(t, want, got, "%q", text)
		for year := 1970; year < 2050; year++ {
			plain := model.Years{Spans: want.Spans}
			require.Equal(t, plain.Has(year) != want.Not, got.Has(year), "%q in %d", text, year)
		}
	})
}

func TestYearsNeverPanic(t *testing.T) {
	letters := rapid.SampledFrom([]string{"2", "0", "1", "9", "-", "–", "+", " ", ",", "or", "not", "to", "from", "n/a", "any", "\n", "é", "\x00"})
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(letters, 0, 12).Draw(t, "letters"), "")
		years, why := ReadYears(text)
		if years != nil {
			require.Empty(t, why)
			require.NotEmpty(t, years.Spans, "%q", text)
		}
	})
}

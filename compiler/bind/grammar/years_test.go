package grammar

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestReadYears(t *testing.T) {
	for text, want := range map[string]Years{
		"":                     {Any: true},
		" ANY ":                {Any: true},
		"2011":                 {Spans: []Span{{2011, 2011}}},
		"2007 – 2012":          {Spans: []Span{{2007, 2012}}},
		"From 2007 to 2012":    {Spans: []Span{{2007, 2012}}},
		"2007 +":               {Spans: []Span{{2007, Open}}},
		"from 2007":            {Spans: []Span{{2007, Open}}},
		"to  2006":             {Spans: []Span{{Open, 2006}}},
		"2001 or to 1999":      {Spans: []Span{{2001, 2001}, {Open, 1999}}},
		"not 2001-2003\n2007+": {Not: true, Spans: []Span{{2001, 2003}, {2007, Open}}},
		"0000-0001":            {Spans: []Span{{0, 1}}},
	} {
		got, why := ReadYears(text)
		assert.Empty(t, why, "%q", text)
		assert.Equal(t, want, got, "%q", text)
	}
}

func TestReadYearsFaults(t *testing.T) {
	for text, says := range map[string]string{
		"n/a":            "every vehicle has a model year, so Years takes no n/a; write any where the year makes no difference",
		"2001, 2012-7":   `"2012-7" is not a year or a range of years; write 2011, 2007-2012, 2007+ or to 2006`,
		"2012-2007":      `the years "2012-2007" run backwards; write 2007-2012`,
		"2001, not 2003": `"not 2003" is not a year or a range of years; write 2011, 2007-2012, 2007+ or to 2006`,
		";":              `";" names no year; write years such as 2011, 2007-2012, 2007+ or to 2006`,
	} {
		got, why := ReadYears(text)
		assert.Equal(t, says, why, "%q", text)
		assert.Empty(t, got, "%q", text)
	}
}

func TestOnwards(t *testing.T) {
	for text, want := range map[string]int{
		"2004": 0, "2004-2005": 0, "2004+": 0, "to 2004": 0,
		"2004-": 2004, "2004 and later": 2004, "since 2004": 2004, "Since 2004 up": 2004, "2004 onwards": 2004,
	} {
		from, ok := Onwards(text)
		assert.Equal(t, want, from, "%q", text)
		assert.Equal(t, want > 0, ok, "%q", text)
	}
}

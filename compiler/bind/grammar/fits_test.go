package grammar

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// number is the way to read a text that can be nothing but the number of a part.
func number(text string) Readings[Choice] { return alone(text) }

// counting is a choice of a part with its quantity, which may be a number as a whole.
func counting(text string, n int, part string) Readings[Choice] {
	way := Readings[Item]{{If: text, As: Item{Number: text}}, {As: Item{Quantity: n, Number: part}}}
	return Readings[Choice]{
		{If: text, As: Choice{Items: []Readings[Item]{{{As: Item{Number: text}}}}}},
		{As: Choice{Items: []Readings[Item]{way}}},
	}
}

func TestReadFits(t *testing.T) {
	parts := func(choices ...Readings[Choice]) Fits { return Fits{Choices: choices} }
	both := Readings[Choice]{
		{If: "A +B", As: Choice{Items: []Readings[Item]{{{As: Item{Number: "A +B"}}}}}},
		{As: Choice{Items: []Readings[Item]{{{As: Item{Number: "A"}}}, {{As: Item{Number: "B"}}}}}},
	}
	for text, want := range map[string]Readings[Fits]{
		" A ":        {{If: "A", As: parts(number("A"))}, {As: parts(number("A"))}},
		"A or b":     {{If: "A or b", As: parts(number("A or b"))}, {As: parts(number("A"), number("b"))}},
		"A +B":       {{If: "A +B", As: parts(number("A +B"))}, {As: parts(both)}},
		"3\u00a0× A": {{If: "3\u00a0× A", As: parts(number("3\u00a0× A"))}, {As: parts(Readings[Choice]{counting("3\u00a0× A", 3, "A")[0], counting("3 × A", 3, "A")[1]})}},
		"2x A or B":  {{If: "2x A or B", As: parts(number("2x A or B"))}, {As: parts(counting("2x A", 2, "A"), number("B"))}},
		"none-5":     {{If: "none-5", As: parts(number("none-5"))}, {As: parts(number("none-5"))}},
		"none":       {{If: "none", As: parts(number("none"))}, {As: Fits{Word: "none"}}},
		"ask A":      {{If: "ask A", As: parts(number("ask A"))}, {As: Fits{Word: "ask", Reason: "A"}}},
		"D-1, D-2":   {{If: "D-1, D-2", As: parts(number("D-1, D-2"))}, {As: Fits{Fault: `"D-1, D-2" has a comma or semicolon between items; write "D-1 or D-2" for a choice, or "D-1 + D-2" for parts fitted together`}}},
		"-":          {{If: "-", As: parts(number("-"))}, {As: Fits{Fault: `"-" says nothing; write none and the reason where nothing belongs, or leave the cell blank where nothing is known`}}},
	} {
		assert.Equal(t, want, ReadFits(text), "%q", text)
	}
}

// TestFitsTakes holds that names decide what a cell says.
func TestFitsTakes(t *testing.T) {
	words := Fits{Word: "none", Reason: "6 or 7"}
	for _, c := range []struct {
		text     string
		declared []string
		says     string // the readings that are taken, in brackets what is one number
	}{
		{"none 6 or 7", nil, words.String()},
		{"none 6 or 7", []string{"none 6"}, "[none 6] or [7]"},
		{"none 6 or 7", []string{"7"}, words.String()},
		{"none 6 or 7", []string{"none 6 or 7"}, "[none 6 or 7]"},
		{"ask + B", []string{"ask"}, "[ask] + [B]"},
		{"ask + B", nil, "ask: + B"},
		{"with A", nil, "with A"},
		{"with A + B", []string{"with A"}, "[with A] + [B]"},
		{"tbd - in spring", nil, "planned: in spring"},
		{"none (no axle (yet))", nil, "none: no axle (yet)"},
		{"2 x 4", nil, "2 x [4]"},
		{"2 x 4", []string{"2 x 4"}, "[2 x 4]"},
		{"3 x 2 x 4", nil, "3 x [2 x 4]"},
		{"2 x none or A", []string{"none"}, "2 x [none] or [A]"},
		{"A + B or C", []string{"A + B"}, "[A + B] or [C]"},
		{"A or B", []string{"A or B"}, "[A or B]"},
	} {
		assert.Equal(t, c.says, taken(ReadFits(c.text).Take(declaring(c.declared...)), declaring(c.declared...)), "%q", c.text)
	}
}

// taken writes what a cell says where these names are declared.
func taken(f Fits, declared func(string) bool) string {
	said := ""
	for i, c := range f.Choices {
		if i > 0 {
			said += " or "
		}
		for k, way := range c.Take(declared).Items {
			if k > 0 {
				said += " + "
			}
			item := way.Take(declared)
			item.Number = "[" + item.Number + "]"
			said += item.String()
		}
	}
	if len(f.Choices) > 0 {
		return said
	}
	return f.String()
}

func TestFitsFaults(t *testing.T) {
	for text, says := range map[string]string{
		"—":            `"—" says nothing; write none and the reason where nothing belongs, or leave the cell blank where nothing is known`,
		"NA":           `"NA" is for conditions; write none and the reason where nothing belongs here`,
		"A\n\n B":      `a line break stands between items; write "A or B" for a choice, or "A + B" for parts fitted together`,
		"A or":         `"A or" has nothing on one side of or; write a part on each side`,
		"A or or B":    `"A or or B" has nothing on one side of or; write a part on each side`,
		"A +":          `"A +": nothing stands on one side of +; write a part on each side`,
		"A + –":        `"A + –": a dash is no part`,
		"A or 0 x B":   `"A or 0 x B": a quantity is a whole number from 1 to 9999, not 0`,
		"10000 x B":    `"10000 x B": a quantity is a whole number from 1 to 9999, not 10000`,
		"A or none":    `"A or none": none stands alone in its cell and cannot be one of several`,
		"A + 2 x ask":  `"A + 2 x ask": ask stands alone in its cell and cannot be one of several`,
		"A or with it": `"A or with it": with and a position stand alone in their cell and cannot be one of several`,
	} {
		assert.Equal(t, says, fault(ReadFits(text).Plain()), "%q", text)
	}
}

// fault gives the first reason why a cell cannot be read that declares nothing; "" for none.
func fault(f Fits) string {
	if f.Fault != "" {
		return f.Fault
	}
	for _, c := range f.Choices {
		if c.Plain().Fault != "" {
			return c.Plain().Fault
		}
		for _, way := range c.Plain().Items {
			if why := way.Plain().Fault; why != "" {
				return why
			}
		}
	}
	return ""
}

func TestSevered(t *testing.T) {
	assert.Equal(t, []string{"A", " B", "C", "D ", " E"}, Severed("A, B;C or D + E"))
	number, ok := Uncounted("2 x A")
	assert.True(t, ok)
	assert.Equal(t, "A", number)
	number, ok = Uncounted("2xA")
	assert.False(t, ok)
	assert.Equal(t, "2xA", number)
}

package gaps

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/bind"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Row is a fitment row with one cell that no sheet has yet.
type Row struct {
	Text    string
	Cell    *model.FitCell
	Where   model.When // its conditions, of traits on a line in closed ranges of what the platforms have
	Unknown []string   // what is said of numbers that nothing declares: they stand for parts to come
}

// Reader reads rows to be tried, written as `PART in POSITION where CONDITIONS`.
type Reader struct {
	cat   *model.Catalogue
	words *bind.Words
	rows  int
}

// NewReader reads in the words of a catalogue.
func NewReader(cat *model.Catalogue) *Reader { return &Reader{cat: cat, words: bind.Outside(cat)} }

// Position finds a position by name.
func (r *Reader) Position(name string) (*model.Position, error) { return r.words.Position(name) }

// Platform finds a platform by name.
func (r *Reader) Platform(name string) (*model.Platform, error) { return r.words.Platform(name) }

var (
	inWord    = regexp.MustCompile(`(?i)[\s\p{Z}]in[\s\p{Z}]`)
	whereWord = regexp.MustCompile(`(?i)[\s\p{Z}]where[\s\p{Z}]`)
	// between finds what may stand between two conditions.
	between = regexp.MustCompile(`(?i)[,;\n]|[\s\p{Z}]and[\s\p{Z}]`)
)

// Row reads one row. PART is anything that a fitment cell may say. CONDITIONS are columns
// of the sheet with what would stand under them, `Front suspension = Air beam, Years =
// 2009+`; Precedence may be among them and, for a part that is not declared, Line size
// and Family. Errors are sentences for the user.
func (r *Reader) Row(text string) (*Row, error) {
	fits, position, conditions, err := r.parts(text)
	if err != nil {
		return nil, err
	}
	row := &model.Fitment{}
	cols, err := r.conditions(conditions, row)
	if err != nil {
		return nil, err
	}
	if err := r.onLine(cols, row); err != nil {
		return nil, err
	}
	r.rows++
	at := cell.Place{Sheet: &cell.Sheet{File: fmt.Sprintf("(tried %d)", r.rows)}}
	row.At = at
	c := &model.FitCell{Row: row, Position: position, At: at}
	row.Cells = []*model.FitCell{c}
	out := &Row{Text: text, Cell: c, Where: row.When.Closed(row.When.On(r.cat))}
	if c.Fits, out.Unknown, err = r.words.Fits(fits); err != nil {
		return nil, err
	}
	if c.Fits.With == position {
		return nil, fmt.Errorf("%q says with %s, which is its own position", fits, position.Name)
	}
	return out, r.describe(c.Fits, cols)
}

// parts cuts a row at `in` and `where`.
func (r *Reader) parts(text string) (fits string, position *model.Position, conditions string, err error) {
	wheres := cuts(whereWord, text)
	for _, cut := range wheres {
		if fits, position, err = r.head(text[:cut[0]]); err == nil {
			return fits, position, text[cut[1]:], nil
		}
	}
	if fits, position, whole := r.head(text); whole == nil || len(wheres) == 0 {
		return fits, position, "", whole
	}
	return "", nil, "", err
}

// cuts gives the places of a word, the last first: what stands before it may hold the
// word itself.
func cuts(re *regexp.Regexp, text string) [][]int {
	all := re.FindAllStringIndex(text, -1)
	slices.Reverse(all)
	return all
}

// head reads `PART in POSITION`.
func (r *Reader) head(text string) (fits string, position *model.Position, err error) {
	err = fmt.Errorf("%q names no position; write PART in POSITION where CONDITIONS", text)
	for i, cut := range cuts(inWord, text) {
		p, missing := r.words.Position(strings.TrimSpace(text[cut[1]:]))
		if missing == nil {
			return strings.TrimSpace(text[:cut[0]]), p, nil
		}
		if i == 0 {
			err = missing
		}
	}
	return "", nil, err
}

// further is what a row to be tried says beside its conditions, and what was written of traits on
// a line.
type further struct {
	line, family string
	onLine       []said
}

type said struct {
	trait *model.Trait
	text  string
}

// onLine refuses numbers and dates that none of the row's platforms has: in a sheet they would
// match nothing.
func (r *Reader) onLine(more further, row *model.Fitment) error {
	for _, s := range more.onLine {
		if err := r.words.Outside(s.trait, s.text, row.When.On(r.cat)); err != nil {
			return err
		}
	}
	return nil
}

// conditions reads what stands behind where.
func (r *Reader) conditions(text string, row *model.Fitment) (more further, err error) {
	seen := map[string]bool{}
	pieces := r.pieces(text)
	words := r.words.On(r.platform(pieces))
	for _, c := range pieces {
		name, value, ok := bind.CutColumn(c, r.isColumn)
		if !ok {
			return more, fmt.Errorf("%q is no condition; write a column, =, and what would stand under it", c)
		}
		key := r.column(name)
		if seen[key] {
			return more, fmt.Errorf("%s is named twice", name)
		}
		seen[key] = true
		if err := r.condition(words, name, value, row, &more); err != nil {
			return more, err
		}
	}
	slices.SortFunc(row.When.Traits, func(a, b model.TraitSet) int { return a.Trait.Index - b.Trait.Index })
	return more, nil
}

// pieces cuts conditions apart: a new one begins where a comma, a semicolon or the word
// and is followed by a name and an equals sign. Names may hold such signs themselves.
func (r *Reader) pieces(text string) []string {
	if strings.TrimSpace(text) == "" {
		return nil
	}
	var out []string
	from, named := 0, strings.IndexByte(text, '=')
	for _, cut := range between.FindAllStringIndex(text, -1) {
		name, _, ok := strings.Cut(text[cut[1]:], "=")
		if cut[0] < named || !ok || between.MatchString(name) && !r.isColumn(name) {
			continue
		}
		out = append(out, text[from:cut[0]])
		from, named = cut[1], cut[1]+len(name)
	}
	return append(out, text[from:])
}

// columns that are no traits.
var columns = []string{"Platform", "Years", "Precedence", "Line size", "Family"}

// platform gives the one platform that conditions name, nil where they name none or several.
func (r *Reader) platform(pieces []string) *model.Platform {
	for _, c := range pieces {
		name, value, ok := bind.CutColumn(c, r.isColumn)
		if !ok || r.column(name) != "platform" {
			continue
		}
		if on, err := r.words.Platforms(value); err == nil && len(on) == 1 {
			return on[0]
		}
	}
	return nil
}

// column gives the name of a column as it is declared, folded, where it is.
func (r *Reader) column(name string) string {
	column, t, err := r.words.Column(name)
	switch {
	case err != nil:
		return word.Fold(name)
	case t != nil:
		return word.Fold(t.Name)
	}
	return column
}

func (r *Reader) isColumn(name string) bool {
	if _, _, err := r.words.Column(name); err == nil {
		return true
	}
	return slices.ContainsFunc(columns, func(c string) bool { return word.Fold(c) == word.Fold(name) })
}

func (r *Reader) condition(words *bind.Words, name, value string, row *model.Fitment, more *further) (err error) {
	if t, known := words.Trait(name); known == nil {
		set, restricts, err := words.Values(t, value)
		if restricts {
			row.When.Traits = append(row.When.Traits, set)
			more.onLine = append(more.onLine, said{t, value})
		}
		return err
	}
	switch r.column(name) {
	case "platform":
		row.When.Platforms, err = r.words.Platforms(value)
	case "years":
		row.When.Years, err = r.words.Years(value)
	case "precedence":
		if row.Precedence, err = strconv.Atoi(value); err != nil {
			err = fmt.Errorf("the column Precedence takes a whole number, not %q", value)
		}
	case "line size":
		more.line = value
	case "family":
		more.family = value
	default:
		names := slices.Clone(columns)
		for _, t := range r.cat.Traits {
			names = append(names, t.Name)
		}
		return fmt.Errorf("%q is no trait, and none of %s%s", name, strings.Join(columns, ", "), word.DidYouMean(name, names))
	}
	return err
}

// describe gives parts that nothing declares what was said of them. What is declared is
// not said again.
func (r *Reader) describe(fits *model.Fits, more further) error {
	var news []*model.Part
	fits.Parts(func(p *model.Part) {
		if !p.Known {
			news = append(news, p)
		}
	})
	if (more.line != "" || more.family != "") && len(news) == 0 {
		return errors.New("only a part that is not declared yet takes a Line size and a Family here")
	}
	for _, p := range news {
		p.Family = strings.TrimSpace(more.family)
		if more.line == "" {
			continue
		}
		size, err := measure.ParseSize(more.line, measure.Options{Comma: r.cat.Settings.DecimalComma})
		if err != nil {
			return err
		}
		p.Line, p.LineAt = &size, cell.Place{Sheet: &cell.Sheet{File: "(tried)"}}
	}
	return nil
}

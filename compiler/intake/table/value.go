package table

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"ferrule/schema"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// field makes a field of a value and reports what spreadsheet programs and hands have
// done to it. A value that cannot be what was typed is Broken.
func (r *reader) field(column int, v *sheets.Value, at cell.Pos) Field {
	f := Field{Text: v.Text, At: at, Shared: v.Shared, Column: int32(column), Kind: v.Kind, Plain: r.plain(v), struck: v.Struck, partly: v.Partly}
	if !f.Plain {
		r.judged(&f, v)
	}
	if f.Kind == sheets.Text && r.table.Columns[column].counts {
		f.count(r.typed)
	}
	return f
}

// count makes a number of a text under a column of numbers that is a whole number to
// everyone who reads it; where the workbook is a text file, which has no other numbers, of one
// with decimals as well.
func (f *Field) count(typed bool) {
	text := strings.TrimSpace(f.Text)
	switch {
	case wholeText.MatchString(text):
	case typed && decimalText.MatchString(text):
		n, err := strconv.ParseFloat(text, 64)
		if err != nil {
			panic("table: count: digits are no number: " + text)
		}
		text = strconv.FormatFloat(n, 'f', -1, 64)
	default:
		return
	}
	f.Text, f.Kind, f.Shared = text, sheets.Number, 0
}

// wholeText is a whole number in the usual digits, as it is typed.
var wholeText = regexp.MustCompile(`^(?:0|-?[1-9]\d{0,8})$`)

// decimalText is a number with no more digits than a spreadsheet program keeps, which nobody
// takes for another: a point and three digits may be thousands.
var decimalText = regexp.MustCompile(`^(?:0|-?[1-9]\d{0,11}|-?(?:0|[1-9]\d{0,8})\.(?:\d{1,2}|\d{4,6}))$`)

// judged looks closely at a value that is not plain.
func (r *reader) judged(f *Field, v *sheets.Value) {
	if r.layout.Kind == schema.Layouts && v.Formula != "" && (v.Kind == sheets.Blank || v.Kind == sheets.Error) {
		f.Kind, f.Text, f.Shared = sheets.Text, "="+v.Formula, 0 // `= new` is taken for a formula by who writes it
		return
	}
	r.noticeText(v)
	j := r.judge(int(f.Column), *v, f.At)
	f.Broken = j.broken
	if f.OnLine = j.broken && j.onLine != ""; f.OnLine {
		f.Text, f.Shared = j.onLine, 0
	}
}

// judge looks at a value by what its column holds.
func (r *reader) judge(column int, v sheets.Value, at cell.Pos) *judge {
	j := &judge{reader: r, Value: &v, column: r.table.Columns[column], at: r.table.Place(at)}
	j.role = roleOf(r.layout.Kind, j.column)
	switch v.Kind {
	case sheets.Blank:
		j.stale()
	case sheets.Error:
		j.failed()
	case sheets.Date:
		j.date()
	case sheets.Number:
		j.number()
	case sheets.Bool:
		j.truth()
	case sheets.Text:
		j.text()
	}
	return j
}

// verdict is an answer that is kept.
type verdict uint8

const (
	unasked verdict = iota
	yes
	no
)

// plain is asked once of a text that many cells share. What it is true of is filled in.
func (r *reader) plain(v *sheets.Value) bool {
	if v.Shared == 0 || int(v.Shared) >= len(r.shared) {
		return plain(v)
	}
	known := &r.shared[v.Shared]
	if *known == unasked {
		*known = no
		if plain(v) {
			*known = yes
		}
	}
	return *known == yes
}

// plain tells the great majority of values at once, which nothing can have been done
// to: printable ASCII of no suspect form, and whole numbers as the usual formats show
// them.
func plain(v *sheets.Value) bool {
	switch v.Kind {
	case sheets.Number:
		return (v.Format == "" || v.Format == "0") && math.Trunc(v.Number) == v.Number && math.Abs(v.Number) < 1e15
	case sheets.Text:
		for i := range len(v.Text) {
			if c := v.Text[i]; c < ' ' || c >= 0x7f {
				return false
			}
		}
		return filledIn(v) && !suspect(v.Text)
	}
	return false
}

// judge looks at one value.
type judge struct {
	*sheets.Value
	reader *reader
	column Column
	role   role
	at     cell.Place
	broken bool
	onLine string      // what it says where the column holds dates, or serial numbers; "" for nothing
	typed  []string    // what may have been typed, of what is told next
	shared sharedFault // what other cells of the column may have as well; none where least is 0
}

// say reports something about the value, once: a merged range has one value for many
// records.
func (j *judge) say(what What, message, fix string) {
	j.sayOf("", what, message, fix)
}

// sayOf is say for a message that quotes a formula, which changes when rows are inserted:
// gist is what it says without it.
func (j *judge) sayOf(gist string, what What, message, fix string) {
	j.broken = j.broken || what.breaks()
	key := saying{j.at.Pos, what}
	if j.reader.said[key] {
		return
	}
	if j.reader.said == nil {
		j.reader.said = map[saying]bool{}
	}
	j.reader.said[key] = true
	f := &Fault{What: what, Message: message, Constant: gist, Fix: fix, Cells: []cell.Place{j.at}, Meant: j.typed}
	j.typed = nil
	if j.shared.least > 0 {
		if j.reader.faults == nil {
			j.reader.faults = map[sharedFault][]*Fault{}
		}
		at := j.shared
		j.reader.faults[at], j.shared = append(j.reader.faults[at], f), sharedFault{}
	}
	j.reader.report(f)
}

// share says that what is told next of the cell is a fault that the cells of its column may
// have in common; words are said of several.
func (j *judge) share(what, words string, least int) {
	j.shared = sharedFault{j.at.Pos.Col, what, words, least}
}

// saying is what has been said of a cell.
type saying struct {
	at   cell.Pos
	what What
}

// stale reports a formula that was never calculated.
func (j *judge) stale() {
	j.sayOf("a formula has no stored value", FormulaStale,
		fmt.Sprintf("the formula =%s has no stored value", short(j.Formula)),
		"open the workbook in a spreadsheet program, let it calculate, and save it; or type the value")
}

// failed reports a formula that gave an error, or an error that was typed or pasted.
func (j *judge) failed() {
	if f := j.Formula; f != "" {
		j.sayOf("a formula gives "+j.Text, Failed,
			fmt.Sprintf("the formula =%s gives %s instead of a value", short(f), j.Text),
			"mend the formula, or type the value")
		return
	}
	j.say(Failed, fmt.Sprintf("the cell shows %s instead of a value", j.Text), "type the value")
}

// truth reports a truth value where a name belongs. Traits may have the values TRUE and
// FALSE.
func (j *judge) truth() {
	if j.role != code && j.role != name && j.role != size && j.role != years {
		return
	}
	j.say(TruthValue,
		fmt.Sprintf("the cell holds the truth value %s, which spreadsheet programs show in each reader's own language, and it is read as the text %s", j.Text, j.Text),
		fmt.Sprintf("set the cell's format to text and type %s if that is the name, or type the name that is meant", j.Text))
}

func short(s string) string {
	if r := []rune(s); len(r) > 60 {
		return string(r[:60]) + "…"
	}
	return s
}

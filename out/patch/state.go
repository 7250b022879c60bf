package patch

import (
	"strconv"
	"strings"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// State is what a sheet has already of all that helps to fill it in and to print it.
type State struct {
	Pane   bool         // rows or columns stay in sight, or it is shown in more than one window or page by page
	Filter bool         // a filter, on the sheet or on a table of it
	Print  bool         // a page set-up
	Titles bool         // rows that are repeated in print
	Picks  []cell.Range // cells with a list or another rule for what is typed
	Widths []cell.Range // columns of which something is said, as ranges of the first row
	Notes  map[cell.Pos]bool
}

// States looks at all sheets of a workbook. The error is a *Refusal or a *sheets.Fault.
func States(book *sheets.Book) ([]State, error) {
	p := newPatching(book, Change{})
	if err := p.look(); err != nil {
		return nil, err
	}
	titled, err := p.titled()
	if err != nil {
		return nil, err
	}
	out := make([]State, len(book.Sheets()))
	for i := range out {
		x, err := p.edit(book.SheetPart(i))
		if err != nil {
			return nil, err
		}
		out[i] = stateOf(x)
		out[i].Titles = titled[i]
		at, n, err := book.Commented(i, nil)
		if err != nil {
			return nil, err
		}
		if out[i].Notes = map[cell.Pos]bool{}; n > len(at) {
			return nil, refuse("its sheet %q has notes on %d cells", book.Sheets()[i].Name, n)
		}
		for _, c := range at {
			out[i].Notes[c] = true
		}
	}
	return out, nil
}

func stateOf(x *part) State {
	var s State
	views, sqref, rule := 0, -1, false
	o := outlined(x, worksheetOrder, func(within string, t tag) {
		name := string(local(t.name))
		if name == "dataValidation" {
			rule = t.form == opening
		}
		switch {
		case name == "sqref" && t.form == opening && rule: // of a rule among extensions
			sqref = t.to
		case name == "sqref" && t.form == closing && sqref >= 0:
			s.pick(string(x.old[sqref:t.from]))
			sqref = -1
		case t.form == closing:
		case name == "dataValidation":
			s.pick(value(x.old, t, "sqref"))
		case within == "sheetViews" && t.depth == 3:
			views++
			s.Pane = s.Pane || value(x.old, t, "view") == "pageLayout"
		case name == "pane":
			s.Pane = true
		case name == "pageSetUpPr":
			s.Print = true
		case within == "cols" && name == "col":
			s.width(value(x.old, t, "min"), value(x.old, t, "max"))
		}
	})
	s.Pane = s.Pane || views > 1
	s.Filter = o.find("autoFilter") != nil || o.find("tableParts") != nil
	s.Print = s.Print || o.find("pageSetup") != nil
	return s
}

// pick keeps the ranges of a rule. A range that cannot be read is the whole sheet.
func (s *State) pick(ranges string) {
	for _, r := range strings.Fields(ranges) {
		at, ok := cell.ParseRange(r)
		if one, single := cell.Parse(r); single {
			at, ok = cell.Range{From: one, To: one}, true
		}
		if !ok {
			at = cell.Range{From: cell.Pos{Row: 1, Col: 1}, To: cell.Pos{Row: cell.MaxRow, Col: cell.MaxCol}}
		}
		s.Picks = append(s.Picks, at)
	}
}

func (s *State) width(from, to string) {
	a, err1 := strconv.ParseInt(from, 10, 32)
	b, err2 := strconv.ParseInt(to, 10, 32)
	if err1 == nil && err2 == nil {
		s.Widths = append(s.Widths, cell.Range{From: cell.Pos{Row: 1, Col: int32(a)}, To: cell.Pos{Row: 1, Col: int32(b)}})
	}
}

// Picked tells whether a rule is about a cell of a range.
func (s *State) Picked(r cell.Range) bool { return meets(s.Picks, r) }

// Wide tells whether something is said of a column.
func (s *State) Wide(col int32) bool {
	at := cell.Pos{Row: 1, Col: col}
	return meets(s.Widths, cell.Range{From: at, To: at})
}

func meets(all []cell.Range, r cell.Range) bool {
	for _, x := range all {
		if x.From.Row <= r.To.Row && r.From.Row <= x.To.Row && x.From.Col <= r.To.Col && r.From.Col <= x.To.Col {
			return true
		}
	}
	return false
}

// titled tells of each sheet whether rows or columns of it are repeated in print.
func (p *patching) titled() ([]bool, error) {
	places, main, err := p.places()
	if err != nil {
		return nil, err
	}
	out := make([]bool, len(places))
	outlined(main, workbookOrder, func(within string, t tag) {
		if within != "definedNames" || t.form == closing || !strings.EqualFold(value(main.old, t, "name"), printTitles) {
			return
		}
		for i, n := range places {
			out[i] = out[i] || value(main.old, t, "localSheetId") == strconv.Itoa(n)
		}
	})
	return out, nil
}

// printTitles is the name of what is repeated in print (ECMA-376 Part 1, 18.2.5).
const printTitles = "_xlnm.Print_Titles"

// places gives where each sheet stands among all that the workbook lists, charts among them: names of one
// sheet go by that.
func (p *patching) places() ([]int, *part, error) {
	main, err := p.edit(p.book.WorkbookPart())
	if err != nil {
		return nil, nil, err
	}
	rels, err := p.book.Relations(main.name)
	if err != nil {
		return nil, nil, err
	}
	targets := map[string]string{}
	for _, r := range rels {
		targets[r.ID] = r.Target
	}
	at, n := map[string]int{}, 0
	outlined(main, workbookOrder, func(within string, t tag) {
		if within == "sheets" && t.depth == 3 && t.form != closing {
			at[targets[idOf(main.old, t)]] = n
			n++
		}
	})
	out := make([]int, len(p.book.Sheets()))
	for i := range out {
		n, ok := at[p.book.SheetPart(i)]
		if !ok {
			return nil, nil, refuse("its part %s lists the sheets in a way that is not known here", main.name)
		}
		out[i] = n
	}
	return out, main, nil
}

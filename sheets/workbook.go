package sheets

import (
	"encoding/xml"
	"strings"
)

// workbook is what the workbook part says.
type workbook struct {
	part     string
	calendar calendar
	sheets   []listed
	strings  *relation // nil where there are none
	styles   *relation
}

// listed is a worksheet with where its cells are.
type listed struct {
	Info
	part string
}

// openWorkbook finds the workbook part by its relationship and reads it.
func (p *pack) openWorkbook() (*workbook, error) {
	rels, err := p.root()
	if err != nil {
		return nil, err
	}
	var w *workbook
	for _, r := range rels {
		if r.kind != "officeDocument" {
			continue
		}
		if w != nil {
			return nil, fileFault(saveAgain, "the file holds two workbooks")
		}
		f, err := p.follow(r)
		if err != nil {
			return nil, err
		}
		w = &workbook{part: f.Name}
	}
	if w == nil {
		return nil, p.noWorkbook()
	}
	if strings.HasSuffix(strings.ToLower(w.part), ".bin") {
		return nil, fileFault(saveAs, "the file is a binary workbook (.xlsb), not an .xlsx workbook")
	}
	return w, w.read(p)
}

// root reads the package's relationships. A package without any is something else.
func (p *pack) root() ([]relation, error) {
	if p.find("_rels/.rels") == nil {
		return nil, p.noWorkbook()
	}
	return p.relations("")
}

// noWorkbook says what a zip file is that holds no workbook.
func (p *pack) noWorkbook() *Fault {
	kinds := []struct{ part, is, todo string }{
		{"meta-inf/manifest.xml", "an OpenDocument file (.ods)", saveAs},
		{"index/document.iwa", "a Numbers document", "export it as .xlsx"},
		{"xl/workbook.xml", "a damaged workbook: the list that leads to its sheets is missing", copyAgain},
	}
	for _, k := range kinds {
		if p.find(k.part) != nil {
			return fileFault(k.todo, "the file is %s", k.is)
		}
	}
	return fileFault("see that it is the right file, and unpack it if it is a zip archive", "the file is a zip archive that holds no workbook")
}

func (w *workbook) read(p *pack) error {
	rels, err := p.relations(w.part)
	if err != nil {
		return err
	}
	byID := map[string]relation{}
	for _, r := range rels {
		byID[r.id] = r
		if err := w.note(r); err != nil {
			return err
		}
	}
	m, err := p.markup(w.part, "", maxSmall)
	if err != nil {
		return err
	}
	names, parts := map[string]bool{}, map[string]bool{}
	return m.walk("workbook", func(path string, t xml.StartElement) error {
		switch path {
		case "workbook/workbookPr":
			return w.setCalendar(m, t)
		case "workbook/sheets/sheet":
			return w.addSheet(p, m, t, byID, names, parts)
		}
		return nil
	})
}

// note keeps the relations that are not led to by an id.
func (w *workbook) note(r relation) error {
	var to **relation
	switch r.kind {
	case "sharedStrings":
		to = &w.strings
	case "styles":
		to = &w.styles
	default:
		return nil
	}
	if *to != nil {
		return fileFault(saveAgain, "the workbook has two parts of the kind %q", r.kind)
	}
	*to = &r
	return nil
}

func (w *workbook) setCalendar(m *markup, t xml.StartElement) error {
	late, err := m.flag(t, "date1904", false)
	if err != nil {
		return err
	}
	compatible, err := m.flag(t, "dateCompatibility", true)
	if err != nil {
		return err
	}
	switch {
	case late:
		w.calendar = from1904
	case !compatible:
		w.calendar = plain1900
	}
	return nil
}

func (w *workbook) addSheet(p *pack, m *markup, t xml.StartElement, byID map[string]relation, names, parts map[string]bool) error {
	name, _ := attr(t, "name")
	switch name = unescape(name); {
	case name == "":
		return m.fault("one of its sheets has no name")
	case len(name) > maxName:
		return m.fault("one of its sheets has a name of more than %d bytes", maxName)
	case len(names) == maxEntries:
		return m.fault("it lists more than %d sheets", maxEntries)
	}
	if key := strings.ToLower(strings.ToUpper(name)); names[key] {
		return m.fault("two of its sheets have the name %q", name)
	} else {
		names[key] = true
	}
	state, _ := attr(t, "state")
	// Some programs write "show", which is no state of the standard and has one meaning.
	see, ok := map[string]Visibility{"": Visible, "visible": Visible, "show": Visible, "hidden": Hidden, "veryHidden": VeryHidden}[state]
	if !ok {
		return m.fault("the state of sheet %q is %q, neither visible nor hidden", name, state)
	}
	id, named := relID(t)
	if named && id == "" {
		return nil // a module sheet of old programs, which has no cells
	}
	r, ok := byID[id]
	if !ok {
		return m.damaged("nothing says where the cells of sheet %q are", name)
	}
	switch r.kind {
	case "worksheet":
	case "chartsheet", "dialogsheet", "xlMacrosheet", "xlIntlMacrosheet":
		return nil
	default:
		return m.fault("sheet %q is of a kind that is not known here (%q)", name, r.kind)
	}
	f, err := p.follow(r)
	if err != nil {
		return err
	}
	if parts[f.Name] {
		return m.fault("sheet %q has the cells of another sheet", name)
	}
	parts[f.Name] = true
	w.sheets = append(w.sheets, listed{Info{name, see}, f.Name})
	return nil
}

// relID gives the attribute r:id.
func relID(t xml.StartElement) (id string, ok bool) {
	for _, a := range t.Attr {
		if a.Name.Local == "id" && (a.Name.Space+"/" == relTransitional || a.Name.Space+"/" == relStrict) {
			return a.Value, true
		}
	}
	return "", false
}

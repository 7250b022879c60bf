package desk

import (
	"errors"
	"fmt"
	"mime"
	"net/http"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"ferrule/compiler"
	"ferrule/out/mark"
	"ferrule/out/original"
)

// made are repaired copies that somebody has asked for. They are in memory only.
type made struct {
	key     string
	at      time.Time
	books   *original.Books // what they were made of
	copies  []madeCopy
	repairs []repair // that were chosen
}

type madeCopy struct {
	workbook, file string
	data           []byte
	signed         bool
}

// mostMade is how many are kept: what was made before goes.
const mostMade = 3

func (d *Desk) keep(m *made) {
	d.mu.Lock()
	defer d.mu.Unlock()
	m.at = time.Now()
	if d.shelf = append(d.shelf, m); len(d.shelf) > mostMade {
		d.shelf = slices.Delete(d.shelf, 0, 1)
	}
}

// errGone says that copies are not kept any more.
var errGone = errors.New("these copies are not kept any more; choose the repairs again")

func (d *Desk) kept(key string) (*made, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, m := range d.shelf {
		if same(m.key, key) {
			return m, nil
		}
	}
	return nil, errGone
}

// madePage tells what stands in repaired copies.
type madePage struct {
	At             string
	Copies         []copyLink
	Taken, Dropped []repair
}

// copyLink is a copy to be taken from the page.
type copyLink struct {
	Workbook, File, Link string
	Signed, Old          bool // Old: the workbook has been saved since
}

func (d *Desk) made(_ *state, r *http.Request) (any, error) {
	m, err := d.kept(r.URL.Query().Get("copies"))
	if err != nil {
		return nil, err
	}
	p := &madePage{At: m.at.Format(time.TimeOnly)}
	for i, c := range m.copies {
		_, err := m.books.Bytes(c.workbook)
		p.Copies = append(p.Copies, copyLink{c.workbook, c.file, "made/" + m.key + "/" + itoa(i), c.signed, err != nil})
	}
	for _, one := range m.repairs {
		if one.Dropped == "" {
			p.Taken = append(p.Taken, one)
		} else {
			p.Dropped = append(p.Dropped, one)
		}
	}
	return p, nil
}

// madeFile gives a repaired copy.
func (d *Desk) madeFile(w http.ResponseWriter, r *http.Request) {
	m, err := d.kept(r.PathValue("key"))
	if err != nil {
		d.refuse(w, "repairs", http.StatusNotFound, err)
		return
	}
	for i, c := range m.copies {
		if itoa(i) == r.PathValue("number") {
			give(w, c.file, c.data)
			return
		}
	}
	d.refuse(w, "repairs", http.StatusNotFound, errGone)
}

// marked gives the marked copy of a workbook, as the command mark would write it.
func (d *Desk) marked(w http.ResponseWriter, r *http.Request) {
	file, data, err := d.mark(r, r.URL.Query().Get("workbook"))
	if err != nil {
		d.refuse(w, "findings", http.StatusConflict, err)
		return
	}
	give(w, file, data)
}

func (d *Desk) mark(r *http.Request, name string) (file string, data []byte, err error) {
	d.making.Lock()
	defer d.making.Unlock()
	paths := d.paths()
	books, err := original.Note(paths)
	if err != nil {
		return "", nil, err
	}
	res, err := compiler.Compile(r.Context(), compiler.Input{Paths: paths}, compiler.Options{Today: d.options.Today()})
	if err != nil {
		return "", nil, err
	}
	for _, b := range mark.Books(books.Names, res.Findings) {
		if b.Name != name {
			continue
		}
		if data, err = books.Bytes(name); err != nil {
			return "", nil, fmt.Errorf("%s cannot be marked: %w", name, err)
		}
		c, err := b.Copy(data)
		if err != nil {
			return "", nil, fmt.Errorf("%s is not marked: %w", name, err)
		}
		return named(books.File(name), "marked"), c.Bytes, nil
	}
	return "", nil, fmt.Errorf("nothing stands in %q that could be marked", name)
}

// named gives the file of a copy a name that its workbook does not have.
func named(file, how string) string {
	ext := filepath.Ext(file)
	return strings.TrimSuffix(file, ext) + " (" + how + ")" + ext
}

// give hands a workbook out to be saved by the browser.
func give(w http.ResponseWriter, file string, data []byte) {
	kind := "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
	if strings.EqualFold(filepath.Ext(file), ".xlsm") {
		kind = "application/vnd.ms-excel.sheet.macroEnabled.12"
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": file}))
	w.Header().Set("Content-Length", itoa(len(data)))
	w.Write(data) //nolint:errcheck // who has gone cannot be told
}

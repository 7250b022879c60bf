package desk

import (
	"errors"
	"net/http"
	"net/url"
	"slices"

	"ferrule/out/fix"
)

// largestForm bounds what a form of a page may send, in bytes: the keys of all repairs of a page
// take a tenth of it.
const largestForm = 256 << 10

var (
	errOther = errors.New("the sheets have changed since the list was shown; nothing was made, look through the list again")
	errNone  = errors.New("no repair was chosen; tick those that you want to take")
)

// repair makes copies with the repairs that somebody has chosen, and leads to them.
func (d *Desk) repair(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, largestForm)
	if err := r.ParseForm(); err != nil {
		d.refuse(w, "repairs", http.StatusRequestEntityTooLarge, err)
		return
	}
	m, err := d.repaired(r)
	if err != nil {
		d.refuse(w, "repairs", http.StatusConflict, err)
		return
	}
	lead(w, "made?"+url.Values{"copies": {m.key}}.Encode())
}

// repaired does what the command fix does with the cells that were chosen.
func (d *Desk) repaired(r *http.Request) (*made, error) {
	d.making.Lock()
	defer d.making.Unlock()
	books, c, all, err := d.mending(r.Context(), d.paths())
	if err != nil {
		return nil, err
	}
	taken, err := chosen(all, r.PostForm)
	if err != nil {
		return nil, err
	}
	copies, err := c.Copies(r.Context(), taken)
	if err != nil {
		return nil, err
	}
	m := &made{key: secret(), books: books}
	for _, name := range books.Names {
		if c := copies[name]; c != nil {
			m.copies = append(m.copies, madeCopy{workbook: name, file: named(books.File(name), "repaired"), data: c.Bytes, signed: c.Signed})
		}
	}
	for _, p := range taken {
		m.repairs = append(m.repairs, repairOf(p))
	}
	d.keep(m)
	return m, nil
}

// chosen gives the repairs that a form names by their keys, or all that its page has shown. An error
// says that they are not what there is now.
func chosen(all []*fix.Proposal, form url.Values) ([]*fix.Proposal, error) {
	want := form["take"]
	if form.Has("all") {
		want = form["shown"]
	}
	if len(want) == 0 {
		return nil, errNone
	}
	var out []*fix.Proposal
	for _, p := range all {
		if slices.Contains(want, repairOf(p).Key) {
			out = append(out, p)
		}
	}
	if len(out) != len(want) {
		return nil, errOther
	}
	return out, nil
}

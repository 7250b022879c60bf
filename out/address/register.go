package address

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"ferrule/compiler/model"
	"ferrule/compiler/reason"
	"ferrule/compiler/regular"
	"ferrule/out/slug"
)

// File is the register's name in the staff folder.
const File = "pages.json"

// Kinds of pages that a register lists.
const (
	KindPlatform = "platform"
	KindPart     = "part"
)

// Register is what a build leaves to the next one.
type Register struct {
	Pages []Page `json:"pages"`
	Gone  []Page `json:"gone,omitempty"` // had a page once
	// Dates says of each page when its content was last another one, in the order of the pages.
	Dates []Dated `json:"dates,omitempty"`
}

// Dated is a page with a digest of its content and the day since which it says that.
type Dated struct {
	Page    string `json:"page"`    // relative to the public folder
	Content string `json:"content"` // a digest
	Since   string `json:"since"`   // an ISO date
}

// Page is the address of a platform or a part, with what its page has to say once it is
// gone.
type Page struct {
	Kind string `json:"kind"` // KindPlatform or KindPart
	Name string `json:"name"` // of the platform, or the part's number
	Page string `json:"page"`
	Data string `json:"data"`
	// Now is what a platform or a part that has gone is called since, "" where it is not listed.
	Now string `json:"now,omitempty"`
	// Of a part: its name, its status, and what replaces it, in order of preference.
	Label      string   `json:"label,omitempty"`
	Status     string   `json:"status,omitempty"`
	ReplacedBy [][]Item `json:"replaced_by,omitempty"`
}

// Item is a number of parts.
type Item struct {
	Part     string `json:"part"`
	Quantity int    `json:"quantity"`
}

// Write writes the register as JSON.
func (r *Register) Write(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(r)
}

// Earlier gives the register of an earlier release: that in the staff's folder of its build
// or, where there is no folder ("") or no register in it, the addresses that its catalogue
// would get.
func Earlier(staff string, cat *model.Catalogue) (*Register, error) {
	if staff != "" {
		if r, err := read(staff); !errors.Is(err, fs.ErrNotExist) {
			return r, err
		}
	}
	return New(cat, nil).Register(), nil
}

// maxRegister bounds a register in bytes: a million parts take a few hundred.
const maxRegister = 1 << 30

// read reads the register in the staff's folder of a build.
func read(staff string) (*Register, error) {
	path := filepath.Join(staff, File)
	text, err := regular.Read(os.DirFS(staff), File, maxRegister)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: %w", path, reason.Of(err))
	}
	r := new(Register)
	if err := json.Unmarshal(text, r); err != nil {
		return nil, fmt.Errorf("%s cannot be read: %w", path, err)
	}
	if err := r.check(); err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return r, nil
}

// check keeps a damaged register from writing anywhere but where pages are: an address is
// what New could have given.
func (r *Register) check() error {
	for _, d := range r.Dates {
		if _, err := time.Parse(time.DateOnly, d.Since); err != nil {
			return fmt.Errorf("%q of %q is no date", d.Since, d.Page)
		}
	}
	for _, list := range [][]Page{r.Pages, r.Gone} {
		for _, p := range list {
			if p.Kind != KindPlatform && p.Kind != KindPart {
				return fmt.Errorf("%q is no kind of page", p.Kind)
			}
			file := base(p.Data)
			if !slug.Is(file) || (pair{p.Page, p.Data}) != at(p.Kind, file) {
				return fmt.Errorf("%q with %q is no address of a page", p.Page, p.Data)
			}
		}
	}
	return nil
}

// files gives the file name of each name of a kind. What is there now comes before what
// has gone.
func (r *Register) files(kind string) map[string]string {
	out := map[string]string{}
	for _, list := range [][]Page{r.Pages, r.Gone} {
		for _, p := range list {
			if _, known := out[p.Name]; p.Kind == kind && !known {
				out[p.Name] = base(p.Data)
			}
		}
	}
	return out
}

package desk

import (
	"errors"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"

	"ferrule/compiler/intake"
	"ferrule/compiler/reason"
)

// Ask is what a desk may do that nobody has begun from a terminal, where a folder would have been
// named and Ctrl-C would end it.
type Ask struct {
	Near []string // folders that are listed with what is in them, such as the person's own
	End  func()   // ends the program
}

// mostFolders is how many folders are listed of one.
const mostFolders = 300

// folderPage asks for a folder with workbooks.
type folderPage struct {
	Wrong     string // why the one that was named cannot be opened
	Typed     string
	At        string // whose folders are listed
	Up        string // the folder around it, "" where that is not listed
	Workbooks int    // in At
	Folders   []folderLink
	Left      int
}

type folderLink struct{ Name, Path string }

// largestPath bounds a form with a path, in bytes.
const largestPath = 16 << 10

// folder asks for a folder, lists what is near, and opens the one that was chosen. A folder is listed and
// opened by a form only, and no file in it is opened before.
func (d *Desk) folder(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, largestPath)
	if err := r.ParseForm(); err != nil {
		d.refuse(w, "folder", http.StatusRequestEntityTooLarge, err)
		return
	}
	p := &folderPage{Typed: typedPath(r.PostForm.Get("path"))}
	open := r.PostForm.Get("open")
	if open == "" && !r.PostForm.Has("look") {
		open = p.Typed
	}
	if open != "" {
		why := opens(open)
		if why == nil {
			d.choose(open)
			lead(w, "findings")
			return
		}
		p.Wrong = why.Error()
	}
	p.list(d.options.Ask.Near, r.PostForm.Get("look"))
	s, trouble, version := d.now()
	d.frame("folder", s, trouble, version).show(w, http.StatusOK, "folder", p)
}

// typedPath takes away what is around a path that was copied from a file manager.
func typedPath(text string) string {
	return strings.Trim(strings.TrimSpace(text), `"'`)
}

// opens says why a folder cannot be opened, nil where it can.
func opens(path string) error {
	if !filepath.IsAbs(path) {
		return fmt.Errorf("%q is not a whole path; write it from its beginning, such as %s", path, example())
	}
	info, err := os.Stat(path)
	if err != nil {
		return fmt.Errorf("%s cannot be opened: %w", path, reason.Of(err))
	}
	if !info.IsDir() {
		return fmt.Errorf("%s is a file; name the folder that it stands in", path)
	}
	if _, err := intake.Find([]string{path}); errors.Is(err, intake.ErrNoWorkbook) {
		return fmt.Errorf("there is no workbook in %s, which is a file whose name ends in %s", path, intake.Endings)
	} else if err != nil {
		return err
	}
	return nil
}

func example() string {
	if filepath.Separator == '\\' {
		return `C:\Catalogue`
	}
	return "/home/anna/catalogue"
}

// list lists the folders of one of those that are near, or of one in them; of the first that is near
// where no such was named.
func (p *folderPage) list(near []string, look string) {
	for _, top := range near {
		if inside(look, top) {
			p.read(look)
			if up := filepath.Dir(filepath.Clean(look)); inside(up, top) && up != filepath.Clean(look) {
				p.Up = up
			}
			return
		}
	}
	if len(near) > 0 {
		p.read(near[0])
	}
	for i := 1; i < len(near); i++ {
		p.Folders = append(p.Folders, folderLink{near[i], near[i]})
	}
}

// inside tells whether a path is a folder, or in it, wherever links lead.
func inside(path, folder string) bool {
	if path == "" || !filepath.IsAbs(path) {
		return false
	}
	path, err1 := filepath.EvalSymlinks(path)
	folder, err2 := filepath.EvalSymlinks(folder)
	if err1 != nil || err2 != nil {
		return false
	}
	rel, err := filepath.Rel(folder, path)
	return err == nil && filepath.IsLocal(rel)
}

// read lists a folder. One that cannot be read is empty.
func (p *folderPage) read(path string) {
	p.At = filepath.Clean(path)
	entries, err := os.ReadDir(path)
	if err != nil {
		p.Wrong = fmt.Sprintf("%s cannot be opened: %s", path, reason.Of(err))
	}
	for _, e := range entries {
		switch {
		case strings.HasPrefix(e.Name(), "."):
		case e.IsDir() && len(p.Folders) == mostFolders:
			p.Left++
		case e.IsDir():
			p.Folders = append(p.Folders, folderLink{e.Name(), filepath.Join(path, e.Name())})
		case intake.RoleOf(e.Name()) == intake.Workbook:
			p.Workbooks++
		}
	}
}

// end says good-bye and ends the program.
func (d *Desk) end(w http.ResponseWriter, _ *http.Request) {
	d.frame("ended", nil, "", 0).show(w, http.StatusOK, "ended", nil)
	http.NewResponseController(w).Flush() //nolint:errcheck // who has gone need not be told
	d.options.Ask.End()
}

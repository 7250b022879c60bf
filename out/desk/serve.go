package desk

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"time"

	"ferrule/out/view"
)

//go:embed templates/*.tmpl
var files embed.FS

//go:embed desk.js
var script []byte

//go:embed enter.js
var enterScript []byte

//go:embed desk.css
var style []byte

var pages = template.Must(template.Must(view.Templates.Clone()).Funcs(template.FuncMap{"join": strings.Join}).ParseFS(files, "templates/*.tmpl"))

// frame is what stands around every view.
type frame struct {
	Title   string
	View    string // the name of its template and of its link
	Views   []link
	Trouble string // why what is shown is not what stands in the folder
	Version int
	At      string // when it was compiled
	Took    string
	Page    any
}

type link struct{ Name, Title string }

// views are all views in the order of the menu.
var views = []link{{"findings", "Findings"}, {"coverage", "Coverage"}, {"gaps", "Gaps"}, {"vehicle", "Vehicle"}, {"changes", "Changes"}, {"guides", "Guides"}}

// Handler answers requests.
func (d *Desk) Handler(door *Door) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, _ *http.Request) { door.entrance(w, "") })
	mux.HandleFunc("POST /enter", door.enter)
	mux.HandleFunc("GET /style.css", file("text/css", view.Style, style))
	mux.HandleFunc("GET /enter.js", file("text/javascript", enterScript))
	mux.HandleFunc("GET /favicon.ico", func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNoContent) })
	inner := http.NewServeMux()
	inner.HandleFunc("GET /{$}", func(w http.ResponseWriter, r *http.Request) {
		http.Redirect(w, r, door.base+"findings", http.StatusSeeOther)
	})
	inner.HandleFunc("GET /desk.js", file("text/javascript", script))
	inner.HandleFunc("GET /events", d.events)
	for name, of := range map[string]func(*state, *http.Request) (any, error){"findings": d.findings, "coverage": d.coverage, "place": d.place,
		"gaps": d.gaps, "vehicle": d.vehicle, "changes": d.changes} {
		inner.HandleFunc("GET /"+name, d.view(name, of))
	}
	inner.HandleFunc("GET /guides", func(w http.ResponseWriter, r *http.Request) {
		http.Redirect(w, r, door.base+"guides/index.html", http.StatusSeeOther)
	})
	inner.HandleFunc("GET /guides/", d.guides)
	mux.Handle(door.base, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !door.known(r) {
			w.WriteHeader(http.StatusForbidden)
			door.entrance(w, "")
			return
		}
		http.StripPrefix(strings.TrimSuffix(door.base, "/"), inner).ServeHTTP(w, r)
	}))
	return door.guard(mux)
}

// file answers with the same bytes each time.
func file(kind string, parts ...[]byte) http.HandlerFunc {
	data := bytes.Join(parts, []byte("\n"))
	return func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", kind+"; charset=utf-8")
		w.Write(data) //nolint:errcheck // who has gone cannot be told
	}
}

// print writes a page by a template; what it lays out comes whole or not at all.
func print(w http.ResponseWriter, name string, page any) {
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, name, page); err != nil {
		http.Error(w, "a fault of the program: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Write(b.Bytes()) //nolint:errcheck // who has gone cannot be told
}

// view answers with a view of the last good state.
func (d *Desk) view(name string, of func(*state, *http.Request) (any, error)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		s, trouble, version := d.now()
		f := frame{View: name, Views: views, Trouble: trouble, Version: version}
		for _, v := range views {
			if v.Name == name {
				f.Title = v.Title
			}
		}
		if f.Title == "" {
			f.View, f.Title = "coverage", "Coverage"
		}
		body := name
		if s == nil {
			body = "nothing"
		} else {
			f.At, f.Took = s.at.Format(time.TimeOnly), s.Took()
			page, err := of(s, r)
			if err != nil {
				body, page = "refused", err.Error()
			}
			f.Page = page
		}
		var inside bytes.Buffer
		if err := pages.ExecuteTemplate(&inside, body, f.Page); err != nil {
			http.Error(w, "a fault of the program: "+err.Error(), http.StatusInternalServerError)
			return
		}
		f.Page = template.HTML(inside.String()) //nolint:gosec // html/template has escaped it
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		print(w, "frame", f)
	}
}

// events tells of changes as they come (server-sent events, WHATWG HTML).
func (d *Desk) events(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", "text/event-stream")
	out := http.NewResponseController(w)
	for {
		changed, version := d.wait()
		if _, err := fmt.Fprintf(w, "data: %d\n\n", version); err != nil || out.Flush() != nil {
			return
		}
		select {
		case <-changed:
		case <-r.Context().Done():
			return
		}
	}
}

// guides answers with pages as they would be published.
func (d *Desk) guides(w http.ResponseWriter, r *http.Request) {
	s, _, _ := d.now()
	if s == nil {
		http.Error(w, "nothing has been read yet", http.StatusServiceUnavailable)
		return
	}
	dir, err := s.published(r.Context(), d.options.Today())
	if err != nil {
		http.Error(w, "the guides cannot be made: "+err.Error(), http.StatusConflict)
		return
	}
	root, err := os.OpenRoot(filepath.Join(dir, "site", "public"))
	if err != nil {
		http.Error(w, "the guides have changed; load the page again", http.StatusConflict)
		return
	}
	defer root.Close() //nolint:errcheck // it was only read
	http.StripPrefix("/guides", http.FileServerFS(root.FS())).ServeHTTP(w, r)
}

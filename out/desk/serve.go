package desk

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"net/http"
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
	Open    []string // what is compiled
	Ask     bool     // whether another folder may be opened here, and the program ended
	Page    any
}

type link struct{ Name, Title string }

// views are all views in the order of the menu.
var views = []link{{"findings", "Findings"}, {"repairs", "Repairs"}, {"coverage", "Coverage"}, {"gaps", "Gaps"}, {"vehicle", "Vehicle"}, {"changes", "Changes"}, {"guides", "Guides"}}

// further are views that others lead to: the one in the menu that they belong to, and their titles.
var further = map[string]link{"place": {"coverage", "Coverage"}, "made": {"repairs", "Repaired copies"}, "folder": {"folder", "Which folder?"}, "ended": {"ended", "The program has ended"}}

// Handler answers requests.
func (d *Desk) Handler(door *Door) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, _ *http.Request) { door.entrance(w, "") })
	mux.HandleFunc("POST /enter", door.enter)
	mux.HandleFunc("GET /style.css", file("text/css", view.Style, style))
	mux.HandleFunc("GET /enter.js", file("text/javascript", enterScript))
	mux.HandleFunc("GET /favicon.ico", func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNoContent) })
	inside := http.StripPrefix(strings.TrimSuffix(door.base, "/"), d.inside(door))
	mux.HandleFunc(door.base, func(w http.ResponseWriter, r *http.Request) {
		if !door.known(r) {
			w.WriteHeader(http.StatusForbidden)
			door.entrance(w, "")
			return
		}
		inside.ServeHTTP(w, r)
	})
	return door.guard(mux)
}

// inside answers who has come in.
func (d *Desk) inside(door *Door) http.Handler {
	mux := http.NewServeMux()
	to := func(where string) http.HandlerFunc {
		return func(w http.ResponseWriter, r *http.Request) {
			http.Redirect(w, r, door.base+where, http.StatusSeeOther)
		}
	}
	mux.HandleFunc("GET /{$}", to("findings"))
	mux.HandleFunc("GET /desk.js", file("text/javascript", script))
	mux.HandleFunc("GET /events", d.events)
	for name, of := range map[string]func(*state, *http.Request) (any, error){"findings": d.findings, "coverage": d.coverage, "place": d.place,
		"gaps": d.gaps, "vehicle": d.vehicle, "changes": d.changes, "repairs": d.repairs, "made": d.made} {
		mux.HandleFunc("GET /"+name, d.view(name, of))
	}
	mux.HandleFunc("POST /repairs", d.repair)
	mux.HandleFunc("GET /made/{key}/{number}", d.madeFile)
	mux.HandleFunc("GET /marked", d.marked)
	mux.HandleFunc("GET /guides", to("guides/index.html"))
	mux.HandleFunc("GET /guides/", d.guides)
	if d.options.Ask != nil {
		mux.HandleFunc("GET /folder", d.folder)
		mux.HandleFunc("POST /folder", d.folder)
		mux.HandleFunc("POST /end", d.end)
	}
	return mux
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
		if len(d.paths()) == 0 {
			lead(w, "folder")
			return
		}
		s, trouble, version := d.now()
		f := d.frame(name, s, trouble, version)
		if s == nil {
			f.show(w, http.StatusOK, "nothing", nil)
			return
		}
		page, err := of(s, r)
		if err != nil {
			f.show(w, http.StatusOK, "refused", err.Error())
			return
		}
		f.show(w, http.StatusOK, name, page)
	}
}

// lead leads to another view, whose address is beside the one that was asked.
func lead(w http.ResponseWriter, view string) {
	w.Header().Set("Location", view)
	w.WriteHeader(http.StatusSeeOther)
}

// refuse says in the frame of a view why something was not done.
func (d *Desk) refuse(w http.ResponseWriter, name string, status int, err error) {
	s, trouble, version := d.now()
	d.frame(name, s, trouble, version).show(w, status, "refused", err.Error())
}

// frame gives what stands around a view of a state, nil where there is none.
func (d *Desk) frame(name string, s *state, trouble string, version int) *frame {
	f := &frame{View: name, Views: views, Trouble: trouble, Version: version, Open: d.paths(), Ask: d.options.Ask != nil}
	for _, v := range views {
		if v.Name == name {
			f.Title = v.Title
		}
	}
	if of, ok := further[name]; ok {
		f.View, f.Title = of.Name, of.Title
	}
	if s != nil {
		f.At, f.Took = s.at.Format(time.TimeOnly), s.Took()
	}
	return f
}

// Still tells of a page that shows nothing of the sheets.
func (f *frame) Still() bool { return f.View == "folder" || f.View == "ended" }

// show lays a page out by a template, with the frame around it.
func (f *frame) show(w http.ResponseWriter, status int, body string, page any) {
	var inside bytes.Buffer
	if err := pages.ExecuteTemplate(&inside, body, page); err != nil {
		http.Error(w, "a fault of the program: "+err.Error(), http.StatusInternalServerError)
		return
	}
	f.Page = template.HTML(inside.String()) //nolint:gosec // html/template has escaped it
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	print(w, "frame", f)
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

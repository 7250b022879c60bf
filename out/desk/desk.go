// Package desk is a server for the one person who keeps the sheets: pages on this machine's own
// address that are right a moment after a workbook is saved.
//
// It watches the catalogue's folders, compiles what has changed (compiler.Resident), and keeps
// the last good state while a workbook cannot be read. Every view asks the packages that the
// commands ask; nothing is worked out here. Workbooks are only read, and nothing changes by a
// page's being looked at.
//
// Who may look: the server listens on the loopback address, answers to its own names alone, and
// shows nothing without the token that the program prints. Pages load nothing from elsewhere.
package desk

import (
	"context"
	"fmt"
	"io"
	"slices"
	"sync"
	"time"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/release"
	"ferrule/compiler/watch"
	"ferrule/sheets/guard"
)

// Options of a desk.
type Options struct {
	Paths []string      // none: a page asks for a folder, and nothing is shown before there is one
	Since string        // the release that findings are held against, "" for none
	Today func() string // ISO date of the day
	Log   io.Writer     // told what each change took; nil: nobody
	Deaf  bool          // folders are only looked at, as if they told nothing of changes
	Ask   *Ask          // of a desk that was not begun from a terminal; nil: it was
}

// Desk keeps the state of a catalogue.
type Desk struct {
	options  Options
	resident compiler.Resident
	earlier  *release.Release // of Since, once it is opened
	making   sync.Mutex       // copies are made one after the other
	drops    *guard.Group     // states that are being let go of

	mu      sync.Mutex
	open    []string      // what is compiled; none before somebody has chosen a folder
	other   chan struct{} // closed when another folder is chosen
	good    *state        // the last that could be read whole; nil before the first
	trouble string        // why good is not what stands in the folder now; "" where it is
	version int           // grows with every change of the above
	changed chan struct{}
	shelf   []*made // repaired copies that were made last
}

// New gives a desk that has not looked at anything.
func New(o Options) *Desk {
	return &Desk{options: o, drops: guard.NewGroup(), open: o.Paths, other: make(chan struct{}), changed: make(chan struct{})}
}

// Run looks after the catalogue that is open until the context ends.
func (d *Desk) Run(ctx context.Context) {
	for ctx.Err() == nil {
		d.follow(ctx)
	}
}

// follow looks after one catalogue until another is opened.
func (d *Desk) follow(ctx context.Context) {
	paths, other := d.opened()
	ctx, cancel := context.WithCancel(ctx)
	group := guard.NewGroup()
	defer group.Wait()
	defer cancel()
	group.Go(func() {
		select {
		case <-other:
		case <-ctx.Done():
		}
		cancel()
	})
	if len(paths) == 0 {
		<-ctx.Done()
		return
	}
	changes := watch.Changes
	if d.options.Deaf {
		changes = watch.Looks
	}
	changes(ctx, paths, func(look watch.Look) { d.compile(ctx, paths, look) })
}

// opened gives what is compiled, and a channel that is closed when that is something else.
func (d *Desk) opened() ([]string, <-chan struct{}) {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.open, d.other
}

func (d *Desk) paths() []string {
	paths, _ := d.opened()
	return paths
}

// choose opens another folder. What was known of the one before is forgotten.
func (d *Desk) choose(path string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.good != nil {
		d.drops.Go(d.good.drop) // which waits for who is at it
	}
	d.open, d.good, d.trouble, d.shelf = []string{path}, nil, "", nil
	close(d.other)
	d.other = make(chan struct{})
	d.tell()
}

// tell lets everybody know that there is something newer.
func (d *Desk) tell() {
	d.version++
	close(d.changed)
	d.changed = make(chan struct{})
}

// now gives the last good state, why it is not fresh, and the version of both.
func (d *Desk) now() (*state, string, int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.good, d.trouble, d.version
}

// wait gives a channel that is closed when there is something newer.
func (d *Desk) wait() (<-chan struct{}, int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.changed, d.version
}

// set makes a state of some paths known, unless others are open by now; good is nil where the last
// good one stays.
func (d *Desk) set(paths []string, good *state, trouble string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if !slices.Equal(paths, d.open) {
		return
	}
	if good != nil {
		if d.good != nil {
			d.drops.Go(d.good.drop) // which waits for who is at it
		}
		d.good = good
	}
	d.trouble = trouble
	d.tell()
}

// Close lets go of what was made beside the pages.
func (d *Desk) Close() {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.good != nil {
		d.good.drop()
	}
	d.drops.Wait()
}

// compile compiles what a look has seen. What changes meanwhile is seen by the next look.
func (d *Desk) compile(ctx context.Context, paths []string, look watch.Look) {
	if away := look.Away(); len(away) > 0 {
		d.set(paths, nil, fmt.Sprintf("%s is not on this disk; make it available here, since opening it would fetch it", away[0]))
		return
	}
	began := time.Now()
	took := &stages{}
	o := compiler.Options{Today: d.options.Today(), Progress: took.add, Compare: d.options.Since != ""}
	res, err := d.resident.Compile(ctx, compiler.Input{Paths: paths}, o)
	if err == nil && res.Whole && d.options.Since != "" {
		err = d.hold(ctx, res, o)
	}
	switch {
	case ctx.Err() != nil:
	case err != nil:
		d.set(paths, nil, err.Error())
	case !res.Whole:
		d.set(paths, nil, unreadable(res))
	default:
		s := newState(paths, res, look, took, time.Now(), time.Since(began))
		d.set(paths, s, "")
		d.log(s)
	}
}

// hold holds the findings against the earlier release.
func (d *Desk) hold(ctx context.Context, res *compiler.Result, o compiler.Options) (err error) {
	if d.earlier == nil {
		o.Progress = nil
		if d.earlier, err = release.Open(ctx, d.options.Since, o); err != nil {
			return fmt.Errorf("--since: %w", err)
		}
	}
	return release.Hold(ctx, res, d.earlier, o.Today)
}

// unreadable says which workbooks cannot be read, and why.
func unreadable(res *compiler.Result) string {
	for _, f := range res.Findings {
		if f.Code == finding.WorkbookUnreadable {
			return f.Message
		}
	}
	return "a workbook cannot be read whole"
}

func (d *Desk) log(s *state) {
	if d.options.Log != nil {
		fmt.Fprintf(d.options.Log, "ferrule: %s: %s\n", s.at.Format(time.TimeOnly), s.Took()) //nolint:errcheck // nobody can be told
	}
}

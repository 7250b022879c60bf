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
	"sync"
	"time"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/release"
	"ferrule/compiler/watch"
)

// Options of a desk.
type Options struct {
	Paths []string
	Since string        // the release that findings are held against, "" for none
	Today func() string // ISO date of the day
	Log   io.Writer     // told what each change took; nil: nobody
}

// Desk keeps the state of a catalogue.
type Desk struct {
	options  Options
	resident compiler.Resident
	earlier  *release.Release // of Since, once it is opened

	mu      sync.Mutex
	good    *state // the last that could be read whole; nil before the first
	trouble string // why good is not what stands in the folder now; "" where it is
	version int    // grows with every change of the above
	changed chan struct{}
}

// New gives a desk that has not looked at anything.
func New(o Options) *Desk { return &Desk{options: o, changed: make(chan struct{})} }

// Run looks after the catalogue until the context ends.
func (d *Desk) Run(ctx context.Context) {
	watch.Changes(ctx, d.options.Paths, func(look watch.Look) { d.compile(ctx, look) })
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

// set makes a state known; good is nil where the last good one stays.
func (d *Desk) set(good *state, trouble string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if good != nil {
		if d.good != nil {
			d.good.drop()
		}
		d.good = good
	}
	d.trouble = trouble
	d.version++
	close(d.changed)
	d.changed = make(chan struct{})
}

// Close lets go of what was made beside the pages.
func (d *Desk) Close() {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.good != nil {
		d.good.drop()
	}
}

// compile compiles what a look has seen. What changes meanwhile is seen by the next look.
func (d *Desk) compile(ctx context.Context, look watch.Look) {
	if away := look.Away(); len(away) > 0 {
		d.set(nil, fmt.Sprintf("%s is not on this disk; make it available here, since opening it would fetch it", away[0]))
		return
	}
	began := time.Now()
	took := &stages{}
	o := compiler.Options{Today: d.options.Today(), Progress: took.add, Compare: d.options.Since != ""}
	res, err := d.resident.Compile(ctx, compiler.Input{Paths: d.options.Paths}, o)
	if err == nil && res.Whole && d.options.Since != "" {
		err = d.hold(ctx, res, o)
	}
	switch {
	case ctx.Err() != nil:
	case err != nil:
		d.set(nil, err.Error())
	case !res.Whole:
		d.set(nil, unreadable(res))
	default:
		s := newState(d.options.Paths, res, look, took, time.Now(), time.Since(began))
		d.set(s, "")
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

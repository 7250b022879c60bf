// Package watch tells when the files of a catalogue have changed.
//
// Folders are looked at, names, sizes and times, again and again: on network drives nobody tells
// of changes, and programs that keep folders in step tell of one several times. What the
// operating system does tell only makes the next look come sooner. No file is opened.
package watch

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"github.com/fsnotify/fsnotify"

	"ferrule/compiler/intake"
	"ferrule/sheets/guard"
)

// Every is how often folders are looked at where nothing tells of a change.
const Every = time.Second

// calm is how long nothing must be told before a look: one save is several events.
const calm = 15 * time.Millisecond

// File is what a look sees of a file.
type File struct {
	Path     string
	Size     int64
	Modified time.Time
	// Away says that the file's content is elsewhere and opening it would fetch it.
	Away bool
}

// Look is what stands in the folders, in the order of paths. Two looks are equal where nothing
// has changed.
type Look []File

// Equal tells whether nothing has changed.
func (l Look) Equal(o Look) bool {
	return slices.EqualFunc(l, o, func(a, b File) bool {
		return a.Path == b.Path && a.Size == b.Size && a.Modified.Equal(b.Modified) && a.Away == b.Away
	})
}

// Away lists the files whose content is elsewhere.
func (l Look) Away() (paths []string) {
	for _, f := range l {
		if f.Away {
			paths = append(paths, f.Path)
		}
	}
	return paths
}

// At looks at paths: workbooks, and folders with the files in them that matter to a catalogue.
// What cannot be looked at is left out; it is there again with a later look.
func At(paths []string) Look {
	var out Look
	for _, path := range paths {
		info, err := os.Stat(path)
		if err != nil {
			continue
		}
		if !info.IsDir() {
			out = append(out, file(path, info))
			continue
		}
		entries, err := os.ReadDir(path)
		if err != nil {
			continue
		}
		for _, e := range entries {
			if info, err := e.Info(); err == nil && matters(e) {
				out = append(out, file(filepath.Join(path, e.Name()), info))
			}
		}
	}
	slices.SortFunc(out, func(a, b File) int {
		if a.Path < b.Path {
			return -1
		}
		return 1
	})
	return out
}

func file(path string, info fs.FileInfo) File {
	return File{path, info.Size(), info.ModTime(), away(info)}
}

// matters tells whether a file may be of the catalogue, or a folder hold pictures.
func matters(e fs.DirEntry) bool { return e.IsDir() || intake.RoleOf(e.Name()) != intake.Ignored }

// Changes calls do with each look that differs from the last, the first time at once, until the
// context ends. do is not called again before it has returned.
func Changes(ctx context.Context, paths []string, do func(Look)) {
	ctx, cancel := context.WithCancel(ctx)
	group := guard.NewGroup()
	defer group.Wait()
	defer cancel()
	looks(ctx, paths, events(ctx, group, paths), do)
}

// Looks is Changes on folders that tell nothing, as those of network drives.
func Looks(ctx context.Context, paths []string, do func(Look)) { looks(ctx, paths, nil, do) }

func looks(ctx context.Context, paths []string, told <-chan struct{}, do func(Look)) {
	tick := time.NewTicker(Every)
	defer tick.Stop()
	last := At(paths)
	do(last)
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		case <-told:
			settle(ctx, told)
		}
		if look := At(paths); ctx.Err() == nil && !look.Equal(last) {
			last = look
			do(look)
		}
	}
}

// settle waits until nothing has been told for a moment, or for as long as a look would take to
// come by itself.
func settle(ctx context.Context, told <-chan struct{}) {
	end := time.After(Every)
	for {
		select {
		case <-told:
		case <-time.After(calm):
			return
		case <-end:
			return
		case <-ctx.Done():
			return
		}
	}
}

// events tells of changes in the folders of some paths as far as the system does.
func events(ctx context.Context, group *guard.Group, paths []string) <-chan struct{} {
	out := make(chan struct{}, 1)
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return out // and looks come by themselves
	}
	for _, path := range paths {
		if info, err := os.Stat(path); err == nil && !info.IsDir() {
			path = filepath.Dir(path)
		}
		_ = w.Add(path) // a folder that tells nothing is looked at all the same
	}
	group.Go(func() {
		defer w.Close() //nolint:errcheck // nothing was written
		for {
			select {
			case <-ctx.Done():
				return
			case _, ok := <-w.Events:
				if !ok {
					return
				}
			case _, ok := <-w.Errors:
				if !ok {
					return
				}
			}
			select {
			case out <- struct{}{}:
			default:
			}
		}
	})
	return out
}

package site

import (
	"context"
	"errors"

	"ferrule/compiler"
	"ferrule/out/folder"
)

// Publish holds a folder, fills it and lets go of it. The sources (folders and files) must not
// lie in it.
func Publish(ctx context.Context, dir string, sources []string, r *compiler.Result, o Options) (_ Counts, err error) {
	to, err := folder.Hold(ctx, dir, sources, func() {})
	if err != nil {
		return Counts{}, err
	}
	defer func() { err = errors.Join(err, to.Close()) }()
	return Fill(ctx, to, r, o)
}

// Fill writes the catalogue into the new folder and puts it in the place of the old one.
func Fill(ctx context.Context, to *folder.Held, r *compiler.Result, o Options) (Counts, error) {
	w := &writer{ctx: ctx, to: to}
	if err := w.all(r, o); err != nil {
		return Counts{}, err
	}
	if err := to.Put(ctx); err != nil {
		return Counts{}, err
	}
	files, bytes := to.Counts()
	return Counts{len(r.Guides), files, bytes}, nil
}

package compiler

import (
	"context"
	"runtime"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/compiler/picture"
)

// pictures looks at the pictures that the catalogue names.
func (res *Result) pictures(ctx context.Context, src *intake.Sources, o Options, before *picture.Set, report func(*finding.Finding)) (err error) {
	named := len(res.Catalogue.Pictures())
	if named == 0 {
		return nil
	}
	stage := begin(o.Progress, Stage{Name: StagePictures, Pictures: named})
	defer stage.done()
	workers := o.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	res.Pictures, err = picture.Load(ctx, res.Catalogue, picture.Options{Folder: src.FolderOf, Workers: workers, Before: before}, func(f *picture.Fault) { report(ofPicture(f)) })
	return err
}

// ofPicture tells that a picture cannot be published. A guide is published without it, so it
// is no error.
func ofPicture(f *picture.Fault) *finding.Finding {
	code := finding.PictureUnreadable
	if f.Missing {
		code = finding.PictureMissing
	}
	return &finding.Finding{Code: code, Severity: finding.Warning, Message: f.Message, Cells: finding.At(f.Cells...), Fix: f.Fix}
}

package data

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/release/compare"
	"ferrule/sheets/cell"
)

// Earlier is what an earlier build wrote for the staff, as far as releases are compared
// by it.
type Earlier struct {
	compare.Release
	Findings []*finding.Finding
}

// IsStaff tells whether a folder looks like what StaffCatalogue and StaffGuide are
// written to.
func IsStaff(folder fs.FS) bool {
	for _, name := range []string{catalogueName, findingsName} {
		if info, err := fs.Stat(folder, name); err != nil || !info.Mode().IsRegular() {
			return false
		}
	}
	return true
}

// Names of files in the staff's folder.
const (
	catalogueName = "catalogue.json"
	findingsName  = "findings.json"
)

// staffRelease is what comparing needs of what StaffCatalogue writes.
type staffRelease struct {
	settings
	Platforms  []staffPlatform    `json:"platforms"`
	Traits     []staffTrait       `json:"traits"`
	Vehicles   []vehiclesRow      `json:"vehicles"`
	Positions  []declaredPosition `json:"positions"`
	Parts      []staffPart        `json:"parts"`
	Kits       []staffKit         `json:"kits"`
	References []staffReference   `json:"references"`
	Fitments   []fitment          `json:"fitments"`
	Rules      []compatibility    `json:"compatibility"`
	Limits     []limit            `json:"limits"`
	Cautions   []keyedCaution     `json:"cautions"`
	Accepted   []acceptance       `json:"accepted"`
	Guides     []guideRef         `json:"guides"`
}

// lacks names what protects and the file has no list of, since an earlier program wrote
// it: nobody could tell whether any of it is gone. "" for nothing.
func (f *staffRelease) lacks() string {
	switch {
	case f.Rules == nil:
		return "compatibility"
	case f.Limits == nil:
		return "limits"
	case f.Cautions == nil:
		return "cautions"
	}
	return ""
}

// ReadStaff reads the staff's folder of an earlier build. What comparing does not need
// (pictures, facts, what is calculated) is left out. The error is a sentence that names the file.
func ReadStaff(folder fs.FS) (*Earlier, error) {
	var file staffRelease
	if err := load(folder, catalogueName, &file); err != nil {
		return nil, err
	}
	if lack := file.lacks(); lack != "" {
		return nil, fmt.Errorf("%s has no list %q, so nobody can tell whether something that protects is gone since; compare with the workbooks that it was built from", catalogueName, lack)
	}
	r := newStaffReader(catalogueName)
	out := &Earlier{}
	out.Catalogue = r.catalogue(&file)
	for i, g := range file.Guides {
		if i >= len(out.Catalogue.Platforms) || g.Platform != out.Catalogue.Platforms[i].Name {
			r.fail("guides are not listed in the order of platforms")
			break
		}
		guide, err := r.guide(folder, g.File, out.Catalogue.Platforms[i])
		if err != nil {
			return nil, err
		}
		out.Guides = append(out.Guides, guide)
	}
	if len(out.Guides) != len(out.Catalogue.Platforms) {
		r.fail("a platform has no guide")
	}
	var err error
	if out.Sheets, err = r.written(folder); err != nil {
		return nil, err
	}
	var found findingsFile
	if err := load(folder, findingsName, &found); err != nil {
		return nil, err
	}
	r.file = findingsName
	for i := range found.Findings {
		out.Findings = append(out.Findings, r.finding(&found.Findings[i]))
	}
	if r.err != nil {
		return nil, r.err
	}
	return out, nil
}

// load reads one file; the name may come from another file and must stay in the folder.
func load(folder fs.FS, name string, into any) (err error) {
	if !fs.ValidPath(name) {
		return fmt.Errorf("%q is no name of a file in the staff's folder", name)
	}
	f, err := folder.Open(name)
	if err != nil {
		return fmt.Errorf("%s cannot be read: %w", name, reason(err))
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	d := json.NewDecoder(f)
	if err := d.Decode(into); err != nil {
		return fmt.Errorf("%s is not what a build writes for the staff: %w", name, err)
	}
	if _, err := d.Token(); err != io.EOF {
		return fmt.Errorf("%s is not what a build writes for the staff: something follows", name)
	}
	return nil
}

// reason cuts the path off a file system error: the message names it already.
func reason(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// staffReader resolves the names in the staff's files and keeps the first fault.
type staffReader struct {
	file      string // that is read
	err       error
	platforms map[string]*model.Platform
	traits    map[string]*model.Trait
	positions map[string]*model.Position
	parts     map[string]*model.Part
	cautions  map[string]*model.Caution
	sheets    map[[2]string]*cell.Sheet
}

func newStaffReader(file string) *staffReader {
	return &staffReader{file: file, platforms: map[string]*model.Platform{}, traits: map[string]*model.Trait{},
		positions: map[string]*model.Position{}, parts: map[string]*model.Part{}, cautions: map[string]*model.Caution{}, sheets: map[[2]string]*cell.Sheet{}}
}

func (r *staffReader) fail(format string, args ...any) {
	if r.err == nil {
		r.err = fmt.Errorf("%s is not what a build writes for the staff: %s", r.file, fmt.Sprintf(format, args...))
	}
}

// guide reads what is unsettled on a platform.
func (r *staffReader) guide(folder fs.FS, name string, p *model.Platform) (*decide.Guide, error) {
	var file staffGuideFile
	if err := load(folder, path.Clean(name), &file); err != nil {
		return nil, err
	}
	back := r.file
	r.file = name
	defer func() { r.file = back }()
	out := &decide.Guide{Platform: p}
	for i := range file.Positions {
		out.Answers = append(out.Answers, r.answer(i, &file.Positions[i]))
	}
	if file.Platform != p.Name || len(out.Answers) != len(r.positions) {
		r.fail("it is not about %s and all positions", p.Name)
	}
	return out, nil
}

func (r *staffReader) answer(i int, in *staffPosition) *decide.Answer {
	a := &decide.Answer{Position: r.position(in.Position), Exact: in.Exact == nil || *in.Exact}
	if a.Position == nil || a.Position.Index != i {
		r.fail("positions are not listed as they are declared")
		return a
	}
	for _, c := range in.Cases {
		if c.Settled != nil && !*c.Settled && c.Outcome != model.Conflict.String() {
			a.Unsettled = append(a.Unsettled, r.box(c.Where))
		}
	}
	for _, s := range in.Against {
		where := make([]model.Box, len(s.Where))
		for k, b := range s.Where {
			where[k] = r.box(b)
		}
		a.Against = append(a.Against, decide.Against{Cause: decide.Cause{Code: finding.Code(s.Code), Position: s.Position, Part: s.Part}, Where: where})
	}
	return a
}

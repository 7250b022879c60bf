package staff

import (
	"fmt"
	"io/fs"
	"path"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/release/compare"
	"ferrule/compiler/wire"
)

// Release is what an earlier build wrote for the staff, as far as releases are compared
// by it.
type Release struct {
	compare.Release
	Findings []*finding.Finding // as the build told them
}

// Is tells whether a folder looks like the staff's folder of a build.
func Is(folder fs.FS) bool {
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

// catalogueFile is what comparing needs of what Catalogue writes.
type catalogueFile struct {
	wire.Settings
	Platforms   []platform         `json:"platforms"`
	Traits      []trait            `json:"traits"`
	Vehicles    []vehiclesRow      `json:"vehicles"`
	Breaks      []breakRow         `json:"breaks"`
	Positions   []declaredPosition `json:"positions"`
	Parts       []part             `json:"parts"`
	Kits        []kit              `json:"kits"`
	References  []reference        `json:"references"`
	Fitments    []fitment          `json:"fitments"`
	Rules       []compatibility    `json:"compatibility"`
	Limits      []limit            `json:"limits"`
	Cautions    []keyedCaution     `json:"cautions"`
	Complaints  []complaintRow     `json:"complaints"`
	Inspections []inspectionRow    `json:"inspections"`
	Translated  []translation      `json:"translations"`
	Accepted    []acceptance       `json:"accepted"`
	Guides      []wire.GuideFile   `json:"guides"`
}

// lacks names what protects and the file has no list of, since an earlier program wrote
// it: nobody could tell whether any of it is gone. "" for nothing.
func (f *catalogueFile) lacks() string {
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

// Read reads the staff's folder of an earlier build. What comparing does not need
// (pictures, facts, what is calculated) is left out. The error is a sentence that names the file.
func Read(folder fs.FS) (*Release, error) {
	var file catalogueFile
	if err := load(folder, catalogueName, &file); err != nil {
		return nil, err
	}
	if lack := file.lacks(); lack != "" {
		return nil, fmt.Errorf("%s has no list %q, so nobody can tell whether something that protects is gone since; compare with the workbooks that it was built from", catalogueName, lack)
	}
	r := newReader(catalogueName)
	out := &Release{}
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

// guide reads what is unsettled on a platform.
func (r *reader) guide(folder fs.FS, name string, p *model.Platform) (*decide.Guide, error) {
	var file guideFile
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

func (r *reader) answer(i int, in *guidePosition) *decide.Answer {
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

package sheets

import (
	"archive/zip"
	"encoding/xml"
	"net/url"
	"path"
	"strings"
)

// Where the types of relationships begin: transitional, strict, macro sheets, threads of
// comments; and the
// namespace of the lists themselves, which is one for all.
const (
	relTransitional = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
	relStrict       = "http://purl.oclc.org/ooxml/officeDocument/relationships/"
	relMicrosoft    = "http://schemas.microsoft.com/office/2006/relationships/"
	relThreads      = "http://schemas.microsoft.com/office/2017/10/relationships/"
	relPackage      = "http://schemas.openxmlformats.org/package/2006/relationships"
)

// relation leads from one part to another; outside ones are kept as such and never followed.
type relation struct {
	id      string
	kind    string // the type's last word: worksheet, styles
	target  string // the part's name
	outside bool
}

// relations reads what the part of the given name ("" for the package) leads to.
func (p *pack) relations(of string) ([]relation, error) {
	dir, base := path.Split(of)
	name := dir + "_rels/" + base + ".rels"
	m, err := p.markup(name, "", maxSmall)
	if err != nil {
		return nil, err
	}
	var rels []relation
	ids := map[string]bool{}
	top := true
	tok, err := m.next()
	for ; err == nil; tok, err = m.next() {
		t, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		if len(rels) == maxRelations {
			return nil, m.fault("it leads to more than %d places", maxRelations)
		}
		if top {
			if top = false; t.Name.Local != "Relationships" || t.Name.Space != relPackage {
				return nil, m.fault("it should list relationships and begins with <%s>", t.Name.Local)
			}
			continue
		}
		if t.Name.Local != "Relationship" || t.Name.Space != relPackage {
			continue
		}
		r := readRelation(t, dir)
		if len(r.id) > maxName || len(r.target) > maxName && !r.outside {
			return nil, m.fault("a relationship in it has a name of more than %d bytes", maxName)
		}
		if ids[r.id] {
			return nil, m.fault("it has the relationship %q twice", r.id)
		}
		ids[r.id] = true
		rels = append(rels, r)
	}
	return rels, m.done(err)
}

func readRelation(t xml.StartElement, dir string) relation {
	var r relation
	r.id, _ = attr(t, "Id")
	kind, _ := attr(t, "Type")
	for _, space := range []string{relTransitional, relStrict, relMicrosoft, relThreads} {
		if k, ok := strings.CutPrefix(kind, space); ok {
			r.kind = brief(k)
		}
	}
	mode, _ := attr(t, "TargetMode")
	r.outside = mode == "External"
	r.target, _ = attr(t, "Target")
	if r.outside {
		r.target = brief(r.target) // only for messages
	}
	if strings.HasPrefix(r.target, "/") {
		r.target = strings.TrimPrefix(path.Clean(r.target), "/")
	} else if !r.outside {
		r.target = path.Join(dir, r.target)
	}
	return r
}

// follow finds the part that a relation leads to, inside the package.
func (p *pack) follow(r relation) (*zip.File, error) {
	if r.outside {
		return nil, fileFault(saveAgain, "the workbook keeps its %q outside of its file, at %q", r.kind, r.target)
	}
	if f := p.part(r); f != nil {
		return f, nil
	}
	return nil, fileFault(copyAgain, "the workbook is incomplete: its part %q is missing", r.target)
}

// part gives the part that a relation names, or nil.
func (p *pack) part(r relation) *zip.File {
	if f := p.find(r.target); f != nil {
		return f
	}
	if plain, err := url.PathUnescape(r.target); err == nil {
		return p.find(plain)
	}
	return nil
}

// markup opens a part by name. sheet is for faults.
func (p *pack) markup(name, sheet string, limit uint64) (*markup, error) {
	where := spot{part: name, sheet: sheet}
	f := p.find(name)
	if f == nil {
		return nil, fileFault(copyAgain, "the workbook is incomplete: its part %q is missing", name)
	}
	r, err := openPart(f, where, limit)
	if err != nil {
		return nil, err
	}
	packed := int64(f.CompressedSize64)
	if !p.inflating.take(f.Name, int64(f.UncompressedSize64)-inflateRatio*packed) {
		return nil, where.fault("its data unpacks to far more than its size in the file, as it does in files that are made to do harm")
	}
	m := newMarkup(r, where)
	m.work = meter{share: parseRatio * packed, of: p.parsing, part: f.Name}
	return m, nil
}

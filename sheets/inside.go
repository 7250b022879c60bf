package sheets

import (
	"io"
	"path"
	"slices"

	"ferrule/sheets/guard"
)

// Relation leads from a part of the package to another, or to a place outside of it.
type Relation struct {
	ID      string
	Kind    string // the type's last word: comments, vmlDrawing
	Target  string // the part's name as the package spells it, or as the relation does where there is none
	Outside bool
	Missing bool // it leads to a part that is not there
}

// packed gives the package that the workbook is, empty where it is a text file.
func (b *Book) packed() *packed {
	if c, ok := b.content.(*packed); ok {
		return c
	}
	return &packed{pack: &pack{}}
}

// Parts lists the names of all parts, sorted.
func (b *Book) Parts() []string {
	parts := b.packed().pack.parts
	names := make([]string, 0, len(parts))
	for _, f := range parts {
		names = append(names, f.Name)
	}
	slices.Sort(names)
	return names
}

// Has gives a part's name as the package spells it, since names differ by more than case.
func (b *Book) Has(part string) (name string, ok bool) {
	if f := b.packed().pack.find(part); f != nil {
		return f.Name, true
	}
	return "", false
}

// WorkbookPart is the name of the part that lists the sheets.
func (b *Book) WorkbookPart() string { return b.packed().main }

// StylesPart is the name of the part with cell formats, "" where there is none.
func (b *Book) StylesPart() string { return b.packed().styled }

// SheetPart is the name of the part that holds the sheet of that index in Sheets.
func (b *Book) SheetPart(sheet int) string { return b.packed().sheets[sheet].part }

// Relations gives what a part leads to, "" for the package; none where it has no list of them.
// The error is a *Fault.
func (b *Book) Relations(part string) ([]Relation, error) {
	dir, base := path.Split(part)
	if b.packed().pack.find(dir+"_rels/"+base+".rels") == nil {
		return nil, nil
	}
	rels, err := b.packed().pack.relations(part)
	if err != nil {
		return nil, err
	}
	out := make([]Relation, len(rels))
	for i, r := range rels {
		out[i] = Relation{ID: r.id, Kind: r.kind, Target: r.target, Outside: r.outside}
		if r.outside {
			continue
		}
		if f := b.packed().pack.part(r); f != nil {
			out[i].Target = f.Name
		} else {
			out[i].Missing = true
		}
	}
	return out, nil
}

// Content gives the bytes of a part of at most limit bytes, which agree with its checksum. The
// error is a *Fault.
func (b *Book) Content(part string, limit int64) ([]byte, error) {
	defer guard.About("reading the part " + part)
	where := spot{part: part}
	f := b.packed().pack.find(part)
	if f == nil {
		return nil, fileFault(copyAgain, "the workbook is incomplete: its part %q is missing", part)
	}
	r, err := openPart(f, where, uint64(limit))
	if err != nil {
		return nil, err
	}
	if !b.packed().pack.inflating.take(f.Name, int64(f.UncompressedSize64)-inflateRatio*int64(f.CompressedSize64)) {
		return nil, where.fault("its data unpacks to far more than its size in the file, as it does in files that are made to do harm")
	}
	return io.ReadAll(r)
}

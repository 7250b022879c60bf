package compiler

import (
	"context"
	"crypto/sha256"
	"io"
	"os"

	"ferrule/compiler/finding"
	"ferrule/compiler/imprint"
	"ferrule/compiler/intake"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/judge"
	"ferrule/compiler/model"
	"ferrule/compiler/owed"
	"ferrule/compiler/picture"
)

// Resident is a compiler that stays, for a catalogue that is compiled again and again while it
// is edited. Workbooks whose bytes are what they were are not read again, and platforms of which
// the same is said are not judged again; all else is worked out anew. The result is the same as
// that of Compile. The zero value is ready; one goroutine at a time may use it.
type Resident struct {
	books     map[string]book // by path
	used      map[string]book // those of the run at hand
	platforms judge.Kept
	pictures  *picture.Set
}

// book is a workbook as it was read.
type book struct {
	digest [sha256.Size]byte
	name   string // as messages called it
	loaded *intake.Loaded
}

// Compile reads what has changed and works out what depends on it. Guides, and what releases are
// compared by, are worked out for all platforms wherever they are asked for.
func (k *Resident) Compile(ctx context.Context, in Input, o Options) (*Result, error) {
	k.used = map[string]book{}
	res, err := compile(ctx, in, o, k)
	k.books = k.used
	if res != nil && res.Pictures != nil {
		k.pictures = res.Pictures
	}
	return res, err
}

// Reused tells of how many platforms the last run knew what it was asked about them.
func (k *Resident) Reused() int { return k.platforms.Reused }

// load gives what a workbook holds. One that changes while it is read is not kept.
func (k *Resident) load(r *intake.Reader, src intake.Source) *intake.Loaded {
	if k == nil {
		return r.Load(src)
	}
	before, err := digest(src.File())
	if err != nil {
		return r.Load(src) // which tells why
	}
	if b, ok := k.books[src.Path]; ok && b.digest == before && b.name == src.Name {
		k.used[src.Path] = b
		return b.loaded.Copy()
	}
	loaded := r.Load(src)
	if after, err := digest(src.File()); err == nil && after == before {
		k.used[src.Path] = book{before, src.Name, loaded.Copy()}
	}
	return loaded
}

func digest(path string) (out [sha256.Size]byte, err error) {
	f, err := os.Open(path)
	if err != nil {
		return out, err
	}
	defer f.Close() //nolint:errcheck // it was only read
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return out, err
	}
	h.Sum(out[:0])
	return out, nil
}

// seen gives the pictures that were looked at before; nil where nothing is kept.
func (k *Resident) seen() *picture.Set {
	if k == nil {
		return nil
	}
	return k.pictures
}

// imprints makes the digests of all rows, before they are bound; nil where nothing is kept.
func (k *Resident) imprints(tables []*table.Table, lost []intake.Aside, src *intake.Sources) *imprint.Sheets {
	if k == nil {
		return nil
	}
	return imprint.New(tables, lost, src.Schemas)
}

// recall gives what is known of platforms from before; nil where nothing is kept.
func (k *Resident) recall(s *imprint.Sheets, cat *model.Catalogue, aside *owed.Ledger, told []*finding.Finding, o Options) *judge.Recall {
	if k == nil || cat.Undeclared {
		return nil
	}
	return &judge.Recall{Kept: &k.platforms, Keys: s.Platforms(cat, aside.Parts()), Sheets: s.All(), Told: told, Today: o.Today}
}

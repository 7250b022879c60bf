package desk

import (
	"context"
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"net/http"
	"strings"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/out/fix"
	"ferrule/out/original"
)

// mostRepairs is how many repairs stand on the page at once: when they are made, the next ones do.
const mostRepairs = 500

// repairsPage lists what can only be meant one way, for a person to take or to leave.
type repairsPage struct {
	List    []repair
	Left    int
	Dropped []repair // that do not hold, and why
}

// repair is a text to be written in place of what a cell holds.
type repair struct {
	Key           string // the same as long as cell, old and new are
	Workbook, At  string
	Codes         []finding.Code
	Old, New, Why string
	Dropped       string
}

func repairOf(p *fix.Proposal) repair {
	at := p.At.String()
	return repair{keyOf(at, p.Old, p.New), p.At.Sheet.File, at, p.Codes, p.Old, p.New, p.Why, p.Dropped}
}

// keyOf gives a short name for texts that no others have.
func keyOf(texts ...string) string {
	sum := sha256.Sum256([]byte(strings.Join(texts, "\x00")))
	return base64.RawURLEncoding.EncodeToString(sum[:16])
}

func (d *Desk) repairs(s *state, r *http.Request) (any, error) {
	all, err := s.repairs.get(func() ([]*fix.Proposal, error) {
		d.making.Lock()
		defer d.making.Unlock()
		_, c, all, err := d.mending(r.Context(), s.paths)
		if err == nil {
			_, err = c.Copies(r.Context(), all) // which says what does not hold
		}
		return all, err
	})
	if err != nil {
		return nil, err
	}
	return repairsOf(all), nil
}

func repairsOf(all []*fix.Proposal) *repairsPage {
	p := &repairsPage{}
	for _, one := range all {
		switch r := repairOf(one); {
		case r.Dropped != "":
			p.Dropped = append(p.Dropped, r)
		case len(p.List) == mostRepairs:
			p.Left++
		default:
			p.List = append(p.List, r)
		}
	}
	return p
}

// mending compiles the catalogue as it stands and gives what can be repaired in it, as the command
// fix does. Whoever calls it has d.making.
func (d *Desk) mending(ctx context.Context, paths []string) (*original.Books, *fix.Catalogue, []*fix.Proposal, error) {
	books, err := original.Note(paths)
	if err != nil {
		return nil, nil, nil, err
	}
	today := d.options.Today()
	res, err := compiler.Compile(ctx, compiler.Input{Paths: paths}, compiler.Options{Today: today, Compare: true})
	if err != nil {
		return nil, nil, nil, err
	}
	if !res.Whole {
		return nil, nil, nil, errors.New(unreadable(res))
	}
	return books, &fix.Catalogue{Paths: paths, Before: res, Bytes: books.Bytes, Today: today}, fix.Proposals(res.Findings), nil
}

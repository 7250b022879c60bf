// Package fix makes copies of workbooks in which findings are repaired, where one reading was left. What
// the copies say is worked out by the compiler before anyone gets them: a repair after which its finding is
// still there, or another one comes, is dropped and told.
package fix

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/release/compare"
	"ferrule/out/patch"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// Proposal is a repair with the findings that it is for.
type Proposal struct {
	*finding.Repair
	Codes   []finding.Code
	Dropped string // why it is not made, "" where it is
}

// Proposals gathers the repairs of findings that nobody has accepted, one a cell, in the order of cells.
// Where two findings would have different texts in a cell, neither is written.
func Proposals(fs []*finding.Finding) []*Proposal {
	var out []*Proposal
	for _, f := range fs {
		if f.Repair == nil || f.Accepted != nil {
			continue
		}
		i := slices.IndexFunc(out, func(p *Proposal) bool { return same(p.At, f.Repair.At) })
		if i < 0 {
			out = append(out, &Proposal{Repair: f.Repair, Codes: []finding.Code{f.Code}})
			continue
		}
		p := out[i]
		p.Codes = append(p.Codes, f.Code)
		if p.New != f.Repair.New {
			p.Dropped = fmt.Sprintf("%q may be meant as well", f.Repair.New)
		}
	}
	slices.SortStableFunc(out, func(a, b *Proposal) int { return cell.Compare(a.At, b.At) })
	return out
}

func same(a, b cell.Place) bool {
	return a.Pos == b.Pos && a.Sheet.File == b.Sheet.File && a.Sheet.Name == b.Sheet.Name
}

// Catalogue is what is repaired.
type Catalogue struct {
	Paths  []string
	Before *compiler.Result                  // compiled with Options.Compare
	Bytes  func(name string) ([]byte, error) // of a workbook, as it was compiled
	Today  string
}

// Copies makes the repairs, as many as hold, and gives the copies by the names of their workbooks. Those that
// do not hold are marked as dropped. The error says that the program could not run.
func (c *Catalogue) Copies(ctx context.Context, all []*Proposal) (copies map[string]*patch.Copy, err error) {
	dir, err := os.MkdirTemp("", "ferrule-fix-")
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	t := &trial{Catalogue: c, dir: dir, known: map[string][]byte{}}
	var left []*Proposal
	for _, p := range all {
		if p.Dropped == "" {
			left = append(left, p)
		}
	}
	if err := t.take(ctx, left); err != nil {
		return nil, err
	}
	if len(t.taken) == 0 {
		return nil, nil
	}
	copies, why := t.patched(t.taken)
	if why != nil {
		return nil, why
	}
	return copies, nil
}

// trial tries repairs together, and by halves where they do not hold.
type trial struct {
	*Catalogue
	dir   string
	known map[string][]byte
	taken []*Proposal
}

func (t *trial) take(ctx context.Context, set []*Proposal) error {
	if len(set) == 0 {
		return nil
	}
	why, err := t.fails(ctx, append(slices.Clip(t.taken), set...), set)
	switch {
	case err != nil:
		return err
	case why == "":
		t.taken = append(t.taken, set...)
		return nil
	case len(set) == 1:
		set[0].Dropped = why
		return nil
	}
	half := len(set) / 2
	if err := t.take(ctx, set[:half]); err != nil {
		return err
	}
	return t.take(ctx, set[half:])
}

// fails says why repairs do not hold together, "" where they do. tried are those that are not known
// to.
func (t *trial) fails(ctx context.Context, all, tried []*Proposal) (string, error) {
	copies, err := t.patched(all)
	var refused *patch.Refusal
	var fault *sheets.Fault
	if errors.As(err, &refused) || errors.As(err, &fault) {
		return err.Error(), nil
	}
	if err != nil {
		return "", err
	}
	instead := map[string]string{}
	for name, c := range copies {
		path := filepath.Join(t.dir, fmt.Sprintf("%d%s", len(instead), filepath.Ext(name)))
		if err := os.WriteFile(path, c.Bytes, 0o600); err != nil {
			return "", err
		}
		instead[name] = path
	}
	after, err := compiler.Compile(ctx, compiler.Input{Paths: t.Paths, Instead: instead}, compiler.Options{Today: t.Today, Compare: true})
	if err != nil {
		return "", err
	}
	if !after.Whole {
		return "the copy could not be read", nil
	}
	for _, f := range after.Findings {
		if slices.ContainsFunc(tried, func(p *Proposal) bool { return p.stands(f) }) {
			return "what is wrong would still be there: " + f.Message, nil
		}
	}
	found, err := compare.Since(ctx, t.Before.Release(), after.Release(), t.Before.Findings, after.Findings, compare.Options{Today: t.Today})
	if err != nil {
		return "", err
	}
	finding.Sort(found)
	for _, f := range found {
		if !f.Known && f.Accepted == nil {
			return fmt.Sprintf("another finding would come of it, %s: %s", f.Code, f.Message), nil
		}
	}
	return "", nil
}

// stands tells whether a finding is one that the repair was for.
func (p *Proposal) stands(f *finding.Finding) bool {
	return slices.Contains(p.Codes, f.Code) && len(f.Cells) > 0 && f.Cells[0].Sheet != nil && same(f.Cells[0].Place, p.At)
}

// patched makes the copies of all workbooks in which something is repaired.
func (t *trial) patched(all []*Proposal) (map[string]*patch.Copy, error) {
	by := map[string][]*Proposal{}
	for _, p := range all {
		by[p.At.Sheet.File] = append(by[p.At.Sheet.File], p)
	}
	out := map[string]*patch.Copy{}
	for _, name := range sorted(by) {
		src, err := t.source(name)
		if err != nil {
			return nil, err
		}
		c, err := written(src, by[name])
		if err != nil {
			return nil, err
		}
		out[name] = c
	}
	return out, nil
}

func sorted(by map[string][]*Proposal) []string {
	var names []string
	for n := range by {
		names = append(names, n)
	}
	slices.SortFunc(names, cmp.Compare[string])
	return names
}

// source gives the bytes of a workbook. The error is a *patch.Refusal where no copy is made of such a file.
func (t *trial) source(name string) ([]byte, error) {
	if data, ok := t.known[name]; ok {
		return data, nil
	}
	if sheets.Separated(name) {
		return nil, &patch.Refusal{Why: "copies are made of .xlsx and .xlsm workbooks only; make this change in the text file itself"}
	}
	data, err := t.Bytes(name)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be copied: %w", name, err)
	}
	t.known[name] = data
	return data, nil
}

// written makes one copy.
func written(src []byte, all []*Proposal) (*patch.Copy, error) {
	book, err := sheets.Read(bytes.NewReader(src), int64(len(src)))
	if err != nil {
		return nil, err
	}
	var c patch.Change
	for _, p := range all {
		i := slices.IndexFunc(book.Sheets(), func(s sheets.Info) bool { return s.Name == p.At.Sheet.Name })
		if i < 0 {
			return nil, &patch.Refusal{Why: fmt.Sprintf("it has no sheet %q", p.At.Sheet.Name)}
		}
		c.Cells = append(c.Cells, patch.Cell{Sheet: i, At: p.At.Pos, Write: &p.New})
	}
	return patch.Apply(src, c)
}

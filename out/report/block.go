package report

import (
	"cmp"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/sheets/cell"
)

// block is all findings of one code and severity, or all that are accepted.
type block struct {
	code     finding.Code
	severity finding.Severity
	accepted bool
	shapes   []shape
}

// shape is what one code says again and again: findings whose messages differ only
// in what they quote and count. Findings about vehicles are of one shape only within
// one platform and position.
type shape struct{ entries []entry }

// entry is told once: findings that say the same, each at cells of its own, or on a
// platform of its own, or all that one row is held against.
type entry struct {
	findings []*finding.Finding
	row      cell.Place // that is held against all of them; the zero value for none
}

// blocks puts the most important last: what is accepted, notes, warnings, errors;
// within a severity by code, and in the order given otherwise.
func blocks(fs []*finding.Finding) []block {
	var out []block
	for _, f := range fs {
		i := slices.IndexFunc(out, func(b block) bool { return b.holds(f) })
		if i < 0 {
			i = len(out)
			out = append(out, block{code: f.Code, severity: f.Severity, accepted: f.Accepted != nil})
		}
		out[i].shapes = append(out[i].shapes, shape{[]entry{{findings: []*finding.Finding{f}}}})
	}
	slices.SortStableFunc(out, func(a, b block) int {
		return cmp.Or(-compareBool(a.accepted, b.accepted), cmp.Compare(a.severity, b.severity), cmp.Compare(a.code, b.code))
	})
	for i := range out {
		out[i].shapes = gather(byRow(byPlatform(out[i].shapes)))
	}
	return out
}

func (b *block) holds(f *finding.Finding) bool {
	return b.code == f.Code && b.severity == f.Severity && b.accepted == (f.Accepted != nil)
}

// cells gives how many cells the findings of the block are told of, 0 where each finding
// is told by itself.
func (b *block) cells() int {
	var all []*finding.Finding
	folded := false
	for _, s := range b.shapes {
		for i := range s.entries {
			folded = folded || s.entries[i].platforms()
			all = append(all, s.entries[i].findings...)
		}
	}
	if !folded {
		return 0
	}
	return len(firsts(all))
}

func (b *block) size() int {
	n := 0
	for _, s := range b.shapes {
		for _, e := range s.entries {
			n += len(e.findings)
		}
	}
	return n
}

// fix gives what to do about every finding of the block, where that is the same and
// there are several to tell: it is then said once.
func (b *block) fix() (fix string, shared bool) {
	told := 0
	for _, s := range b.shapes {
		for _, e := range s.entries {
			f := e.findings[0]
			if told++; told == 1 {
				fix = f.Fix
			}
			if f.Fix != fix {
				return "", false
			}
		}
	}
	return fix, told > 1 && fix != ""
}

func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

// gather joins shapes of one entry each where they are the same shape, and their
// entries where they say the same.
func gather(in []shape) []shape {
	var out []shape
	byShape := map[string]int{}
	byEntry := map[string]int{}
	for _, s := range in {
		e := s.entries[0]
		f := e.findings[0]
		key := outline(&e)
		i, known := byShape[key]
		if !known {
			i = len(out)
			byShape[key] = i
			out = append(out, shape{})
		}
		said := key + "\x00" + f.Message + "\x00" + f.Fix + "\x00" + f.Following()
		j, again := byEntry[said]
		if !again || f.Region != nil || f.Accepted != nil {
			byEntry[said] = len(out[i].entries)
			out[i].entries = append(out[i].entries, e)
			continue
		}
		out[i].entries[j].findings = append(out[i].entries[j].findings, f)
	}
	return out
}

// outline is equal for entries of one shape.
func outline(e *entry) string {
	f := e.findings[0]
	switch {
	case e.row != (cell.Place{}):
		return "\x00\x00" + e.row.String()
	case e.platforms():
		return "\x00" + f.Position
	case f.Region != nil:
		return f.Platform + "\x00" + f.Position
	}
	return bare(f.Message)
}

// bare takes what is quoted and all digits out of a message.
func bare(message string) string {
	var b strings.Builder
	quoted := false
	for _, r := range message {
		switch {
		case r == '"':
			quoted = !quoted
		case quoted || r >= '0' && r <= '9':
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

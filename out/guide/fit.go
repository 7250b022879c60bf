package guide

import (
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// fit is what a page says about one place of one kind of vehicle, or about what
// replaces a part.
type fit struct {
	Kind     string // fitted, with, none, planned, ask, gap or unsettled
	Choices  []choice
	With     link
	Texts    []string
	Whom     whom
	Cautions cautions
}

// choice is what is fitted together; the first of several is preferred.
type choice struct {
	First, More bool // of several
	Items       []item
}

// item is a number of parts, or of kits with what is in them.
type item struct {
	Count    int
	Part     partRef
	Contents []item
}

// partRef names a part on a page other than its own.
type partRef struct {
	Number, Name string
	Href         string // "" for a number that nothing declares
	Status       string // "" for a current part
}

// partRef names a part; of one of an earlier release it tells what it is now.
func (s *site) partRef(p *model.Part) partRef {
	if now := s.now[p.Number]; now != nil {
		p = now
	}
	r := partRef{Number: p.Number, Name: p.Name}
	if file, ok := s.partFiles[p]; ok {
		r.Href = "../" + file
	}
	if p.Status != model.Current {
		r.Status = s.statusOf(p.Status)
	}
	return r
}

// fit says a case. Of a case that is not settled it says nothing but that, since its
// texts may speak of parts; of planned work nothing but that it is planned.
func (s *site) fit(c *decide.Case, with func(*model.Position) link) fit {
	if c.Withheld() {
		return fit{Kind: "unsettled", Whom: s.whom()}
	}
	var notes cautions
	f := fit{Whom: s.whom()}
	switch c.Outcome {
	case model.Fitted:
		f.Kind = "fitted"
		if c.With != nil {
			f.Kind, f.With = "with", with(c.With)
		}
		f.Choices = s.choices(c.Alternatives)
	case model.None:
		f.Kind, f.Texts = "none", s.trEach(c.Texts)
	case model.Planned:
		f.Kind = "planned"
		return f
	case model.Ask:
		f.Kind, f.Texts = "ask", s.trEach(c.Texts)
	case model.Gap:
		f.Kind = "gap"
		return f
	default:
		f.Kind = "unsettled"
		return f
	}
	notes.add(c.Notes)
	for n, a := range c.Alternatives {
		for _, i := range a {
			notes.addPart(i.Part, n)
		}
	}
	f.Cautions = s.trCautions(notes.sorted())
	return f
}

func (s *site) choices(as []model.Alternative) []choice {
	out := make([]choice, len(as))
	for i, a := range as {
		several := len(as) > 1
		out[i] = choice{First: several && i == 0, More: several && i > 0}
		for _, it := range a {
			out[i].Items = append(out[i].Items, item{
				Count: it.Quantity, Part: s.partRef(it.Part), Contents: s.contents(it.Part),
			})
		}
	}
	return out
}

// contents lists what is in a kit, and in the kits in it. A kit that comes up again is
// not opened again: its own page tells what it holds, and one that leads back to
// itself (a finding, yet a draft may hold it) comes to an end.
func (s *site) contents(kit *model.Part) []item {
	return s.opened(kit, map[*model.Part]bool{})
}

func (s *site) opened(kit *model.Part, seen map[*model.Part]bool) []item {
	if seen[kit] {
		return nil
	}
	seen[kit] = true
	var out []item
	for _, c := range kit.Contents {
		out = append(out, item{Count: c.Quantity, Part: s.partRef(c.Part), Contents: s.opened(c.Part, seen)})
	}
	return out
}

package compare

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// accepted gives the parts of a difference that Accepted rows of NEW are about, and what
// is left. `check` tells the findings that stand behind what is said now, and the same
// rows accept both. It runs inside Try.
func (w *worker) accepted(p *pair, d difference) (shares []accept.Share, rest space.Region) {
	stands := w.stands(p, d)
	if len(stands) == 0 {
		return nil, d.where
	}
	return w.ledger.Behind(p.new.Platform, stands, d.where)
}

// stands gives the findings behind what is said now: where there is no fit, where cells
// disagree, or where a check has found the fit wrong.
func (w *worker) stands(p *pair, d difference) []accept.Stand {
	a := d.is.Answer
	switch {
	case !a.Exists:
		return nil
	case a.Outcome == model.Fitted && a.Settled:
		return nil
	case a.Outcome == model.Fitted:
		return w.against(p, d.new.position)
	}
	code := codeOf(a.Outcome, d.new.position)
	if code == "" {
		return nil
	}
	cause := decide.Cause{Code: code, Position: d.new.position.Name}
	return []accept.Stand{{Finding: stand(p, cause), Where: d.where}}
}

// codeOf gives the finding that tells an outcome other than a fit, "" where none does.
func codeOf(o model.Outcome, position *model.Position) finding.Code {
	switch {
	case o == model.Gap && position.Coverage != model.Optional:
		return finding.CoverageGap
	case o == model.Planned:
		return finding.CoveragePlanned
	case o == model.Ask:
		return finding.CoverageAsk
	case o == model.Conflict:
		return finding.FitmentConflict
	}
	return ""
}

// against gives what checks of NEW found wrong with what is fitted at a position.
func (w *worker) against(p *pair, position *model.Position) []accept.Stand {
	var out []accept.Stand
	for _, a := range w.answer(&p.new, isNew, position).Against {
		boxes := make([]space.Box, len(a.Where))
		for i, b := range a.Where {
			boxes[i] = p.new.box(b)
		}
		out = append(out, accept.Stand{Finding: stand(p, a.Cause), Where: p.Intersect(p.UnionBoxes(boxes), p.new.all)})
	}
	return out
}

func stand(p *pair, c decide.Cause) finding.Finding {
	return finding.Finding{Code: c.Code, Platform: p.new.Model.Name, Position: c.Position, Part: c.Part}
}

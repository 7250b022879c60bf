package compare

import (
	"ferrule/compiler/accept"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// accepted gives the parts of a difference that Accepted rows of NEW are about, and what
// is left: where there is no fit any more, where cells disagree, or where a check has
// found the fit wrong, `check` tells a finding that a row may name. It runs inside Try.
func (w *worker) accepted(p *pair, d difference) (shares []accept.Share, rest space.Region) {
	rest = d.where
	for _, f := range findings(d) {
		f.Platform, f.Position = p.new.Model.Name, d.new.name()
		var more []accept.Share
		more, rest = w.ledger.Split(p.new.Platform, &f, rest, accept.Use{})
		shares = append(shares, more...)
	}
	return shares, rest
}

// findings gives the findings that may stand for a difference: code and part.
func findings(d difference) []finding.Finding {
	switch a := d.is.Answer; {
	case !a.Exists:
		return nil
	case a.Outcome == model.Gap:
		return []finding.Finding{{Code: "coverage-gap"}}
	case a.Outcome == model.Planned:
		return []finding.Finding{{Code: "coverage-planned"}}
	case a.Outcome == model.Ask:
		return []finding.Finding{{Code: "coverage-ask"}}
	case a.Outcome == model.Conflict:
		return []finding.Finding{{Code: "fitment-conflict"}}
	case d.Kind == Unsettled:
		return wrongFits(a.Alternatives)
	}
	return nil
}

// wrongFits gives the findings that unsettle a fit, of each part offered.
func wrongFits(alternatives []model.Alternative) []finding.Finding {
	var out []finding.Finding
	fits := model.Fits{Outcome: model.Fitted, Alternatives: alternatives}
	fits.Parts(func(part *model.Part) {
		for _, code := range []finding.Code{"part-forbidden", "line-size-mismatch", "companion-forbidden", "limit-broken", "fact-conflict"} {
			out = append(out, finding.Finding{Code: code, Part: part.Number})
		}
	})
	return out
}

// name gives the position's name in the release, "" where it does not have it.
func (v *view) name() string {
	if v.position == nil {
		return ""
	}
	return v.position.Name
}

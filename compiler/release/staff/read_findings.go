package staff

import (
	"math/big"
	"slices"

	"ferrule/compiler/finding"
)

// finding reads a finding as far as releases are compared by it.
func (r *reader) finding(in *Finding) *finding.Finding {
	out := &finding.Finding{Code: finding.Code(in.Code), Message: in.Message, Constant: in.Constant,
		Platform: in.Platform, Position: in.Position, Part: in.Part, Fix: in.Fix, Severity: r.severity(in.Severity)}
	for i := range in.Cells {
		out.Cells = append(out.Cells, finding.Cell{Place: r.place(&in.Cells[i]), Note: in.Cells[i].Note})
	}
	if p := in.Repair; p != nil {
		out.Repair = &finding.Repair{At: r.place(&p.Cell), Old: p.Old, New: p.New, Why: p.Why}
	}
	for _, x := range in.Follows {
		out.Follows = append(out.Follows, finding.Follow{Code: finding.Code(x.Code), Count: x.Count})
	}
	if in.Accepted != nil {
		out.Accepted = &finding.Accepted{Reason: in.Accepted.Reason, By: in.Accepted.By, Until: in.Accepted.Until, Cell: r.place(in.Accepted.Cell)}
	}
	out.Region = r.packer.Pack(r.region(in))
	return out
}

// region reads the vehicles of a finding; nil where it is about none.
func (r *reader) region(in *Finding) *finding.Region {
	switch {
	case in.Exact != nil:
		return &finding.Region{}
	case in.Configurations == nil:
		return nil
	}
	out := &finding.Region{Exact: true, Configurations: in.Configurations, OnTheRoad: new(big.Rat), Rest: in.Rest}
	if _, ok := out.OnTheRoad.SetString(in.OnTheRoad.String()); !ok {
		r.fail("%q is no number of vehicles", in.OnTheRoad)
	}
	for _, b := range in.Where {
		out.Where = append(out.Where, r.box(b))
	}
	return out
}

func (r *reader) severity(name string) finding.Severity {
	all := []finding.Severity{finding.Note, finding.Warning, finding.Error}
	i := slices.IndexFunc(all, func(s finding.Severity) bool { return s.String() == name })
	if i < 0 {
		r.fail("there is no severity %q", name)
		return finding.Error
	}
	return all[i]
}

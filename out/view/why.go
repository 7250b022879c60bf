package view

import (
	"ferrule/compiler/ask/pick"
	"ferrule/out/report"
)

// Why is which cells decide at a position, which are overruled, and why others do not fit.
type Why struct {
	Position  string
	Irregular bool
	Decides   []string
	Overruled []string
	Against   []Note
	Others    []Other
}

// Other is a part that is not offered there.
type Other struct {
	Part    string
	Rows    []string // that offer it, and why they do not decide; none: no cell does
	Against []Note   // what would be found if it were
}

// WhyOf gives the reasons behind a pick list as they are shown.
func WhyOf(y *pick.Why) (out []Why) {
	for i := range y.Reasons {
		r := &y.Reasons[i]
		w := Why{Position: r.Position.Position.Name, Irregular: !r.Exact}
		for _, s := range r.Cells {
			decides, overruled := report.Standing(s)
			if decides != "" {
				w.Decides = append(w.Decides, decides)
			}
			if overruled != "" {
				w.Overruled = append(w.Overruled, overruled)
			}
		}
		for _, way := range r.Ways {
			for _, f := range way.Findings {
				w.Against = append(w.Against, Note{f.Severity.String(), report.Against(f, true)})
			}
		}
		for _, c := range r.Others {
			w.Others = append(w.Others, otherOf(c))
		}
		out = append(out, w)
	}
	return out
}

func otherOf(c pick.Candidate) Other {
	o := Other{Part: report.ItemName(c.Part)}
	for _, s := range c.Rows {
		o.Rows = append(o.Rows, report.Missed(s))
	}
	for _, f := range c.Against {
		o.Against = append(o.Against, Note{f.Severity.String(), report.Against(f, true)})
	}
	return o
}

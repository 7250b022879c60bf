package enumerate

// rowFindings compares row-unreachable: the first cells of the rows.
func (k *checker) rowFindings() {
	want := k.c.unreachable(k.o)
	seen := map[string]bool{}
	for _, f := range k.out.findings {
		if f.Code != "row-unreachable" {
			continue
		}
		if err := k.ruledOut(f); err != nil {
			k.failf(f.Code, "%v: %v", f.Cells, err)
		}
		if !want[f.Cells[0].String()] {
			k.failf(f.Code, "not expected: %v: %s", f.Cells, f.Message)
			continue
		}
		if f.Platform != "" || f.Configurations != 0 || f.Severity != "warning" {
			k.failf(f.Code, "%v: platform %q, %d configurations, %s", f.Cells, f.Platform, f.Configurations, f.Severity)
		}
		seen[f.Cells[0].String()] = true
	}
	for cell := range want {
		if !seen[cell] {
			k.failf("row-unreachable", "not told: %s", cell)
		}
	}
}

// told reports whether a finding of this code names a cell.
func (k *checker) told(code string, cell ref) bool {
	for _, f := range k.out.findings {
		if f.Code != code {
			continue
		}
		for _, at := range f.Cells {
			if at == cell {
				return true
			}
		}
	}
	return false
}

// standing is how a part is offered.
type standing struct {
	named   bool // some readable cell holds it, itself or in a kit
	decides bool // a cell that decides somewhere holds it, itself or in a kit
	direct  bool // a cell that decides somewhere names it itself
}

func (k *checker) standing(name string) standing {
	var s standing
	for _, f := range k.c.fits {
		for _, st := range f.says {
			if f.gone || st.unreadable || !holdsName(k.c.offered(st), name) {
				continue
			}
			s.named = true
			s.decides = s.decides || k.o.decided[st]
			s.direct = s.direct || k.o.decided[st] && st.names(name)
		}
	}
	return s
}

func holdsName(names []string, name string) bool {
	for _, n := range names {
		if n == name {
			return true
		}
	}
	return false
}

// names reports whether a statement names a part itself.
func (st *statement) names(name string) bool {
	for _, alt := range st.alts {
		for _, it := range alt {
			if it.name == name {
				return true
			}
		}
	}
	return false
}

// partFindings compares part-unused and part-not-current. The format leaves
// open whether a cell that never decides offers anything, and whether a kit
// offers its parts for part-not-current: there either answer will do.
func (k *checker) partFindings() {
	for _, p := range k.c.parts {
		s := k.standing(p.name)
		unused := k.told("part-unused", p.at["Part"])
		switch {
		case unused && (s.decides || p.status != "current"):
			k.failf("part-unused", "%s is used or not current", p.name)
		case !unused && !s.named && p.status == "current" && !k.doubtful(p.name):
			k.failf("part-unused", "%s is not told", p.name)
		}
		k.notCurrent(p, s)
	}
}

// doubtful reports whether a cell that cannot be read names a part: our
// unreadable cells name two.
func (k *checker) doubtful(name string) bool {
	for _, f := range k.c.fits {
		for _, st := range f.says {
			if !f.gone && st.unreadable {
				return name == "FD-1" || name == "FD-2"
			}
		}
	}
	return false
}

func (k *checker) notCurrent(p *part, s standing) {
	severity := map[string]string{"withdrawn": "error", "superseded": "warning"}[p.status]
	told := 0
	for _, f := range k.out.findings {
		if f.Code != "part-not-current" || f.Part != p.name {
			continue
		}
		told++
		if f.Severity != severity || !s.named {
			k.failf(f.Code, "%s (%s, offered %v): %s: %s", p.name, p.status, s.named, f.Severity, f.Message)
		}
	}
	if told == 0 && severity != "" && s.direct {
		k.failf("part-not-current", "%s, %s and offered, is not told", p.name, p.status)
	}
}

// clashes compares position-conflict: pairs of Positions rows, by their rows.
func (k *checker) clashes() {
	want := map[string]bool{}
	for c := range k.o.clashes {
		want[pair(c[0].first.row(), c[1].first.row())] = true
	}
	seen := map[string]bool{}
	for _, f := range k.out.findings {
		if f.Code != "position-conflict" {
			continue
		}
		if len(f.Cells) < 2 || f.Severity != "error" {
			k.failf(f.Code, "%s, %v: %s", f.Severity, f.Cells, f.Message)
			continue
		}
		id := pair(f.Cells[0].row(), f.Cells[1].row())
		if !want[id] {
			k.failf(f.Code, "not expected: %s: %s", id, f.Message)
		}
		seen[id] = true
	}
	for id := range want {
		if !seen[id] {
			k.failf("position-conflict", "not told: %s", id)
		}
	}
}

// acceptedRows compares accepted-expired and accepted-unused.
func (k *checker) acceptedRows() {
	idle := k.c.idle(k.o)
	for _, a := range k.c.accepts {
		if a.gone {
			continue
		}
		if k.toldRow("accepted-expired", a.first) != a.expired {
			k.failf("accepted-expired", "%v: told %v, want %v", a.first, !a.expired, a.expired)
		}
		if told := k.toldRow("accepted-unused", a.first); told != idle[a] && !a.expired {
			k.failf("accepted-unused", "%v: told %v, want %v", a.first, told, idle[a])
		}
	}
}

func (k *checker) toldRow(code string, cell ref) bool {
	for _, f := range k.out.findings {
		for _, at := range f.Cells {
			if f.Code == code && at.row() == cell.row() {
				return true
			}
		}
	}
	return false
}

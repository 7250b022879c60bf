package enumerate

import (
	"path/filepath"
	"slices"
)

// lineGuide is a published guide, as far as it says what is fitted where.
type lineGuide struct {
	Platform  string    `json:"platform"`
	Vehicles  []lineBox `json:"vehicles"`
	Positions []struct {
		Cases []lineCase `json:"cases"`
	} `json:"positions"`
}

type lineCase struct {
	Where        lineBox   `json:"where"`
	Outcome      string    `json:"outcome"`
	Alternatives [][]offer `json:"alternatives"`
}

func (c lineCase) says() string {
	if c.Outcome == "fitted" && len(c.Alternatives) == 1 && len(c.Alternatives[0]) == 1 {
		return c.Alternatives[0][0].Part
	}
	return c.Outcome
}

// guides holds the public guides: which vehicles exist, and on each of them what is fitted.
func (k *lineChecker) guides(dir string) error {
	paths, err := filepath.Glob(filepath.Join(dir, "public", "guides", "*.json"))
	if err != nil {
		return err
	}
	for _, path := range paths {
		var g lineGuide
		if err := loadFile(path, &g); err != nil {
			return err
		}
		for p, w := range k.worlds {
			if linePlatform(p) == g.Platform {
				k.seen["guide"]++
				k.guide(p, w, &g)
			}
		}
	}
	return nil
}

func (k *lineChecker) guide(p int, w *lineWorld, g *lineGuide) {
	left := map[string]bool{}
	for _, v := range w.left {
		left[v.id()] = true
	}
	for _, v := range k.candidates(p) {
		if !w.hasValues(v) {
			continue // a box that leaves a trait free means the values that exist
		}
		if in := slices.ContainsFunc(g.Vehicles, func(b lineBox) bool { return k.holds(b, v) }); in != left[v.id()] {
			k.failf("the guide of %s says %v of whether %v exists", g.Platform, in, v)
		}
	}
	for _, v := range w.left {
		what, want := k.outcome(p, v)
		var said []string
		for _, pos := range g.Positions {
			for _, c := range pos.Cases {
				if k.holds(c.Where, v) {
					said = append(said, c.says())
				}
			}
		}
		if slices.Sort(said); what == "fitted" && !slices.Equal(slices.Compact(said), []string{want}) ||
			what == "none" && !slices.Equal(slices.Compact(said), []string{"none"}) ||
			what != "fitted" && what != "none" && slices.ContainsFunc(said, func(s string) bool { return s[0] == 'P' || s == "none" }) {
			k.failf("the guide of %s says %q of %v, want %s %s", g.Platform, said, v, what, want)
		}
	}
}

// hasValues tells whether each value of a vehicle occurs on the platform.
func (w *lineWorld) hasValues(v lineCar) bool {
	for i := range v.vals {
		if !slices.ContainsFunc(w.left, func(g lineCar) bool { return g.vals[i] == v.vals[i] }) {
			return false
		}
	}
	return slices.ContainsFunc(w.left, func(g lineCar) bool { return g.axle == v.axle })
}

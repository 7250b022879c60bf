package model

// Tells tells whether the catalogue says how to see the trait on a platform.
func (t *Trait) Tells(p *Platform) bool {
	for x := range t.texts {
		if x.Text != "" && (x.Platform == nil || x.Platform == p) {
			return true
		}
	}
	return false
}

// EffortOn is what it takes to see the trait on a platform, from 1 to 5: the most that
// rows for that platform state, else what holds for all.
func (t *Trait) EffortOn(p *Platform) int {
	most := 0
	for x := range t.texts {
		if x.Platform != nil && x.Platform == p {
			most = max(most, x.Effort)
		}
	}
	if most == 0 {
		most = t.Effort
	}
	return min(max(most, 1), 5)
}

// texts goes through the texts about the trait and about its values.
func (t *Trait) texts(yield func(*Tell) bool) {
	for i := range t.Tell {
		if !yield(&t.Tell[i]) {
			return
		}
	}
	for _, v := range t.Values {
		for i := range v.Tell {
			if !yield(&v.Tell[i]) {
				return
			}
		}
	}
}

// YearEffort is what it takes to see the model year on a platform, from 1 to 5.
func (c *Catalogue) YearEffort(p *Platform) int {
	general, own := 1, 0
	for _, x := range c.YearTell {
		switch {
		case x.Platform == nil:
			general = max(general, x.Effort)
		case x.Platform == p:
			own = max(own, x.Effort)
		}
	}
	if own == 0 {
		own = general
	}
	return min(own, 5)
}

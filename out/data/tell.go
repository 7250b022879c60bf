package data

import "ferrule/compiler/model"

// tell gives the texts that say how to see what a vehicle has: those for the
// platform, and where there are none those for all. A nil platform asks for the
// latter.
func tell(tells []model.Tell, p *model.Platform) string {
	var own, general []string
	for _, t := range tells {
		switch {
		case t.Text == "":
		case t.Platform == nil:
			general = appendNew(general, t.Text)
		case t.Platform == p:
			own = appendNew(own, t.Text)
		}
	}
	if len(own) > 0 {
		return joined(own)
	}
	return joined(general)
}

// effort gives how much it takes to see a trait on a platform, from 1 to 5.
func effort(t *model.Trait, p *model.Platform) int {
	for _, own := range t.Tell {
		if own.Platform != nil && own.Platform == p && own.Effort > 0 {
			return own.Effort
		}
	}
	return t.Effort
}

func kindName(k model.TraitKind) string { return [...]string{"choice", "ordered", "size"}[k] }

func coverageName(c model.Coverage) string {
	return [...]string{"required", "wanted", "optional"}[c]
}

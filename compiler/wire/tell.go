package wire

import "ferrule/compiler/model"

// Tell gives the texts that say how to see what a vehicle has: those for the
// platform, and where there are none those for all. A nil platform asks for the
// latter.
func Tell(tells []model.Tell, p *model.Platform) string {
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

package model

// Replaced follows what replaces a part, and what replaces that, each part once: the parts
// that something takes the place of, the part itself first, and those at which the chain
// ends.
func (p *Part) Replaced() (steps, ends []*Part) {
	seen := map[*Part]bool{p: true}
	for queue := []*Part{p}; len(queue) > 0; queue = queue[1:] {
		old := queue[0]
		if old.ReplacedBy == nil {
			if old != p {
				ends = append(ends, old)
			}
			continue
		}
		steps = append(steps, old)
		for _, a := range old.ReplacedBy.Alternatives {
			for _, i := range a {
				if !seen[i.Part] {
					seen[i.Part] = true
					queue = append(queue, i.Part)
				}
			}
		}
	}
	return steps, ends
}

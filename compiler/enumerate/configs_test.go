package enumerate

// maxTraits bounds the traits of a generated catalogue.
const maxTraits = 6

// config is one configuration: a year and a value for every trait, or never.
type config struct {
	year int
	vals [maxTraits]int
}

// world is one platform with everything that exists of it, in the order of
// examples, and how many of each are on the road.
type world struct {
	platform int
	configs  []config
	road     []float64
}

// candidates lists every thinkable configuration of a platform in the order
// of examples: year, traits as declared, values as declared, never last.
func (c *catalogue) candidates(p int) []config {
	var out []config
	for _, y := range c.platforms[p].years() {
		out = c.extend(out, p, config{year: y}, 0)
	}
	return out
}

func (c *catalogue) extend(out []config, p int, g config, i int) []config {
	if i == len(c.traits) {
		return append(out, g)
	}
	for _, v := range c.representatives(p, i) {
		g.vals[i] = v
		out = c.extend(out, p, g, i+1)
	}
	g.vals[i] = never
	return c.extend(out, p, g, i+1)
}

// worlds enumerates all platforms. A Vehicles row spreads its vehicles
// over all its configurations that are built, on whichever of its platforms they are, evenly but for the
// length of stretches.
func (c *catalogue) worlds() []*world {
	all := make([][]config, len(c.platforms))
	size := map[*vehicle]float64{}
	for p := range c.platforms {
		all[p] = c.candidates(p)
		for _, v := range c.vehicles {
			size[v] += c.heldBy(v, p, all[p])
		}
	}
	var out []*world
	for p := range c.platforms {
		out = append(out, c.world(p, all[p], size))
	}
	return out
}

// matches reports whether a Vehicles row holds a configuration. A row with an
// unknown value is set aside.
func (v *vehicle) matches(p int, g config) bool {
	return !v.gone && v.fault == "" && v.holds(p, g)
}

func (c *catalogue) heldBy(v *vehicle, p int, all []config) float64 {
	n := 0.0
	for _, g := range all {
		if v.matches(p, g) && c.built(p, g) {
			n += c.weight(p, g)
		}
	}
	return n
}

func (c *catalogue) world(p int, all []config, size map[*vehicle]float64) *world {
	w := &world{platform: p}
	for _, g := range all {
		exists, road := false, 0.0
		for _, v := range c.vehicles {
			if v.matches(p, g) {
				exists = true
				if size[v] > 0 {
					road += v.road * c.weight(p, g) / size[v]
				}
			}
		}
		if exists && c.built(p, g) {
			w.configs = append(w.configs, g)
			w.road = append(w.road, road)
		}
	}
	return w
}

// share adds up what is on the road of a set of configurations.
func (w *world) share(set []int) float64 {
	sum := 0.0
	for _, i := range set {
		sum += w.road[i]
	}
	return sum
}

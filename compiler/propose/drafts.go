package propose

import "ferrule/schema/word"

// drafts are rows of the sheets that declare names, made of what the sheets say. What the catalogue
// has already is left out.
type drafts struct {
	platforms []*platform
	traits    []*trait
	positions []*position
	parts     []*part
	listed    bool           // a sheet is read as Vehicles
	index     map[string]int // by sort and folded name
}

type platform struct {
	name, maker string
	years       []string
	has         []*had // what its vehicles have
}

type position struct {
	name     string
	quantity map[string]string // by folded platform
	order    []string          // platforms as they are named
}

type part struct{ number, name, family string }

func newDrafts() *drafts { return &drafts{index: map[string]int{}} }

// at gives where a name of a sort is kept, and whether it is new.
func (d *drafts) at(sort, name string, next int) (int, bool) {
	key := sort + "\x00" + word.Fold(name)
	if i, ok := d.index[key]; ok {
		return i, false
	}
	d.index[key] = next
	return next, true
}

func (d *drafts) platform(name string) *platform {
	i, fresh := d.at("platform", name, len(d.platforms))
	if fresh {
		d.platforms = append(d.platforms, &platform{name: name})
	}
	return d.platforms[i]
}

func (d *drafts) position(name string) *position {
	i, fresh := d.at("position", name, len(d.positions))
	if fresh {
		d.positions = append(d.positions, &position{name: name, quantity: map[string]string{}})
	}
	return d.positions[i]
}

func (d *drafts) part(number string) *part {
	i, fresh := d.at("part", number, len(d.parts))
	if fresh {
		d.parts = append(d.parts, &part{number: number})
	}
	return d.parts[i]
}

// named gives the drafted trait of a name.
func (d *drafts) named(name string) *trait {
	i, fresh := d.at("trait", name, len(d.traits))
	if fresh {
		d.traits = append(d.traits, &trait{name: name})
	}
	return d.traits[i]
}

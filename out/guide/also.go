package guide

import (
	"encoding/json"
	"fmt"

	"ferrule/compiler/model"
)

// also gives, as JSON, what people call the platform, what is asked and its values besides, so that
// the finder knows them in an address: under "" the platform, under the number of what may be
// known, and under that with a point and the number of a value. "" where nothing has another name.
func (s *site) also(f *finder) string {
	pl := f.guide.Platform
	out := map[string][]string{}
	add := func(key string, called []model.Called) {
		if names := model.Names(called, pl); names != nil {
			out[key] = names
		}
	}
	add("", pl.Called)
	for _, trait := range f.order {
		number := fmt.Sprint(f.number[trait])
		if trait == 0 {
			add(number, s.cat.YearCalled)
			continue
		}
		u := f.use(trait)
		add(number, u.Trait.Called)
		n := 0
		for i, v := range u.Trait.Values {
			if u.Values.Has(i) { // those that the page has, in its order
				add(fmt.Sprint(number, ".", n), v.Called)
				n++
			}
		}
	}
	if len(out) == 0 {
		return ""
	}
	data, err := json.Marshal(out)
	if err != nil {
		panic("guide: also: names are no JSON: " + err.Error())
	}
	return string(data)
}

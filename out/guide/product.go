package guide

import (
	"slices"
	"strconv"

	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/out/offer"
)

// product is a part as search engines read it: JSON-LD in the words of schema.org. It
// stands in the page as data, and html/template writes it so that nothing in it can end
// the element it is in. Its texts are on one line each.
type product struct {
	Context     string          `json:"@context"`
	Type        string          `json:"@type"`
	Name        string          `json:"name"`
	Number      string          `json:"mpn"`
	Category    string          `json:"category,omitempty"`
	Description string          `json:"description,omitempty"`
	URL         string          `json:"url,omitempty"`
	Image       string          `json:"image,omitempty"`
	Brand       *brand          `json:"brand,omitempty"`
	Properties  []propertyValue `json:"additionalProperty,omitempty"`
	For         []vehicle       `json:"isAccessoryOrSparePartFor,omitempty"`
}

// brand is the name under which the catalogue's parts are offered: its publisher's.
type brand struct {
	Type string `json:"@type"`
	Name string `json:"name"`
}

// propertyValue is a property; Value is a quantity or a text.
type propertyValue struct {
	Type  string `json:"@type"`
	Name  string `json:"name"`
	Value any    `json:"value"`
}

// vehicle is a platform in the model years in which a part fits.
type vehicle struct {
	Type  string        `json:"@type"`
	Name  string        `json:"name"`
	Maker *organization `json:"manufacturer,omitempty"`
	Years []string      `json:"vehicleModelDate,omitempty"`
}

type organization struct {
	Type string `json:"@type"`
	Name string `json:"name"`
}

// vehiclesAtMost is how many platforms a product names; the page itself lists all.
const vehiclesAtMost = 100

func (s *site) product(p *model.Part, offers []offer.Offer) *product {
	out := &product{Context: "https://schema.org", Type: "Product", Name: plainTitle(s.partName(p)), Number: plainTitle(p.Number),
		Category: plainTitle(s.tr(p.Family)), Description: plainTitle(s.tr(p.Summary))}
	if s.base != "" {
		out.URL = s.base + s.folder + s.partFiles[p]
	}
	out.Image, _ = s.published(p.Picture)
	if name := plainTitle(s.cat.Settings.Publisher); name != "" {
		out.Brand = &brand{"Brand", name}
	}
	if l := p.Line; l != nil && l.Known() {
		out.Properties = append(out.Properties, propertyValue{"PropertyValue", s.tongue.Say("Line size"), lineQuantity(l)})
	}
	for _, q := range p.Properties {
		if q.Text == "" || !q.Public || q.Refused {
			continue
		}
		v := propertyValue{"PropertyValue", plainTitle(s.tr(q.Name)), plainTitle(s.propertyWords(q))}
		if n, ok := quantityOf(q.Quantity); ok {
			v.Value = n
		}
		out.Properties = append(out.Properties, v)
	}
	out.For = vehicles(offers)
	return out
}

// lineQuantity gives a line size as it is stated, where that is a decimal, and else in
// millimetres, which every fraction of an inch down to 64ths is.
func lineQuantity(l *measure.Size) any {
	for _, u := range []measure.Unit{l.Unit, measure.Millimetre} {
		if q, ok := quantityOf(measure.New(l.In(u), l.In(u), u)); ok {
			return q
		}
	}
	return plainTitle(l.Text)
}

// vehicles lists the platforms for which a part is offered, with the years of all its
// offers.
func vehicles(offers []offer.Offer) []vehicle {
	var out []vehicle
	for len(offers) > 0 && len(out) < vehiclesAtMost {
		p := offers[0].Platform
		n := 1
		for n < len(offers) && offers[n].Platform == p {
			n++
		}
		v := vehicle{Type: "Vehicle", Name: plainTitle(p.Maker + " " + p.Name)}
		if p.Maker != "" {
			v.Maker = &organization{"Organization", plainTitle(p.Maker)}
		}
		for _, y := range p.Years {
			if slices.ContainsFunc(offers[:n], func(o offer.Offer) bool { return inYear(o, y) }) {
				v.Years = append(v.Years, strconv.Itoa(y))
			}
		}
		out, offers = append(out, v), offers[n:]
	}
	return out
}

// inYear tells whether an offer holds for vehicles of a model year.
func inYear(o offer.Offer, year int) bool {
	return slices.ContainsFunc(o.Where, func(b model.Box) bool { return boxInYear(b, year) })
}

func boxInYear(b model.Box, year int) bool {
	return b.Years == nil || slices.ContainsFunc(b.Years, func(s model.Span) bool { return s.From <= year && year <= s.To })
}

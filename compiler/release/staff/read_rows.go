package staff

import (
	"math/big"
	"slices"

	"ferrule/compiler/line"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
)

// catalogue reads all rows, declarations first.
func (r *reader) catalogue(file *catalogueFile) *model.Catalogue {
	cat := &model.Catalogue{Settings: model.Settings{Title: file.Title, Publisher: file.Publisher, Release: file.Release,
		BaseURL: file.BaseURL, Contact: file.Contact, Millimetres: file.Units == "mm", DecimalComma: file.Decimal == ",",
		Language: file.Language, Languages: file.Languages}}
	for i := range file.Platforms {
		cat.Platforms = append(cat.Platforms, r.declarePlatform(i, &file.Platforms[i]))
	}
	for i := range file.Traits {
		cat.Traits = append(cat.Traits, r.declareTrait(i, &file.Traits[i]))
	}
	for i := range file.Positions {
		p := &model.Position{Index: i, Name: file.Positions[i].Position, At: r.place(file.Positions[i].Cell)}
		r.positions[p.Name] = p
		cat.Positions = append(cat.Positions, p)
	}
	for _, in := range file.Cautions {
		c := &model.Caution{Key: in.Key, Text: in.Text, Level: in.Level, At: r.place(in.Cell)}
		r.cautions[c.Key] = c
		cat.Cautions = append(cat.Cautions, c)
	}
	for _, in := range file.Translated {
		t := &model.Translation{Text: in.Text, At: r.place(in.Cell)}
		for _, w := range in.Wordings {
			t.Wordings = append(t.Wordings, model.Wording{Language: w.Language, Text: w.Text, At: r.place(w.Cell)})
		}
		cat.Translations = append(cat.Translations, t)
	}
	for i := range file.Parts {
		cat.Parts = append(cat.Parts, r.declarePart(&file.Parts[i], cat.Settings.DecimalComma))
	}
	r.kits(file.Kits)
	for i, p := range cat.Parts {
		p.ReplacedBy = r.replacement(file.Parts[i].ReplacedBy)
	}
	for i, p := range cat.Positions {
		for _, row := range file.Positions[i].Rows {
			out := &model.PositionRow{Position: p, When: r.when(row.When), Quantity: row.Quantity, At: r.place(row.Cell), LineAt: r.place(row.AirLineCell)}
			if row.AirLine != "" {
				out.AirLine = r.trait(row.AirLine)
			}
			p.Rows = append(p.Rows, out)
		}
	}
	r.vehicles(cat, file.Vehicles)
	for _, row := range file.Breaks {
		out := &model.Break{When: r.when(row.When), Source: row.Source, Note: row.Note, At: r.place(row.Cell)}
		value := r.when(row.Value).Traits
		if len(value) != 1 {
			r.fail("a Breaks row is not about one trait")
			continue
		}
		out.Value = value[0]
		cat.Breaks = append(cat.Breaks, out)
	}
	for _, ref := range file.References {
		cat.References = append(cat.References, &model.Reference{Number: ref.Number, Part: r.part(ref.Part), Source: ref.Source, Kind: ref.Kind, At: r.place(ref.Cell)})
	}
	for i := range file.Fitments {
		cat.Fitments = append(cat.Fitments, r.fitment(i, &file.Fitments[i]))
	}
	for i := range file.Rules {
		cat.Rules = append(cat.Rules, r.rule(&file.Rules[i]))
	}
	for i := range file.Limits {
		cat.Limits = append(cat.Limits, r.limit(i, &file.Limits[i]))
	}
	for i := range file.Complaints {
		cat.Complaints = append(cat.Complaints, r.complaint(&file.Complaints[i]))
	}
	for i := range file.Inspections {
		cat.Inspections = append(cat.Inspections, r.inspection(&file.Inspections[i]))
	}
	for _, a := range file.Accepted {
		out := &model.Acceptance{Code: a.Finding, When: r.when(a.When), Reason: a.Reason, By: a.By, Until: a.Until, At: r.place(a.Cell)}
		if a.Position != "" {
			out.Position = r.position(a.Position)
		}
		if a.Part != "" {
			out.Part = r.part(a.Part)
		}
		cat.Acceptances = append(cat.Acceptances, out)
	}
	return cat
}

// maxYears bounds the years of a platform: a file that was tampered with must not take
// the memory.
const maxYears = 10_000

func (r *reader) declarePlatform(i int, in *platform) *model.Platform {
	p := &model.Platform{Index: i, Name: in.Platform.Platform, Maker: in.Maker, At: r.place(in.Cell)}
	for _, s := range in.Years {
		if s[1]-s[0] >= maxYears || len(p.Years) > 0 && s[0] <= p.Years[len(p.Years)-1] {
			r.fail("the years of %s are not ascending ranges", p.Name)
			break
		}
		for y := s[0]; y <= s[1]; y++ {
			p.Years = append(p.Years, y)
		}
	}
	r.platforms[p.Name] = p
	return p
}

func (r *reader) declareTrait(i int, in *trait) *model.Trait {
	t := &model.Trait{Index: i, Name: in.Trait, At: r.place(in.Cell)}
	kind := slices.IndexFunc(model.TraitKinds(), func(k model.TraitKind) bool { return k.String() == in.Kind })
	if kind < 0 {
		r.fail("there is no kind of trait %q", in.Kind)
		kind = 0
	}
	t.Kind = model.TraitKind(kind)
	for _, v := range in.Values {
		value := &model.Value{Name: v.Value, At: r.place(v.Cell)}
		if t.Kind == model.Size {
			// One that cannot be read equals nothing, as in the workbook.
			value.Size, _ = measure.ParseSize(v.Value, measure.Options{})
		}
		t.Values = append(t.Values, value)
	}
	for _, e := range in.Extents {
		t.Extents = append(t.Extents, r.extent(t, e))
	}
	r.traits[t.Name] = t
	return t
}

func (r *reader) extent(t *model.Trait, in extent) model.Extent {
	out := model.Extent{At: r.place(in.Cell)}
	if in.Platform != "" {
		if out.Platform = r.platforms[in.Platform]; out.Platform == nil {
			r.fail("nothing declares the platform %q", in.Platform)
		}
	}
	var all []line.Range
	for _, ends := range in.Ranges {
		all = append(all, r.lineRange(t, ends[0], ends[1]))
	}
	out.Values = line.SetOf(all...)
	return out
}

func (r *reader) declarePart(in *part, comma bool) *model.Part {
	p := &model.Part{Number: in.Part, Name: in.Name, Family: in.Family, Known: !in.Unknown,
		At: r.place(in.Cell), LineAt: r.place(in.LineSizeCell)}
	status := slices.IndexFunc([]model.Status{model.Current, model.Superseded, model.Withdrawn}, func(s model.Status) bool { return s.String() == in.Status })
	if status < 0 {
		r.fail("there is no status %q of a part", in.Status)
		status = 0
	}
	p.Status = model.Status(status)
	r.protected(p, in, comma)
	r.parts[p.Number] = p
	return p
}

func (r *reader) kits(in []kit) {
	for _, k := range in {
		kit := r.part(k.Kit)
		for _, line := range k.Parts {
			kit.Contents = append(kit.Contents, model.Component{Part: r.part(line.Part), Quantity: line.Quantity, At: r.place(line.Cell)})
		}
	}
}

func (r *reader) vehicles(cat *model.Catalogue, in []vehiclesRow) {
	for _, row := range in {
		v := &model.Vehicles{When: r.when(row.When), At: r.place(row.Cell), RoadAt: r.place(row.OnTheRoadCell)}
		if len(v.When.Traits) != len(cat.Traits) && !v.When.SetAside {
			r.fail("a Vehicles row does not name all traits")
		}
		if row.OnTheRoad != "" {
			road, ok := new(big.Rat).SetString(row.OnTheRoad.String())
			if !ok {
				r.fail("%s is no number of vehicles", row.OnTheRoad)
			}
			v.Road = model.Number{Rat: road}
		}
		cat.Vehicles = append(cat.Vehicles, v)
	}
}

func (r *reader) fitment(i int, in *fitment) *model.Fitment {
	f := &model.Fitment{Index: i, When: r.when(in.When), Precedence: in.Precedence, At: r.place(in.Cell)}
	f.Row = f.At.Pos.Row
	for _, c := range in.Cells {
		cell := &model.FitCell{Row: f, Position: r.position(c.Position), Fits: r.fits(&c.Fits), At: r.place(c.Cell)}
		if cell.Position != nil {
			f.Cells = append(f.Cells, cell)
		}
	}
	return f
}

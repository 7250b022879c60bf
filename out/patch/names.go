package patch

import (
	"path"
	"strconv"
	"strings"
)

// Names of the standard: relations of documents, transitional and strict, of packages; and of the main
// markup in its strict form.
const (
	relTransitional = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	relStrict       = "http://purl.oclc.org/ooxml/officeDocument/relationships"
	spacePackage    = "http://schemas.openxmlformats.org/package/2006/relationships"
	spaceStrict     = "http://purl.oclc.org/ooxml/spreadsheetml/main"
	typesPart       = "[Content_Types].xml"
	head            = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
)

// relSpace is where the types of a workbook's relations begin, by the namespace of its markup.
func relSpace(main string) string {
	if main == spaceStrict {
		return relStrict
	}
	return relTransitional
}

func dirOf(name string) string { d, _ := path.Split(name); return d }

// free gives a name for a new part: of the pattern, with the first number in place of % that none has.
func (p *patching) free(pattern string) string {
	for n := 1; ; n++ {
		name := strings.Replace(pattern, "%", strconv.Itoa(n), 1)
		_, taken := p.book.Has(name)
		if _, ours := p.parts[name]; !taken && !ours {
			return name
		}
	}
}

// relsOf is the name of the part that lists what a part leads to.
func relsOf(name string) string {
	dir, base := path.Split(name)
	return dir + "_rels/" + base + ".rels"
}

// relate adds a relation from one part to another and gives its id.
func (p *patching) relate(from, kind, to string) (id string, err error) {
	main, err := p.edit(p.book.WorkbookPart())
	if err != nil {
		return "", err
	}
	name := relsOf(from)
	real, there := p.book.Has(name)
	if !there && p.parts[name] == nil {
		p.keep(&part{name: name, made: true, space: spacePackage,
			old: []byte(head + `<Relationships xmlns="` + spacePackage + `"></Relationships>`)})
		real = name
		if err := p.usual("rels", "application/vnd.openxmlformats-package.relationships+xml"); err != nil {
			return "", err
		}
	}
	x := p.parts[name]
	if there {
		if x, err = p.edit(real); err != nil {
			return "", err
		}
	}
	id = x.freeID()
	x.tail += `<` + x.prefix + `Relationship Id="` + id + `" Type="` + relSpace(main.space) + `/` + kind + `" Target="` + escaped(relative(from, to)) + `"/>`
	return id, nil
}

// relative names a part as a relation of another does: many programs take no other names.
func relative(from, to string) string {
	dir := dirOf(from)
	up := ""
	for !strings.HasPrefix(to, dir) {
		dir = dirOf(strings.TrimSuffix(dir, "/"))
		up += "../"
	}
	return up + strings.TrimPrefix(to, dir)
}

// freeID gives an id that no relation of the part has.
func (x *part) freeID() string {
	taken := map[string]bool{}
	note := func(data []byte) {
		s := scanner{data: data}
		for t, ok := s.next(); ok; t, ok = s.next() {
			taken[value(data, t, "Id")] = true
		}
	}
	note(x.old)
	note([]byte(x.tail))
	for n := 1; ; n++ {
		if id := "rId" + strconv.Itoa(n); !taken[id] {
			return id
		}
	}
}

// types gives the part that lists the types of parts.
func (p *patching) types() (*part, error) {
	real, ok := p.book.Has(typesPart)
	if !ok {
		return nil, refuse("it has no list of the types of its parts")
	}
	return p.edit(real)
}

// typed says of which type a new part is.
func (p *patching) typed(name, kind string) error {
	x, err := p.types()
	if err != nil {
		return err
	}
	x.tail += `<` + x.prefix + `Override PartName="/` + escaped(name) + `" ContentType="` + kind + `"/>`
	return nil
}

// usual says of which type parts are whose names end so, unless that is said already.
func (p *patching) usual(extension, kind string) error {
	x, err := p.types()
	if err != nil {
		return err
	}
	for _, data := range [][]byte{x.old, []byte(x.tail)} {
		s := scanner{data: data}
		for t, ok := s.next(); ok; t, ok = s.next() {
			if strings.EqualFold(value(data, t, "Extension"), extension) {
				return nil
			}
		}
	}
	x.tail += `<` + x.prefix + `Default Extension="` + extension + `" ContentType="` + kind + `"/>`
	return nil
}

package main

import (
	"archive/zip"
	"bytes"
	"hash/crc32"
	"io"
	"maps"
	"slices"
	"strings"

	"github.com/klauspost/compress/flate"
)

const (
	mainSpace = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	relSpace  = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	listSpace = "http://schemas.openxmlformats.org/package/2006/relationships"
	xmlHead   = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"

	sheetPart  = "xl/worksheets/sheet1.xml"
	stylesPart = "xl/styles.xml"
	textsPart  = "xl/sharedStrings.xml"
	bookPart   = "xl/workbook.xml"
	bookRels   = "xl/_rels/workbook.xml.rels"
	rootRels   = "_rels/.rels"
)

// book is a workbook by the names of its parts.
type book map[string]string

func rels(kindsAndTargets ...string) string {
	var b strings.Builder
	b.WriteString(xmlHead + `<Relationships xmlns="` + listSpace + `">`)
	for i := 0; i+1 < len(kindsAndTargets); i += 2 {
		b.WriteString(`<Relationship Id="r` + string(rune('1'+i/2)) + `" Type="` + relSpace + "/" + kindsAndTargets[i] + `" Target="` + kindsAndTargets[i+1] + `"/>`)
	}
	return b.String() + `</Relationships>`
}

// sheet is a sheet's XML with rows and what follows them.
func sheet(rows string, after ...string) string {
	return xmlHead + `<worksheet xmlns="` + mainSpace + `"><sheetData>` + rows + `</sheetData>` + strings.Join(after, "") + `</worksheet>`
}

func workbookXML(before string) string {
	return xmlHead + `<workbook xmlns="` + mainSpace + `" xmlns:r="` + relSpace + `">` + before + `<sheets><sheet name="Fitment" sheetId="1" r:id="r1"/></sheets></workbook>`
}

// goodRows are three rows; the first is a header.
const goodRows = `<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c></row>` +
	`<row r="2"><c r="A2" t="s"><v>2</v></c><c r="B2"><v>2009</v></c></row>` +
	`<row r="3"><c r="A3" t="s"><v>2</v></c><c r="B3" s="1"><v>45293</v></c></row>`

// good is a small workbook with nothing wrong.
func good() book {
	return book{
		"[Content_Types].xml": xmlHead + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
		rootRels:              rels("officeDocument", bookPart),
		bookPart:              workbookXML(""),
		bookRels:              rels("worksheet", "worksheets/sheet1.xml", "styles", "styles.xml", "sharedStrings", "sharedStrings.xml"),
		stylesPart:            xmlHead + `<styleSheet xmlns="` + mainSpace + `"><fonts><font/></fonts><cellXfs><xf/><xf numFmtId="14"/></cellXfs></styleSheet>`,
		textsPart:             xmlHead + `<sst xmlns="` + mainSpace + `"><si><t>Platform</t></si><si><t>Years</t></si><si><t>H7</t></si></sst>`,
		sheetPart:             sheet(goodRows),
	}
}

// with gives the workbook with a part changed, or taken away where text is empty.
func (b book) with(name, text string) book {
	b = maps.Clone(b)
	b[name] = text
	if text == "" {
		delete(b, name)
	}
	return b
}

// rows gives the good workbook with other rows.
func rows(rows string, after ...string) book { return good().with(sheetPart, sheet(rows, after...)) }

// entries are the parts as they should be, in the order of their names.
func (b book) entries() []entry {
	var all []entry
	for _, name := range slices.Sorted(maps.Keys(b)) {
		all = append(all, packed(name, b[name]))
	}
	return all
}

func (b book) zip() []byte { return pack(b.entries()) }

// entry is a part whose entry in the list of parts can say anything.
type entry struct {
	zip.FileHeader
	data []byte // as stored in the file
}

// packed is a part that is as its entry says.
func packed(name, text string) entry {
	var b bytes.Buffer
	must(deflate(&b, text))
	return entry{zip.FileHeader{Name: name, Method: zip.Deflate, CRC32: crc32.ChecksumIEEE([]byte(text)),
		UncompressedSize64: uint64(len(text)), CompressedSize64: uint64(b.Len())}, b.Bytes()}
}

func deflate(to io.Writer, text string) error {
	w, err := flate.NewWriter(to, flate.BestCompression)
	if err != nil {
		return err
	}
	if _, err := io.WriteString(w, text); err != nil {
		return err
	}
	return w.Close()
}

// pack writes entries as they are.
func pack(entries []entry) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, e := range entries {
		w, err := z.CreateRaw(&e.FileHeader)
		must(err)
		_, err = w.Write(e.data)
		must(err)
	}
	must(z.Close())
	return b.Bytes()
}

// must is for what cannot fail in memory.
func must(err error) {
	if err != nil {
		panic("hostile: writing to memory: " + err.Error())
	}
}

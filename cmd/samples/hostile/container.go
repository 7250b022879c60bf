package main

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"math"
	"slices"
	"strings"
	"unicode/utf16"
)

// strangers are files of other kinds under the name of a workbook.
func strangers() []sample {
	ole := append([]byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"), make([]byte, 4088)...)
	stream := func(name string) []byte {
		b := slices.Clone(ole)
		for i, u := range utf16.Encode([]rune(name)) {
			binary.LittleEndian.PutUint16(b[1024+2*i:], u)
		}
		return b
	}
	return []sample{
		{"empty", nil},
		{"zeros", make([]byte, 4096)},
		{"encrypted", stream("EncryptedPackage")},
		{"old-binary", stream("Workbook")},
		{"web-page", []byte("<html><body><table><tr><td>Platform</td><td>Years</td></tr></table></body></html>\n")},
		{"comma-separated", []byte("Platform,Years\nH7,2009-2012\n")},
		{"open-document", pack([]entry{packed("mimetype", "application/vnd.oasis.opendocument.spreadsheet"), packed("META-INF/manifest.xml", "<manifest/>")})},
		{"other-zip", pack([]entry{packed("readme.txt", "nothing")})},
	}
}

// changed gives the good workbook with the entry of its sheet changed.
func changed(change func(e *entry)) []byte {
	all := good().entries()
	for i := range all {
		if all[i].Name == sheetPart {
			change(&all[i])
		}
	}
	return pack(all)
}

// containers are zip files whose lists of parts lie or whose data is damaged.
func containers() []sample {
	spaces := strings.Repeat(" ", 40<<20)
	whole := good().zip()
	flipped := slices.Clone(whole)
	flipped[bytes.Index(whole, []byte(sheetPart))+len(sheetPart)+30] ^= 0x10
	extra := func(name string) []byte { return pack(append(good().entries(), packed(name, "x"))) }
	all := []sample{
		{"bomb-declared", rows(spaces).zip()},
		{"bomb-undeclared", changed(func(e *entry) {
			declared := e.UncompressedSize64
			*e = packed(sheetPart, sheet(spaces))
			e.UncompressedSize64 = declared
		})},
		{"bomb-overlapping", overlapping()},
		{"size-longer", changed(func(e *entry) { e.UncompressedSize64++ })},
		{"size-shorter", changed(func(e *entry) { e.UncompressedSize64-- })},
		{"checksum-wrong", changed(func(e *entry) { e.CRC32 ^= 1 })},
		{"checksum-zero", changed(func(e *entry) { e.CRC32 = 0 })},
		{"byte-flipped", flipped},
		{"cut-off", whole[:len(whole)*2/3]},
		{"part-cut-off", changed(func(e *entry) {
			e.data = e.data[:len(e.data)/2]
			e.CompressedSize64 = uint64(len(e.data))
		})},
		{"part-encrypted", changed(func(e *entry) { e.Flags |= 1 })},
		{"part-compressed-otherwise", changed(func(e *entry) { e.Method = 12 })},
		{"part-twice", extra(sheetPart)},
		{"part-twice-other-case", extra(strings.ToUpper(sheetPart))},
		{"path-up", extra("../../sheet1.xml")},
		{"path-absolute", extra("/xl/evil.xml")},
		{"path-backslash", extra(`xl\worksheets\sheet1.xml`)},
		{"path-drive", extra("C:/sheet1.xml")},
	}
	for name, size := range map[string]uint64{"2GiB": 2 << 30, "4GiB": 4 << 30, "2-63": 1 << 63, "2-64": math.MaxUint64} {
		all = append(all,
			sample{"size-of-" + name, changed(func(e *entry) { e.UncompressedSize64 = size })},
			sample{"packed-size-of-" + name, changed(func(e *entry) { e.CompressedSize64 = size })})
	}
	return append(all, sample{"sizes-add-up-to-zero", pack(append(good().entries(), half("a"), half("b")))})
}

// half is a part that says to be half of what 64 bits count.
func half(name string) entry {
	return entry{zip.FileHeader{Name: name, Method: zip.Deflate, UncompressedSize64: 1 << 63, CompressedSize64: 1}, []byte{3}}
}

// overlapping is a workbook whose list of parts names one part's data twice.
func overlapping() []byte {
	data := pack(append(good().entries(), packed("xl/a.xml", "x")))
	// The second entry of the list is led to the first part's place.
	list := bytes.Index(data, []byte("PK\x01\x02"))
	next := list + bytes.Index(data[list+4:], []byte("PK\x01\x02")) + 4
	copy(data[next+42:next+46], data[list+42:list+46])
	return data
}

// packages are workbooks whose parts do not lead to one another as they should.
func packages() []sample {
	names := good()
	for old, name := range map[string]string{bookPart: "some where/Main.XML", bookRels: "some where/_rels/Main.XML.rels", sheetPart: "one.xml", stylesPart: "look.xml", textsPart: "words.xml"} {
		names[name] = names[old]
		delete(names, old)
	}
	names[rootRels] = rels("officeDocument", "/some%20where/main.xml")
	names["some where/_rels/Main.XML.rels"] = rels("worksheet", "../one.xml", "styles", "/LOOK.xml", "sharedStrings", "./../words.xml")
	outside := strings.Replace(good()[bookRels], `Target="worksheets`, `TargetMode="External" Target="worksheets`, 1)
	return []sample{
		{"names-unusual", names.zip()},
		{"no-styles", good().with(stylesPart, "").with(bookRels, rels("worksheet", "worksheets/sheet1.xml", "other", "x", "sharedStrings", "sharedStrings.xml")).with(sheetPart, sheet(strings.ReplaceAll(goodRows, ` s="1"`, ""))).zip()},
		{"sheet-missing", good().with(sheetPart, "").zip()},
		{"styles-missing", good().with(stylesPart, "").zip()},
		{"texts-missing", good().with(textsPart, "").zip()},
		{"texts-not-led-to", good().with(bookRels, rels("worksheet", "worksheets/sheet1.xml", "styles", "styles.xml")).zip()},
		{"relationships-missing", good().with(bookRels, "").zip()},
		{"list-missing", good().with(rootRels, "").zip()},
		{"sheet-outside", good().with(bookRels, outside).zip()},
		{"sheet-twice", good().with(bookPart, strings.Replace(workbookXML(""), `</sheets>`, `<sheet name="Parts" sheetId="2" r:id="r1"/></sheets>`, 1)).zip()},
		{"sheet-of-no-part", good().with(bookPart, strings.Replace(workbookXML(""), `r:id="r1"`, `r:id="r9"`, 1)).zip()},
		{"sheets-of-one-name", good().with(bookPart, strings.Replace(workbookXML(""), `</sheets>`, `<sheet name="FITMENT" sheetId="2" r:id="r1"/></sheets>`, 1)).zip()},
		{"texts-as-sheet", good().with(bookRels, rels("worksheet", "sharedStrings.xml", "styles", "styles.xml", "sharedStrings", "sharedStrings.xml")).zip()},
		{"dates-1904", good().with(bookPart, workbookXML(`<workbookPr date1904="1"/>`)).zip()},
	}
}

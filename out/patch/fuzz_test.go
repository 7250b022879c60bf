package patch

import (
	"errors"
	"testing"

	"ferrule/sheets"
)

// FuzzApply marks and writes cells in a workbook of which one part is anything: there is a faithful copy,
// or a sentence that says why not.
func FuzzApply(f *testing.F) {
	names := []string{"xl/worksheets/sheet1.xml", "xl/styles.xml", "xl/workbook.xml", typesPart, "xl/_rels/workbook.xml.rels"}
	for i := range names {
		f.Add(uint8(i), sheetWith(`<dimension ref="B2"/><cols><col min="1" max="3" style="0"/></cols>`, `<legacyDrawing r:id="rId7"/>`))
		f.Add(uint8(i), `<styleSheet xmlns="`+main14+`"><fonts/><fills count="1"><fill/></fills><cellXfs><xf/><xf fillId='1'><alignment/></xf></cellXfs></styleSheet>`)
		f.Add(uint8(i), `<workbook xmlns="`+main14+`" xmlns:r="`+docRel+`"><bookViews><workbookView/></bookViews><sheets><sheet name="a" sheetId="1" r:id="rId1"/></sheets><calcPr/></workbook>`)
		f.Add(uint8(i), typed)
	}
	f.Fuzz(func(t *testing.T, part uint8, text string) {
		if text == "" || len(text) > 4_000 {
			return
		}
		data := byHand(t, map[string]string{names[int(part)%len(names)]: text})
		c := noted("A1", "B2", "C9")
		words := "=x"
		c.Cells[1].Write = &words
		_, err := Apply(data, c)
		var refused *Refusal
		var fault *sheets.Fault
		if err != nil && !errors.As(err, &refused) && !errors.As(err, &fault) {
			t.Fatal(err)
		}
	})
}

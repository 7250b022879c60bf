package patch

import (
	"slices"
	"strings"
)

// The children of the elements that are edited, in the order of their schemas (ECMA-376 Part 1, Annex A,
// sml.xsd: CT_Worksheet, CT_Workbook, CT_Stylesheet, CT_Comments, CT_Comment, CT_Rst).
var (
	worksheetOrder = strings.Fields(`sheetPr dimension sheetViews sheetFormatPr cols sheetData sheetCalcPr sheetProtection
		protectedRanges scenarios autoFilter sortState dataConsolidate customSheetViews mergeCells phoneticPr
		conditionalFormatting dataValidations hyperlinks printOptions pageMargins pageSetup headerFooter rowBreaks
		colBreaks customProperties cellWatches ignoredErrors smartTags drawing legacyDrawing legacyDrawingHF
		drawingHF picture oleObjects controls webPublishItems tableParts extLst`)
	workbookOrder = strings.Fields(`fileVersion fileSharing workbookPr workbookProtection bookViews sheets functionGroups
		externalReferences definedNames calcPr oleSize customWorkbookViews pivotCaches smartTagPr smartTagTypes
		webPublishing fileRecoveryPr webPublishObjects extLst`)
	stylesOrder   = strings.Fields(`numFmts fonts fills borders cellStyleXfs cellXfs cellStyles dxfs tableStyles colors extLst`)
	commentsOrder = strings.Fields(`authors commentList extLst`)
)

// rank is the place of an element among its siblings, -1 for one that the schema does not name.
func rank(order []string, name string) int { return slices.Index(order, name) }

// inOrder tells whether the children of a part's root stand in the order of its schema. Of alternatives
// (mc:AlternateContent) the first that the schema names counts.
func inOrder(x *part, data []byte) bool {
	s := scanner{data: data}
	var order []string
	last := 0
	alternatives := false
	for t, ok := s.next(); ok; t, ok = s.next() {
		switch {
		case t.depth == 1 && t.form != closing:
			if order = orderOf(x.child(t)); order == nil {
				return true
			}
		case t.depth == 2:
			alternatives = t.form == opening && string(local(t.name)) == "AlternateContent"
			fallthrough
		case t.depth == 4 && alternatives:
			n := rank(order, x.child(t))
			if t.form == closing || n < 0 {
				continue
			}
			if n < last {
				return false
			}
			last = n
			alternatives = alternatives && t.depth == 2
		}
	}
	return true
}

func orderOf(root string) []string {
	switch root {
	case "worksheet":
		return worksheetOrder
	case "workbook":
		return workbookOrder
	case "styleSheet":
		return stylesOrder
	case "comments":
		return commentsOrder
	}
	return nil
}

package view

import (
	"ferrule/compiler"
	"ferrule/compiler/excerpt"
	"ferrule/compiler/finding"
	"ferrule/sheets/cell"
)

// List gives findings as they are shown, each beside the rows around its first cell. Rows are read
// of workbooks of which same tells that they are what was compiled; of others none are shown.
func List(res *compiler.Result, list []*finding.Finding, same func(path string) bool) []Finding {
	around := excerpts(res, list, same)
	out := make([]Finding, len(list))
	for i, f := range list {
		out[i] = FindingOf(f)
		if at, ok := First(f); ok {
			out[i].Excerpt = around[at]
		}
	}
	return out
}

// excerpts reads each workbook once. One that cannot be read any more has none.
func excerpts(res *compiler.Result, list []*finding.Finding, same func(path string) bool) map[cell.Place]*excerpt.Excerpt {
	wants := map[string][]excerpt.Want{}
	for _, f := range list {
		if at, ok := First(f); ok {
			wants[at.Sheet.File] = append(wants[at.Sheet.File], excerpt.Want{At: at, Header: header(res, at)})
		}
	}
	out := map[cell.Place]*excerpt.Excerpt{}
	for name, w := range wants {
		path, ok := res.Path(name)
		if !ok || !same(path) {
			continue
		}
		found, err := excerpt.Book(path, w)
		if err != nil {
			continue
		}
		for at, e := range found {
			out[at] = e
		}
	}
	return out
}

// header gives the row of the header of a cell's sheet, 0 where there is none.
func header(res *compiler.Result, at cell.Place) int32 {
	for _, f := range res.Read.Files {
		if f.Name != at.Sheet.File {
			continue
		}
		for _, sheet := range f.Sheets {
			if sheet.Name == at.Sheet.Name {
				return sheet.Header
			}
		}
	}
	return 0
}

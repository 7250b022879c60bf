package cli

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// jsonCell is one cell in cells.schema.json. A value is always text, as it stands in a
// line of the other format.
type jsonCell struct {
	Cell    string `json:"cell"`
	Kind    string `json:"kind"`
	Value   string `json:"value,omitempty"`
	Formula string `json:"formula,omitempty"`
}

// cellsJSON prints all cells as one object, a cell a line, without holding more than a
// row.
func cellsJSON(ctx context.Context, out *bufio.Writer, book *sheets.Book) error {
	out.WriteString(`{"sheets":[`)
	for i, info := range book.Sheets() {
		if i > 0 {
			out.WriteByte(',')
		}
		out.WriteString("\n{\"sheet\":")
		if err := putJSON(out, info.Name); err != nil {
			return err
		}
		out.WriteString(`,"cells":[`)
		first := true
		err := sheetRows(ctx, book, i, func(r *sheets.Row) error {
			for k := range r.Cells {
				c := &r.Cells[k]
				if !first {
					out.WriteByte(',')
				}
				first = false
				out.WriteByte('\n')
				at := cell.Pos{Row: r.Number, Col: c.Col}
				if err := putJSON(out, jsonCell{at.String(), kindName(c.Kind), c.Text, c.Formula}); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			return err
		}
		out.WriteString("]}")
	}
	_, err := out.WriteString("]}\n")
	return unwritten(err)
}

// putJSON writes a value on the line in hand.
func putJSON(out *bufio.Writer, v any) error {
	var text bytes.Buffer
	e := json.NewEncoder(&text)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return err
	}
	_, err := out.Write(bytes.TrimSuffix(text.Bytes(), []byte("\n")))
	return unwritten(err)
}

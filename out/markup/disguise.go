package markup

import (
	"archive/zip"
	"bytes"
	"io"
	"regexp"

	"github.com/xuri/excelize/v2"
)

// excelize has no way to write error values, nor formulas with a stored value of
// their own type. Such a cell is therefore handed to it as text between marks that no
// other text holds, and put right in the XML on its way into the file.
const mark = "\uE0F7" // from the private use area

var disguised = regexp.MustCompile(
	`t="inlineStr"><is><t[^>]*>` + mark + `([a-z]*)` + mark + `([^<` + mark + `]*)` + mark + `([^<]*)</t></is></c>`)

// filtering is what excelize writes on a sheet whose header has filter buttons. It
// says that the filter hides rows, which it does not. No text holds it, since quotes
// are escaped in XML.
const filtering = ` filterMode="true"`

// fixedHeight is what excelize writes on a row whose height is given. A program then keeps it whatever is typed
// later; without, it is what the row needs today.
const fixedHeight = ` customHeight="true"`

// disguise gives the text that stands for a formula or an error until reveal.
func disguise(c *Cell) (string, error) {
	kind := map[Kind]string{Blank: "str", Text: "str", Number: "n", Date: "n", Bool: "b", Error: "e"}[c.Kind]
	v, err := c.stored()
	return mark + kind + mark + v + mark + c.Formula, err
}

// reveal puts disguised cells right, and the claim of a filter. The texts between the
// marks are escaped already.
func reveal(xml []byte) []byte {
	xml = bytes.Replace(xml, []byte(filtering), nil, 1)
	xml = bytes.ReplaceAll(xml, []byte(fixedHeight), nil)
	if !bytes.Contains(xml, []byte(mark)) {
		return xml
	}
	return disguised.ReplaceAllFunc(xml, func(m []byte) []byte {
		part := disguised.FindSubmatch(m)
		out := append([]byte(`t="`), part[1]...)
		out = append(out, `">`...)
		if len(part[3]) > 0 {
			out = append(append(append(out, `<f>`...), part[3]...), `</f>`...)
		}
		if len(part[2]) > 0 {
			out = append(append(append(out, `<v>`...), part[2]...), `</v>`...)
		}
		return append(out, `</c>`...)
	})
}

// zipWriter is a zip.Writer whose entries pass through reveal. excelize writes each
// part in one piece.
type zipWriter struct{ *zip.Writer }

func newZip(w io.Writer) excelize.ZipWriter { return zipWriter{zip.NewWriter(w)} }

func (z zipWriter) Create(name string) (io.Writer, error) {
	w, err := z.Writer.Create(name)
	return revealer{w}, err
}

type revealer struct{ io.Writer }

// Write reports len(part) where all was written, as io.Writer asks, however long the
// revealed text is.
func (r revealer) Write(part []byte) (int, error) {
	if _, err := r.Writer.Write(reveal(part)); err != nil {
		return 0, err
	}
	return len(part), nil
}

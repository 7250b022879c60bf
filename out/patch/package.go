package patch

import (
	"archive/zip"
	"bytes"
	"io"
	"slices"
	"strings"
	"time"
)

// packed is when new parts claim to be made: a real date would make the bytes differ from run to run.
// Zip files know no earlier one.
var packed = time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)

// write makes the package: parts that do not change as they are packed, in their order; new ones behind.
func (p *patching) write(src []byte) (*Copy, error) {
	in, err := zip.NewReader(bytes.NewReader(src), int64(len(src)))
	if err != nil && len(in.File) == 0 {
		return nil, refuse("its list of parts cannot be read")
	}
	out := &Copy{Sheet: p.sheet, Signed: p.signed}
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	if err := w.SetComment(in.Comment); err != nil {
		return nil, refuse("its zip file has a comment that cannot be kept")
	}
	done := map[string]bool{}
	for _, f := range in.File {
		x := p.parts[strings.ReplaceAll(f.Name, `\`, "/")]
		if x == nil || !x.changes() {
			if err := w.Copy(f); err != nil {
				return nil, err
			}
			out.Same, out.Kept = out.Same+1, out.Kept+int64(f.CompressedSize64)
			continue
		}
		done[x.name] = true
		if err := p.pack(w, f.Name, f.Method, x.result()); err != nil {
			return nil, err
		}
	}
	for _, name := range p.order {
		if x := p.parts[name]; !done[name] && x.changes() {
			if err := p.pack(w, name, zip.Deflate, x.result()); err != nil {
				return nil, err
			}
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	out.Parts = len(in.File)
	for _, f := range in.File {
		out.Packed += int64(f.CompressedSize64)
	}
	out.Bytes = slices.Clip(b.Bytes())
	return out, nil
}

func (p *patching) pack(w *zip.Writer, name string, method uint16, data []byte) error {
	h := &zip.FileHeader{Name: name, Method: method}
	h.Modified = packed
	f, err := w.CreateHeader(h)
	if err != nil {
		return err
	}
	_, err = io.Copy(f, bytes.NewReader(data))
	return err
}

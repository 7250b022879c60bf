package sheets

import (
	"archive/zip"
	"cmp"
	"errors"
	"io"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// pack is a zip package whose directory has been looked through: its names are
// plain and differ, its sizes are within limits and its parts do not overlap.
type pack struct {
	parts map[string]*zip.File // by name in lower case, as OPC compares names
	size  int64                // of the file
	// What may be inflated and parsed beyond the shares of the parts.
	inflating, parsing *allowance
	remarked           *owners
}

// openPack lists the parts and inflates nothing.
func openPack(r io.ReaderAt, size int64) (*pack, error) {
	if size == 0 {
		return nil, fileFault(copyAgain, "the file is empty: it has no bytes at all")
	}
	head := make([]byte, min(size, 4))
	if n, err := r.ReadAt(head, 0); n < len(head) {
		return nil, broken(err, "the file cannot be read")
	}
	if s := string(head); s != "PK\x03\x04" && s != "PK\x05\x06" {
		return nil, recognise(r, size)
	}
	b := &budgeted{ReaderAt: r, left: maxDirectory}
	z, err := zip.NewReader(b, size)
	switch {
	case errors.Is(err, errBudget):
		return nil, fileFault(saveAgain, "the workbook's list of parts is beyond all measure")
	case err != nil && !errors.Is(err, zip.ErrInsecurePath):
		return nil, fileFault(copyAgain, "the workbook is cut off or damaged: its list of parts cannot be read (%v)", err)
	}
	b.left = -1
	p := &pack{parts: make(map[string]*zip.File, len(z.File)), size: size,
		inflating: newAllowance(inflateFloor), parsing: newAllowance(parseFloor), remarked: newOwners()}
	return p, p.vet(z.File)
}

// vet looks at every entry before any is inflated.
func (p *pack) vet(files []*zip.File) error {
	if len(files) > maxEntries {
		return fileFault(saveAgain, "the workbook has %d parts, more than the %d that are read", len(files), maxEntries)
	}
	var sum uint64
	for _, f := range files {
		// Some programs write their system's sign between folders. Where that makes two names
		// one, it is told below.
		f.Name = strings.ReplaceAll(f.Name, `\`, "/")
		if err := vetEntry(f); err != nil {
			return err
		}
		if sum += f.UncompressedSize64; sum > maxBook {
			return fileFault("split it into smaller workbooks", "the workbook unpacks to more than %d GiB", maxBook>>30)
		}
		if strings.HasSuffix(f.Name, "/") {
			continue
		}
		key := strings.ToLower(f.Name)
		if p.parts[key] != nil {
			return fileFault(saveAgain, "the workbook has two parts of one name, %q", f.Name)
		}
		p.parts[key] = f
	}
	return vetOverlap(files)
}

func vetEntry(f *zip.File) error {
	switch {
	case !plainName(f.Name):
		return fileFault(saveAgain, "the workbook has a part with a name that no workbook needs, %q", f.Name)
	case f.Flags&1 != 0:
		return fileFault("unpack it and save the workbook without a password", "the workbook's part %s is encrypted", f.Name)
	case f.Method != zip.Store && f.Method != zip.Deflate:
		return fileFault(saveAgain, "the workbook's part %s is compressed in a way (%d) that workbooks do not use", f.Name, f.Method)
	case f.UncompressedSize64 > maxPart:
		return fileFault("split it into smaller workbooks", "the workbook's part %s unpacks to more than %d GiB", f.Name, maxPart>>30)
	case f.UncompressedSize64 > ratioFloor && f.UncompressedSize64/maxRatio > f.CompressedSize64:
		return fileFault(saveAgain, "the workbook's part %s unpacks to more than %d times its size, as files do that are made to do harm", f.Name, maxRatio)
	}
	return nil
}

// plainName tells whether a name is a path below the package's root and nothing else.
func plainName(name string) bool {
	if name == "" || !utf8.ValidString(name) || strings.Contains(name, ":") || strings.ContainsFunc(name, unicode.IsControl) {
		return false
	}
	for seg := range strings.SplitSeq(strings.TrimSuffix(name, "/"), "/") {
		if seg == "" || seg == "." || seg == ".." {
			return false
		}
	}
	return true
}

// vetOverlap refuses packages whose parts share bytes, which only bombs do.
func vetOverlap(files []*zip.File) error {
	type span struct{ from, to uint64 }
	spans := make([]span, 0, len(files))
	for _, f := range files {
		at, err := f.DataOffset()
		if err != nil {
			return spot{part: f.Name}.misplaced(err)
		}
		if f.CompressedSize64 > 0 {
			spans = append(spans, span{uint64(at), uint64(at) + f.CompressedSize64})
		}
	}
	slices.SortFunc(spans, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	for i := 1; i < len(spans); i++ {
		if spans[i].from < spans[i-1].to {
			return fileFault(copyAgain, "the workbook is damaged: two of its parts lie over each other")
		}
	}
	return nil
}

// find gives the part of that name, in any case, or nil.
func (p *pack) find(name string) *zip.File { return p.parts[strings.ToLower(name)] }

var errBudget = errors.New("more bytes read than allowed")

// budgeted bounds how many bytes are read through it; below zero it does not.
type budgeted struct {
	io.ReaderAt
	left int64
}

func (b *budgeted) ReadAt(p []byte, at int64) (int, error) {
	if b.left >= 0 {
		if b.left -= int64(len(p)); b.left < 0 {
			return 0, errBudget
		}
	}
	return b.ReaderAt.ReadAt(p, at)
}

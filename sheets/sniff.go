package sheets

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"unicode/utf8"
)

// opening pairs how a file begins with what such a file is and what to do with it.
type opening struct {
	begins string
	is     string
	todo   string
}

// openings of files that people take for workbooks. The first that fits holds.
func openings() []opening {
	return []opening{
		{"\x09\x08", "an old binary workbook (.xls)", saveAs},
		{"\x09\x04", "an old binary workbook (.xls)", saveAs},
		{"\x09\x02", "an old binary workbook (.xls)", saveAs},
		{"%PDF", "a PDF document", "ask for the workbook that it was printed from"},
		{"{\\rtf", "a text document (RTF)", "ask for the workbook as .xlsx"},
		{"\x1f\x8b", "a compressed file (gzip)", "unpack it first"},
		{"7z\xbc\xaf\x27\x1c", "a compressed file (7-Zip)", "unpack it first"},
		{"Rar!", "a compressed file (RAR)", "unpack it first"},
		{"\x89PNG", "a picture", "ask for the workbook as .xlsx"},
		{"\xff\xd8\xff", "a picture", "ask for the workbook as .xlsx"},
		{"version https://git-lfs", "only a pointer of Git LFS to the workbook", "fetch it with git lfs pull"},
	}
}

// recognise says what a file is that does not begin like a zip package.
func recognise(r io.ReaderAt, size int64) *Fault {
	head := make([]byte, min(size, 4096))
	if n, err := r.ReadAt(head, 0); n < len(head) {
		return broken(err, "the file cannot be read")
	}
	if bytes.HasPrefix(head, []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")) {
		return compound(r, size)
	}
	for _, o := range openings() {
		if bytes.HasPrefix(head, []byte(o.begins)) {
			return fileFault(o.todo, "the file is %s, not an .xlsx workbook", o.is)
		}
	}
	if len(bytes.Trim(head, "\x00")) == 0 {
		return fileFault(copyAgain, "the file holds nothing but zero bytes: it was never written completely")
	}
	if text, ok := asText(head); ok {
		todo := saveAs
		if kind := textKind(text); kind == tableText {
			todo = "give it the ending .csv, or .tsv where tabs separate its cells; or " + saveAs
		}
		return fileFault(todo, "the file is %s under another name, not an .xlsx workbook", textKind(text))
	}
	return fileFault("see that it is the right file, and "+saveAs, "the file is not an .xlsx workbook, nor any other kind that is known here")
}

// compound tells a workbook with a password from an old binary one: both are OLE
// compound files, and the first has a stream of the name EncryptedPackage
// ([MS-OFFCRYPTO] 2.3.1).
func compound(r io.ReaderAt, size int64) *Fault {
	mark := []byte("E\x00n\x00c\x00r\x00y\x00p\x00t\x00e\x00d\x00P\x00a\x00c\x00k\x00a\x00g\x00e\x00")
	buf := make([]byte, 1<<16)
	kept := 0 // bytes of the last read, since the name may lie across two
	for at := int64(0); at < size; {
		n, err := r.ReadAt(buf[kept:], at)
		if err != nil && !errors.Is(err, io.EOF) {
			return broken(err, "the file cannot be read")
		}
		seen := buf[:kept+n]
		if bytes.Contains(seen, mark) {
			return fileFault("open it in your spreadsheet program, take the password away and save it again as .xlsx",
				"the workbook is encrypted with a password")
		}
		if n == 0 {
			break
		}
		at += int64(n)
		kept = copy(buf, seen[max(0, len(seen)-len(mark)):])
	}
	return fileFault(saveAs, "the file is an old binary workbook (.xls) or another old Office document, not an .xlsx workbook")
}

// asText gives the beginning of a file as text, if it can be some.
func asText(head []byte) (string, bool) {
	if bytes.HasPrefix(head, []byte("\xff\xfe")) || bytes.HasPrefix(head, []byte("\xfe\xff")) {
		return strings.ReplaceAll(string(head[2:]), "\x00", ""), true
	}
	head = bytes.TrimPrefix(head, []byte("\xef\xbb\xbf"))
	odd := 0
	for _, b := range head {
		if b < ' ' && b != '\t' && b != '\n' && b != '\r' && b != '\f' {
			return "", false
		}
		if b >= utf8.RuneSelf {
			odd++
		}
	}
	// Text in an old eight-bit encoding has some such bytes, binary data many.
	return string(head), utf8.Valid(head) || odd*5 < len(head)
}

// tableText is what a file is called that may be read under another name.
const tableText = "a text file (CSV or the like)"

func textKind(text string) string {
	low := strings.ToLower(text)
	switch {
	case strings.Contains(low, "urn:schemas-microsoft-com:office:spreadsheet"), strings.Contains(low, "excel.sheet"):
		return "an XML spreadsheet of 2003"
	case strings.Contains(low, "opendocument"):
		return "a flat OpenDocument file (.fods)"
	case strings.Contains(low, "<html"), strings.Contains(low, "<table"), strings.Contains(low, "<!doctype html"):
		return "a web page (HTML)"
	case strings.HasPrefix(low, "<"):
		return "an XML file"
	case strings.HasPrefix(text, "ID;"):
		return "a SYLK file (.slk)"
	}
	return tableText
}

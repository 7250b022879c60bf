package sheets_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/sheets"
)

// Files that are no .xlsx workbooks are named for what they are.
func TestRecognised(t *testing.T) {
	ole := "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + strings.Repeat("\x00", 65_520)
	name := func(s string) string {
		var b []byte
		for _, u := range utf16.Encode([]rune(s)) {
			b = binary.LittleEndian.AppendUint16(b, u)
		}
		return string(b)
	}
	tests := []struct{ name, data, want string }{
		{"empty", "", "the file is empty"},
		{"zeros", strings.Repeat("\x00", 5000), "nothing but zero bytes"},
		{"old workbook", ole + name("Workbook"), `old binary workbook \(\.xls\)`},
		{"password", ole + name("EncryptedPackage"), "encrypted with a password"}, // the name lies across two reads
		{"older workbook", "\x09\x08\x10\x00\x00\x06\x05\x00", `old binary workbook`},
		{"web page", "\n<HTML><body><table><tr><td>1", `web page \(HTML\)`},
		{"only a table", "<table><tr><td>1</td></tr></table>", `web page \(HTML\)`},
		{"CSV", "Platform,Years\nH7,2007-2012\n", `text file \(CSV or the like\)`},
		{"CSV with a mark", "\xef\xbb\xbfPlatform;Jahre\nH7;2007\n", `text file \(CSV or the like\)`},
		{"CSV in Latin-1", "Platform;Ma\xdfe\nH7;2007\n", `text file \(CSV or the like\)`},
		{"CSV in UTF-16", "\xff\xfeP\x00l\x00a\x00t\x00", `text file \(CSV or the like\)`},
		{"XML of 2003", `<?xml version="1.0"?><?mso-application progid="Excel.Sheet"?><Workbook/>`, "XML spreadsheet of 2003"},
		{"flat OpenDocument", `<?xml version="1.0"?><office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"/>`, "flat OpenDocument"},
		{"XML", `<?xml version="1.0"?><parts/>`, "an XML file"},
		{"SYLK", "ID;PWXL;N;E\n", "SYLK"},
		{"PDF", "%PDF-1.7\n%\xe2\xe3", "PDF document"},
		{"pointer", "version https://git-lfs.github.com/spec/v1\n", "Git LFS"},
		{"gzip", "\x1f\x8b\x08\x00", "gzip"},
		{"noise", "\x01\x80\xff\xfe\x9d\x00\x12", "nor any other kind"},
		{"one byte", "P", `text file`},
		{"zip cut off", string(ordinary().zip(t)[:200]), "cut off or damaged"},
		{"zip with nothing", "PK\x05\x06" + strings.Repeat("\x00", 18), "zip archive that holds no workbook"},
		{"other zip", string(parts{"readme.txt": "x"}.zip(t)), "zip archive that holds no workbook"},
		{"OpenDocument", string(parts{"mimetype": "x", "META-INF/manifest.xml": "x", "content.xml": "x"}.zip(t)), `OpenDocument file \(\.ods\)`},
		{"Numbers", string(parts{"Index/Document.iwa": "x"}.zip(t)), "Numbers document"},
		{"binary workbook", string(ordinary().with(parts{"_rels/.rels": rels("a officeDocument xl/workbook.bin"), "xl/workbook.bin": "\x83"}).zip(t)), `binary workbook \(\.xlsb\)`},
		{"text document", string(ordinary().with(parts{workbookPart: `<document xmlns="urn:w"/>`}).zip(t)), "should begin with <workbook> and begins with <document>"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := sheets.Read(strings.NewReader(tt.data), int64(len(tt.data)))
			requireFault(t, err, tt.want)
		})
	}
}

func TestOpenFaults(t *testing.T) {
	dir := t.TempDir()
	_, err := sheets.Open(filepath.Join(dir, "none.xlsx"))
	requireFault(t, err, "cannot be opened")
	assert.ErrorIs(t, err, fs.ErrNotExist)
	_, err = sheets.Open(dir)
	requireFault(t, err, "a folder")
	name := filepath.Join(dir, "empty.xlsx")
	require.NoError(t, os.WriteFile(name, nil, 0o600))
	_, err = sheets.Open(name)
	requireFault(t, err, "the file is empty")
}

// failing is a disk that fails from some byte on.
type failing struct {
	io.ReaderAt
	from int64
}

var errDisk = errors.New("input/output error")

func (f failing) ReadAt(p []byte, at int64) (int, error) {
	if at+int64(len(p)) > f.from {
		return 0, errDisk
	}
	return f.ReaderAt.ReadAt(p, at)
}

func TestDiskFails(t *testing.T) {
	data := ordinary().zip(t)
	for from := int64(0); from < int64(len(data)); from += 7 {
		_, err := sheets.Read(failing{bytes.NewReader(data), from}, int64(len(data)))
		requireFault(t, err, "input/output error")
	}
}

// A disk may also fail while rows are read.
func TestDiskFailsLater(t *testing.T) {
	data := undamaged(t)
	disk := &failing{bytes.NewReader(data), int64(len(data))}
	b, err := sheets.Read(disk, int64(len(data)))
	require.NoError(t, err)
	disk.from = 0
	_, err = b.Rows(0, func(*sheets.Row) error { return nil })
	f := requireFault(t, err, `sheet "Fitment H7": .*input/output error`)
	assert.ErrorIs(t, err, errDisk)
	assert.Equal(t, "Fitment H7", f.Sheet)
}

// entry is a part whose entry in the list of parts can say anything.
type entry struct {
	zip.FileHeader
	data string
}

func lying(t *testing.T, entries ...entry) []byte {
	t.Helper()
	var buf bytes.Buffer
	z := zip.NewWriter(&buf)
	for _, e := range entries {
		e.CompressedSize64 = max(e.CompressedSize64, uint64(len(e.data)))
		w, err := z.CreateRaw(&e.FileHeader)
		require.NoError(t, err)
		_, err = io.WriteString(w, e.data)
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return buf.Bytes()
}

// plain is a part that is as its entry says.
func plain(name, text string) entry {
	return entry{zip.FileHeader{Name: name, CRC32: crc32.ChecksumIEEE([]byte(text)), UncompressedSize64: uint64(len(text))}, text}
}

func header(name string, size, packed uint64) zip.FileHeader {
	return zip.FileHeader{Name: name, Method: zip.Deflate, UncompressedSize64: size, CompressedSize64: packed}
}

// What the list of parts says is looked at before anything is inflated.
func TestPackageFaults(t *testing.T) {
	many := make([]entry, 20_001)
	for i := range many {
		many[i] = entry{FileHeader: zip.FileHeader{Name: strconv.Itoa(i)}}
	}
	several := make([]entry, 5)
	for i := range several {
		several[i] = entry{FileHeader: header("x"+string(rune('a'+i)), 1<<30, 4<<20), data: strings.Repeat("x", 4<<20)}
	}
	tests := []struct {
		name    string
		entries []entry
		want    string
	}{
		{"part too large", []entry{{FileHeader: header("a", 1<<30+1, 1<<29)}}, "unpacks to more than 1 GiB"},
		{"bomb", []entry{{FileHeader: header("a", 900<<20, 1<<20)}}, "more than 300 times its size"},
		{"book too large", several, "unpacks to more than 4 GiB"},
		{"too many", many, "20001 parts"},
		{"twice", []entry{{FileHeader: zip.FileHeader{Name: "a.xml"}}, {FileHeader: zip.FileHeader{Name: "A.xml"}}}, `two parts of one name, "A.xml"`},
		{"encrypted", []entry{{FileHeader: zip.FileHeader{Name: "a.xml", Flags: 1}}}, "a.xml is encrypted"},
		{"compressed otherwise", []entry{{FileHeader: zip.FileHeader{Name: "a.xml", Method: 12}}}, `compressed in a way \(12\)`},
		{"styles too large", []entry{
			plain("_rels/.rels", rels("a officeDocument w.xml")), {FileHeader: header("w.xml", 70<<20, 1<<20), data: strings.Repeat("x", 1<<20)},
			plain("_rels/w.xml.rels", rels())}, "w.xml: its data is larger than the 64 MiB"},
		{"beyond the file's end", []entry{{FileHeader: header("a", 100, 1<<20)}, {FileHeader: header("b", 1, 1), data: "x"}}, "lie over each other"},
		{"path up", []entry{{FileHeader: zip.FileHeader{Name: "../a.xml"}}}, `"../a.xml"`},
		{"path up inside", []entry{{FileHeader: zip.FileHeader{Name: "xl/../../a.xml"}}}, `"xl/../../a.xml"`},
		{"absolute", []entry{{FileHeader: zip.FileHeader{Name: "/etc/a.xml"}}}, `"/etc/a.xml"`},
		{"drive", []entry{{FileHeader: zip.FileHeader{Name: "c:a.xml"}}}, `"c:a.xml"`},
		{"backslash up", []entry{{FileHeader: zip.FileHeader{Name: `xl\..\..\a.xml`}}}, `"xl/../../a.xml"`},
		{"backslash at the front", []entry{{FileHeader: zip.FileHeader{Name: `\etc\a.xml`}}}, `"/etc/a.xml"`},
		{"twice, once with a backslash", []entry{{FileHeader: zip.FileHeader{Name: "xl/a.xml"}}, {FileHeader: zip.FileHeader{Name: `xl\a.xml`}}}, `two parts of one name, "xl/a.xml"`},
		{"zero byte", []entry{{FileHeader: zip.FileHeader{Name: "a\x00.xml"}}}, `a part with a name`},
		{"empty name", []entry{{FileHeader: zip.FileHeader{Name: ""}}}, `a part with a name`},
		{"no UTF-8", []entry{{FileHeader: zip.FileHeader{Name: "a\xff"}}}, `a part with a name`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			data := lying(t, tt.entries...)
			_, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
			requireFault(t, err, tt.want)
		})
	}
}

// A list of parts may itself be made to fill the memory.
func TestPackageListTooLong(t *testing.T) {
	entries := make([]entry, 200)
	for i := range entries {
		entries[i].Name = string(rune('a'+i%26)) + strings.Repeat(string(rune('a'+i/26)), 60_000)
	}
	data := lying(t, entries...)
	_, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
	requireFault(t, err, "list of parts is beyond all measure")
}

// Parts that do not agree with the list of parts, each in the sheet's place.
func TestPartFaults(t *testing.T) {
	sheet := sheetXML(`<row r="1"><c r="A1"><v>1</v></c></row>`)
	var packed bytes.Buffer
	z := zip.NewWriter(&packed)
	w, err := z.Create("x")
	require.NoError(t, err)
	_, err = io.WriteString(w, sheet)
	require.NoError(t, err)
	require.NoError(t, z.Close())
	r, err := zip.NewReader(bytes.NewReader(packed.Bytes()), int64(packed.Len()))
	require.NoError(t, err)
	raw, err := r.File[0].OpenRaw()
	require.NoError(t, err)
	deflated, err := io.ReadAll(raw)
	require.NoError(t, err)

	sum := crc32.ChecksumIEEE([]byte(sheet))
	size := uint64(len(sheet))
	stored := zip.FileHeader{Name: sheetPart, Method: zip.Store, CRC32: sum, UncompressedSize64: size}
	good := zip.FileHeader{Name: sheetPart, Method: zip.Deflate, CRC32: sum, UncompressedSize64: size}
	tests := []struct {
		name string
		part entry
		want string // "" where it is good
	}{
		{"stored", entry{stored, sheet}, ""},
		{"deflated", entry{good, string(deflated)}, ""},
		{"checksum", entry{zip.FileHeader{Name: sheetPart, CRC32: sum ^ 1, UncompressedSize64: size}, sheet}, "checksum"},
		{"checksum of zero", entry{zip.FileHeader{Name: sheetPart, UncompressedSize64: size}, sheet}, "checksum"},
		{"longer than said", entry{stored, sheet + " "}, "longer than the list of parts says"},
		{"shorter than said", entry{stored, sheet[:len(sheet)-5]}, "cut off"},
		{"deflated, longer than said", entry{zip.FileHeader{Name: sheetPart, Method: zip.Deflate, CRC32: sum, UncompressedSize64: size - 1}, string(deflated)}, "longer than"},
		{"deflated, cut off", entry{good, string(deflated[:len(deflated)-9])}, "cut off"},
		{"deflated, more follows", entry{good, string(deflated) + "x"}, "other data follows"},
		{"not deflated", entry{good, strings.Repeat("\xff", len(deflated))}, "cannot be unpacked"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			entries := []entry{tt.part}
			for name, text := range ordinary() {
				if name != sheetPart {
					entries = append(entries, plain(name, text))
				}
			}
			_, cells, _, err := readAll(lying(t, entries...))
			if tt.want == "" {
				require.NoError(t, err)
				assert.Equal(t, number(1, "1"), cells[0][at(t, "A1")])
				return
			}
			f := requireFault(t, err, tt.want)
			assert.Equal(t, sheetPart, f.Part)
			assert.Contains(t, f.Why, "the file is damaged")
			assert.NotContains(t, f.Why, "save it again", "saving a damaged file again hides what is lost")
		})
	}
}

// Some programs list folders as well, and some of them twice.
func TestFolders(t *testing.T) {
	book := ordinary()
	want, _ := book.one(t)
	book["xl/"], book[`xl\`] = "", ""
	got, _ := book.one(t)
	assert.Equal(t, want, got)
}

// Some programs write their system's sign between the folders of parts' names.
func TestBackslashes(t *testing.T) {
	book := ordinary()
	want, _ := book.one(t)
	turned := parts{}
	for name, text := range book {
		turned[strings.ReplaceAll(name, "/", `\`)] = text
	}
	got, _ := turned.one(t)
	assert.Equal(t, want, got)
}

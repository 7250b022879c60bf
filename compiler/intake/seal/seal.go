// Package seal is how a marked copy of a workbook is recognised when it is read: by what the notes and
// the sheet that were put there say, and by nothing else.
//
// A seal is a digest of all that a note or a sheet of ours says, at its end or its beginning. It keeps
// through spreadsheet programs, which write a file anew, and it breaks as soon as somebody writes
// a word more: that is theirs, and is told. A seal proves nothing about who made it, so whatever is left
// alone because of one is counted in a finding.
package seal

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"

	"ferrule/sheets/cell"
)

// Sheet is the name of the sheet that is appended; a workbook that has one gets a number behind it.
const Sheet = "Findings"

// Names is the hidden sheet of names to pick from, sealed as a list of findings is; a workbook that has one
// gets a number behind it.
const Names = "_Lists"

// What begins a note of ours and what its last line, or the cell of a sheet, begins with.
const (
	Opens    = "ferrule found here:"
	noteWord = "ferrule mark "
	listWord = "ferrule list "
	ownWord  = "The cell's own fill: "
)

// The fills of cells, as RRGGBB: light, so that black type is read on them, and apart in grey too.
const (
	NoteFill    = "C9DDF0"
	WarningFill = "FFE699"
	ErrorFill   = "F4A6A0"
)

// Fills tells whether cells that are filled so, as sheets says it, may be filled by us.
func Fills(fill string) bool { return fill == NoteFill || fill == WarningFill || fill == ErrorFill }

// Note seals a note: its text begins with Opens. own is how the cell was filled before, "" for not
// at all.
func Note(text, own string) string {
	if own != "" {
		text += "\n" + ownWord + own
	}
	return text + "\n" + noteWord + digest(words(text))
}

// Mark is what a note of ours says of its cell.
type Mark struct {
	Own    string // how it was filled before
	Beside string // what else stands in the note, above it
}

// Read recognises a note of ours, at the end of what a cell's note says.
func Read(text string) (Mark, bool) {
	text = strings.TrimRight(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text), " \n")
	from := strings.LastIndex(text, Opens)
	end := strings.LastIndex(text, "\n"+noteWord)
	if from < 0 || end < from || from > 0 && text[from-1] != '\n' || text[end+1+len(noteWord):] != digest(words(text[from:end])) {
		return Mark{}, false
	}
	m := Mark{Beside: strings.TrimSpace(text[:from])}
	said := text[from:end]
	if i := strings.LastIndex(said, "\n"+ownWord); i >= 0 {
		m.Own = said[i+1+len(ownWord):]
	}
	return m, true
}

// At is where the seal of a sheet stands.
var At = cell.Pos{Row: 2, Col: 1}

// List seals a sheet of which cells gives the texts by their places.
func List(cells func(yield func(cell.Pos, string))) string {
	_, seal := sealed(cells)
	return seal
}

// IsList tells whether a sheet is as we made it.
func IsList(cells func(yield func(cell.Pos, string))) bool {
	given, seal := sealed(cells)
	return given == seal
}

// sealed gives what stands where the seal belongs, and what should.
func sealed(cells func(yield func(cell.Pos, string))) (given, seal string) {
	h := sha256.New()
	h.Write([]byte("ferrule list\x00"))
	cells(func(at cell.Pos, text string) {
		said := words(text)
		switch {
		case at == At:
			given = said
		case said != "":
			h.Write([]byte(at.String() + "\x00" + said + "\x00"))
		}
	})
	return given, listWord + short(h.Sum(nil))
}

// words is a text as it comes back, whatever a program makes of its white space.
func words(text string) string { return strings.Join(strings.Fields(text), " ") }

func digest(text string) string {
	sum := sha256.Sum256([]byte("ferrule note\x00" + text))
	return short(sum[:])
}

func short(sum []byte) string { return hex.EncodeToString(sum[:12]) }

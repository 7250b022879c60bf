package sheets

import (
	"archive/zip"
	"errors"
	"fmt"
	"io"
	"strings"

	"ferrule/sheets/cell"
)

// Endings of faults: what to do about them.
const (
	saveAgain = "open it in your spreadsheet program and save it again as .xlsx"
	saveAs    = "open it in your spreadsheet program and save it as .xlsx"
	copyAgain = "copy or download it again, or take it from a backup"
)

// fileFault is about the file as a whole. todo says what to do.
func fileFault(todo, format string, args ...any) *Fault {
	return &Fault{Why: say(format, args) + "; " + todo}
}

// say is fmt.Sprintf with long texts cut: what a damaged file holds may be megabytes.
func say(format string, args []any) string {
	for i, a := range args {
		if s, ok := a.(string); ok && len(s) > mostSaid {
			args[i] = brief(s) + "…"
		}
	}
	return fmt.Sprintf(format, args...)
}

// mostSaid is how many bytes of a text are told.
const mostSaid = 80

// brief gives the beginning of a text, which does not keep the rest in memory.
func brief(s string) string {
	if len(s) <= mostSaid {
		return s
	}
	return strings.ToValidUTF8(strings.Clone(s[:mostSaid]), "")
}

// broken wraps an error of the operating system, which errors.Is still finds.
func broken(cause error, what string) *Fault {
	return &Fault{Why: fmt.Sprintf("%s: %v; see that it is a file you may read and that its disk is at hand", what, cause), cause: cause}
}

// Unwrap gives the operating system's error where one is the cause, else nil.
func (f *Fault) Unwrap() error { return f.cause }

// spot is where in the package reading stands, for faults to name.
type spot struct {
	part  string
	sheet string
}

// fault is about the part, told as the sheet where the part is one.
func (s spot) fault(format string, args ...any) *Fault {
	return s.tell(cell.Pos{}, saveAgain, say(format, args))
}

// at is about one cell of the sheet.
func (s spot) at(pos cell.Pos, format string, args ...any) *Fault {
	return s.tell(pos, saveAgain, say(format, args))
}

// damaged is about bytes that are not as they were written. Saving such a file again
// would make its losses look whole, so that is not what it says to do.
func (s spot) damaged(format string, args ...any) *Fault {
	return s.tell(cell.Pos{}, copyAgain, "the file is damaged: "+say(format, args))
}

// unread is about bytes that the operating system does not give.
func (s spot) unread(cause error) *Fault {
	f := s.tell(cell.Pos{}, "see that its disk is at hand, or copy it to this computer", fmt.Sprintf("the file cannot be read to its end: %v", cause))
	f.cause = cause
	return f
}

// misplaced is about a part whose beginning archive/zip cannot find.
func (s spot) misplaced(cause error) *Fault {
	if errors.Is(cause, zip.ErrFormat) || errors.Is(cause, io.EOF) {
		return s.damaged("its data is not where the list of parts says")
	}
	return s.unread(cause)
}

func (s spot) tell(pos cell.Pos, todo, why string) *Fault {
	switch {
	case s.sheet != "" && pos != cell.Pos{}:
		why = say("sheet %q, cell %s: ", []any{s.sheet, pos}) + why
	case s.sheet != "":
		why = say("sheet %q: ", []any{s.sheet}) + why
	case s.part != "":
		why = say("the workbook's part %s: ", []any{s.part}) + why
	}
	return &Fault{Sheet: s.sheet, Pos: pos, Part: s.part, Why: why + "; " + todo}
}

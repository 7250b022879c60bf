package cli

import (
	"fmt"
	"io"
	"time"

	"ferrule/compiler"
	"ferrule/out/visible"
)

// Stages of commands, besides the compiler's.
const (
	stageReport  = "report"
	stagePublish = "publish"
	stageCompare = "compare"
)

// watch tells on standard error how far a command is: a line for each stage that is
// done where it was asked to be verbose, and progress on a terminal.
type watch struct {
	out      io.Writer
	verbose  bool
	progress *progress
}

func newWatch(out io.Writer, verbose bool) *watch {
	return &watch{out, verbose, startProgress(out)}
}

// stage takes what the compiler tells.
func (w *watch) stage(s compiler.Stage) {
	if !s.Done {
		w.progress.show(doing(s))
		return
	}
	if !w.verbose {
		return
	}
	if w.progress != nil {
		w.progress.above(line(s))
		return
	}
	io.WriteString(w.out, line(s))
}

// step watches a stage of the command itself.
func (w *watch) step(name string, do func() error) error {
	began := time.Now()
	w.stage(compiler.Stage{Name: name})
	err := do()
	w.stage(compiler.Stage{Name: name, Done: true, Took: time.Since(began)})
	return err
}

// end takes progress away.
func (w *watch) end() { w.progress.end() }

// doing says what is done during a stage. It says nothing while findings are told,
// which may be on the same terminal.
func doing(s compiler.Stage) string {
	switch s.Name {
	case compiler.StageRead:
		text := "reading " + visible.Text(s.File)
		if s.Of > 1 {
			text += fmt.Sprintf(", workbook %d of %d", s.Number, s.Of)
		}
		return text
	case compiler.StageValidate:
		return fmt.Sprintf("validating %d rows", s.Rows)
	case compiler.StageBind:
		return fmt.Sprintf("resolving names in %d rows", s.Rows)
	case compiler.StageCheck:
		return fmt.Sprintf("checking what %d fitment rows say", s.Rows)
	case compiler.StagePictures:
		return fmt.Sprintf("looking at %d pictures", s.Pictures)
	case stagePublish:
		return "publishing"
	case stageCompare:
		return "comparing"
	}
	return ""
}

// line says what a stage took: rows and cells where it is about them, seconds, and the
// most memory that the program had so far, where the system tells.
func line(s compiler.Stage) string {
	text := fmt.Sprintf("%-9s", s.Name)
	switch s.Name {
	case stageReport, stagePublish, stageCompare:
		text += fmt.Sprintf("%29s", "")
	case compiler.StagePictures:
		text += fmt.Sprintf(" %8d named%14s", s.Pictures, "")
	default:
		text += fmt.Sprintf(" %8d rows %8d cells", s.Rows, s.Cells)
	}
	text += fmt.Sprintf(" %8.3f s", s.Took.Seconds())
	if bytes, known := peak(); known {
		text += fmt.Sprintf(" %7.1f MB", float64(bytes)/1e6)
	}
	if s.File != "" {
		text += "  " + visible.Text(s.File)
	}
	return text + "\n"
}

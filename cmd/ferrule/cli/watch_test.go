package cli

import (
	"errors"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler"
	"ferrule/sheets/guard"
)

func TestQuietWatchSaysNothing(t *testing.T) {
	var out strings.Builder
	w := newWatch(&out, false)
	w.stage(compiler.Stage{Name: compiler.StageBind})
	w.stage(compiler.Stage{Name: compiler.StageBind, Done: true})
	w.end()
	assert.Empty(t, out.String())
}

func TestStepTellsAndKeepsTheError(t *testing.T) {
	var out strings.Builder
	w := newWatch(&out, true)
	full := errors.New("disk full")
	assert.Equal(t, full, w.step(stagePublish, func() error {
		assert.Empty(t, out.String(), "a line for what is done")
		return full
	}))
	assert.Regexp(t, `^publish {30,}\d\.\d{3} s.*\n$`, out.String())
}

func TestLine(t *testing.T) {
	s := compiler.Stage{Name: compiler.StageRead, Rows: 200000, Cells: 2800000, Took: 1234567 * time.Microsecond, File: "a\nb.xlsx"}
	assert.Regexp(t, `^read +200000 rows +2800000 cells +1\.235 s( +\d+\.\d MB)?  a<U\+000A>b\.xlsx\n$`, line(s))
}

func TestLinesStandAboveProgress(t *testing.T) {
	var out strings.Builder
	p := newProgress(&out, 80)
	w := &watch{&out, true, p}
	w.stage(compiler.Stage{Name: compiler.StageRead, File: "a.xlsx", Number: 1, Of: 2})
	p.look(p.begun.Add(patience))
	w.stage(compiler.Stage{Name: compiler.StageRead, File: "a.xlsx", Rows: 3, Cells: 7, Done: true})
	w.end()
	assert.Regexp(t, `^reading a\.xlsx, workbook 1 of 2, 0 s\r\x1b\[Kread +3 rows +7 cells +0\.000 s.*  a\.xlsx\n$`, out.String())
}

func TestProgressIsShownLateAndErased(t *testing.T) {
	var out strings.Builder
	p := newProgress(&out, 21)
	p.show("reading fitment.xlsx")
	p.look(p.begun.Add(patience - time.Millisecond))
	assert.Empty(t, out.String())
	p.look(p.begun.Add(patience)) // the line is cut, so the seconds are not seen
	p.look(p.since.Add(2 * time.Second))
	p.above("a line\n")
	p.show("publishing")
	p.look(p.since.Add(3 * time.Second))
	p.look(p.since.Add(3 * time.Second)) // nothing new to show
	p.look(p.since.Add(4 * time.Second))
	p.end()
	p.look(p.begun.Add(time.Hour))
	p.end()
	assert.Equal(t, "reading fitment.xlsx\r\x1b[Ka line\n"+
		"publishing, 3 s\r\x1b[Kpublishing, 4 s\r\x1b[K", out.String())
}

func TestDoing(t *testing.T) {
	for want, s := range map[string]compiler.Stage{
		"reading a.xlsx":                   {Name: compiler.StageRead, File: "a.xlsx", Number: 1, Of: 1},
		"reading b.xlsx, workbook 2 of 3":  {Name: compiler.StageRead, File: "b.xlsx", Number: 2, Of: 3},
		"validating 5 rows":                {Name: compiler.StageValidate, Rows: 5},
		"resolving names in 5 rows":        {Name: compiler.StageBind, Rows: 5},
		"checking what 4 fitment rows say": {Name: compiler.StageCheck, Rows: 4},
		"publishing":                       {Name: stagePublish},
		"":                                 {Name: stageReport},
	} {
		assert.Equal(t, want, doing(s))
	}
}

func TestCut(t *testing.T) {
	for _, c := range []struct {
		text  string
		width int
		want  string
	}{{"reading", 7, "reading"}, {"reading", 6, "readin"}, {"課題", 4, "課題"}, {"課題", 3, "課"}, {"\u1100x", 2, "\u1100"}, {"\u10ff", 1, "\u10ff"}, {"x", 0, ""}, {"x", -1, ""}} {
		assert.Equal(t, c.want, cut(c.text, c.width))
	}
}

// What goes wrong beside the command is a fault of the program like any other.
func TestProgressPanics(t *testing.T) {
	p := newProgress(io.Discard, 80)
	p.looks.Go(func() { panic("broken") })
	func() {
		defer func() {
			fault, ok := recover().(*guard.Fault)
			assert.True(t, ok && fault.Cause == "broken")
		}()
		p.end()
	}()
	p.end()
}

package report

import (
	"cmp"
	"fmt"
	"io"
	"math/big"
	"slices"
	"strings"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/out/visible"
)

// github writes workflow commands, which that host turns into annotations of a run:
// the most important first, and no more than it shows. Within a severity those matter most
// that are about most vehicles on the road, then most configurations.
type github struct{}

// shownAnnotations is how many of one severity the host keeps of a step.
const shownAnnotations = 10

func (github) Format(w io.Writer, r *compiler.Result) error {
	told := map[finding.Severity]int{}
	shown := map[finding.Severity][]*finding.Finding{}
	for _, f := range r.Findings {
		if f.Accepted == nil && !f.Known {
			told[f.Severity]++
			shown[f.Severity] = withImportant(shown[f.Severity], f)
		}
	}
	severities := []finding.Severity{finding.Error, finding.Warning, finding.Note}
	for _, s := range severities {
		for _, f := range shown[s] {
			if _, err := fmt.Fprintln(w, annotation(f)); err != nil {
				return err
			}
		}
	}
	for _, s := range severities {
		if more := told[s] - shownAnnotations; more > 0 {
			if _, err := fmt.Fprintf(w, "+%s\n", count(more, "more "+s.String())); err != nil {
				return err
			}
		}
	}
	_, err := fmt.Fprintln(w, clean(total(r)))
	return err
}

// withImportant puts a finding among those that are shown of its severity, the most important
// first, and behind those that are as important. No more are kept than are shown.
func withImportant(shown []*finding.Finding, f *finding.Finding) []*finding.Finding {
	at := len(shown)
	for at > 0 && moreImportant(f, shown[at-1]) < 0 {
		at--
	}
	if at == shownAnnotations {
		return shown
	}
	shown = slices.Insert(shown, at, f)
	return shown[:min(len(shown), shownAnnotations)]
}

func moreImportant(a, b *finding.Finding) int {
	x, y := a.Region.Open(), b.Region.Open()
	return cmp.Or(-cmp.Compare(a.Severity, b.Severity), concern(y).Cmp(concern(x)), size(y).Cmp(size(x)), finding.Compare(a, b))
}

// concern is how many vehicles on the road a finding is about; 0 where it is about none,
// or nobody knows.
func concern(r *finding.Region) *big.Rat {
	if r == nil || r.OnTheRoad == nil {
		return new(big.Rat)
	}
	return r.OnTheRoad
}

func size(r *finding.Region) *big.Int {
	if r == nil || r.Configurations == nil {
		return new(big.Int)
	}
	return r.Configurations
}

func annotation(f *finding.Finding) string {
	level := f.Severity.String()
	if f.Severity == finding.Note {
		level = "notice"
	}
	file := ""
	if len(f.Cells) > 0 && f.Cells[0].Sheet != nil {
		file = "file=" + property(visible.Text(f.Cells[0].Sheet.File)) + ","
	}
	return fmt.Sprintf("::%s %stitle=%s::%s", level, file, property(string(f.Code)), message(clean(sentence(f))))
}

// message and property escape what would end a command or one of its properties.
func message(s string) string {
	return strings.NewReplacer("%", "%25", "\r", "%0D", "\n", "%0A").Replace(s)
}

func property(s string) string {
	return strings.NewReplacer(":", "%3A", ",", "%2C").Replace(message(s))
}

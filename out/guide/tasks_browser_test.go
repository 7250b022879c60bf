package guide_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy/share"
	"ferrule/out/guide"
)

// task is what somebody comes for, and what it may take on a phone of 360 by 800 px.
type task struct {
	name          string
	taps          int
	screens, list float64 // of the window; list is how long the list of parts is
	sees          string
}

func tasks() []task {
	return []task{
		{"damper", 4, 2.1, 0, "HPR-1102"},
		{"check", 2, 1.1, 0, "Tyre pressures"},
		{"part", 0, 1.1, 0, "2004 to 2012"},
		{"number", 2, 1.1, 0, "HPR-1101"},
		{"restrictor", 4, 2.2, 0, "Nothing is fitted here"},
		{"print", 11, 2.1, 4, "on paper"},
	}
}

// What people come for takes few taps and little scrolling.
func TestTasksInBrowser(t *testing.T) {
	browser(t)
	dir := t.TempDir()
	write(t, dir, demoSample(t).pages(t, guide.Options{}))
	all := tasks()
	all = all[:max(3, share.Of(t, len(all)))]
	var names []string
	for _, task := range all {
		names = append(names, task.name)
	}
	var did []struct {
		Name, Saw     string
		Taps          int
		Screens, List float64
	}
	play(t, "tasks.mjs", map[string]int{"width": 360, "height": 800}, &did, append([]string{dir}, names...)...)
	require.Len(t, did, len(all))
	for i, d := range did {
		want := all[i]
		t.Logf("%s: %d taps, %.2f screens, a list of %.2f: %s", d.Name, d.Taps, d.Screens, d.List, d.Saw)
		assert.Equal(t, want.taps, d.Taps, "%s: taps", d.Name)
		assert.LessOrEqual(t, d.Screens, want.screens, "%s: screens", d.Name)
		assert.LessOrEqual(t, d.List, want.list, "%s: screens of the list", d.Name)
		assert.Contains(t, d.Saw, want.sees, d.Name)
	}
}

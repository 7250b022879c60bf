package small

import "testing"

func TestLeast(t *testing.T) {
	for _, pair := range [][2]int{{1, 2}, {2, 1}, {3, 3}} {
		if got := Least(pair[0], pair[1]); got > pair[0] || got > pair[1] {
			t.Errorf("the least of %v is not %d", pair, got)
		}
	}
}

func TestDown(t *testing.T) {
	if got := Down(4); got != 4 {
		t.Errorf("%d steps", got)
	}
}

package mistakes

import (
	"fmt"
	"strings"
)

// inSides are mistakes with what is fitted left and right.
func inSides() []mistake {
	// Where a part for lines without a tee stands at a side with one, only the other side
	// of a vehicle with its tee there can tell; the drive axle has no such vehicle with
	// lines of 1/4 in, and there nothing is said.
	var out []mistake
	for _, at := range []struct {
		position, tee string
		first         int // row of the sheet
		tees          int // rows for a side with a tee
	}{{"Front restrictor left", "Left tee", 2, 3}, {"Front restrictor right", "Right tee", 9, 3}, {"Drive restrictor left", "Left tee", 16, 3}, {"Drive restrictor right", "Right tee", 23, 2}} {
		for i := range 3 {
			out = append(out, wrongSide(at.position, "not "+at.tee, at.first+i, "HPR-31", "HPR-32"))
		}
		for i := range at.tees {
			if at.position != "Drive restrictor left" || i > 0 {
				out = append(out, wrongSide(at.position, at.tee, at.first+3+i, "HPR-32", "HPR-31"))
			}
		}
	}
	return out
}

// wrongSide writes a part of one kind in place of one of the other.
func wrongSide(position, tee string, row int, is, becomes string) mistake {
	pair := strings.NewReplacer("left", "%", "right", "%").Replace(position)
	return mistake{name: fmt.Sprintf("%s: a part of %s.. in row %d, where %s", position, becomes, row, tee), do: func(b *books) {
		s := b.sheet("Fitment restrictors")
		s.put("Fits", row, strings.Replace(s.get("Fits", row), is, becomes, 1))
	}, wants: []want{{"sides-differ", fmt.Sprintf("Fitment restrictors!H%d", row), strings.ReplaceAll(pair, "%", "(left|right)") + ` takes .*, opposite, takes .* where .* tee has left and right exchanged; HPR-3[12]0[123] goes on either side elsewhere\n.*same part on both sides`}},
		most: 3, lines: 40, why: "each platform has the row"}
}

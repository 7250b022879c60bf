package guide

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"maps"
	"regexp"
	"slices"
	"sync"

	"ferrule/out/address"
)

// dates says since when each page says what it says: since the day of the earlier release
// that said the same, else since today.
type dates struct {
	today   string // an ISO date; "" where nobody asks for dates
	earlier map[string]address.Dated

	mu  sync.Mutex
	now map[string]address.Dated
}

func newDates(today string, earlier []address.Dated) *dates {
	d := &dates{today: today, earlier: map[string]address.Dated{}, now: map[string]address.Dated{}}
	for _, e := range earlier {
		d.earlier[e.Page] = e
	}
	return d
}

// take remembers what a page says. Workers may call it at once.
func (d *dates) take(page string, content []byte) {
	if d.today == "" {
		return
	}
	sum := sha256.Sum256(content)
	is := address.Dated{Page: page, Content: hex.EncodeToString(sum[:16]), Since: d.today}
	if old := d.earlier[page]; old.Content == is.Content {
		is.Since = old.Since
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	d.now[page] = is
}

// all lists the pages in the order of their names.
func (d *dates) all() []address.Dated {
	var out []address.Dated
	for _, page := range slices.Sorted(maps.Keys(d.now)) {
		out = append(out, d.now[page])
	}
	return out
}

var (
	beginsMain = []byte("<main")
	endsMain   = []byte("</main>")
	ourScript  = regexp.MustCompile(`<script src="[^"]*" defer></script>`)
)

// content is what a page says: what stands around is the same on all pages, and says at most
// which release it is of.
func content(page []byte) []byte {
	if _, rest, ok := bytes.Cut(page, beginsMain); ok {
		page, _, _ = bytes.Cut(rest, endsMain)
	}
	return ourScript.ReplaceAll(page, nil)
}

package compare

import (
	"cmp"
	"crypto/sha256"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// saying is a fitment cell's words where a position takes a quantity.
type saying struct {
	fits     *model.Fits
	quantity int
}

// which of the two releases is meant.
type which int

const (
	isOld which = iota
	isNew
)

// key is equal for what two cells of either release say exactly if it is the same under
// the names of NEW, where the position takes a quantity; 0 keeps what leaves it to the
// position apart. Cells with one text share their Fits, so each is made once.
func (w *worker) key(s which, f *model.Fits, quantity int) string {
	if f.Outcome != model.Fitted {
		return f.Outcome.String()
	}
	at := saying{f, quantity}
	key, ok := w.keys[s][at]
	if !ok {
		key = w.makeKey(s, f, quantity)
		w.keys[s][at] = key
	}
	return key
}

func (c *comparison) makeKey(s which, f *model.Fits, quantity int) string {
	if f.With != nil {
		return "with " + c.positionKey(s, f.With)
	}
	words := make([]string, len(f.Alternatives))
	for i, a := range f.Alternatives {
		words[i] = c.itemsKey(s, a.Filled(quantity), map[*model.Part]string{})
	}
	return strings.Join(words, "\x00")
}

// positionKey is the index in NEW, or that in OLD of a position that only OLD has.
func (c *comparison) positionKey(s which, p *model.Position) string {
	if s == isNew {
		return strconv.Itoa(p.Index)
	}
	if j := c.positions.toNew[p.Index]; j >= 0 {
		return strconv.Itoa(j)
	}
	return "old " + strconv.Itoa(p.Index)
}

// itemsKey writes parts fitted together, in any order. kits has what is known of kits: each is
// opened once.
func (c *comparison) itemsKey(s which, items model.Alternative, kits map[*model.Part]string) string {
	words := make([]string, len(items))
	for i, it := range items {
		words[i] = strconv.Itoa(it.Quantity) + "\x01" + c.partKey(s, it.Part, kits)
	}
	slices.Sort(words)
	return strings.Join(words, "\x02")
}

// partKey is a part's number in NEW and, of a kit, a digest of what it holds: written out, kits
// that share kits would be longer than any memory. A kit that leads back to itself is a finding,
// and ends there.
func (c *comparison) partKey(s which, p *model.Part, kits map[*model.Part]string) string {
	if !p.Kit() {
		return c.number(s, p)
	}
	key, known := kits[p]
	if !known {
		key = c.number(s, p)
		kits[p] = key
		digest := sha256.Sum256([]byte(c.itemsKey(s, Contents(p), kits)))
		key += "\x03" + string(digest[:])
		kits[p] = key
	}
	return key
}

// number is a part's number in NEW, folded.
func (c *comparison) number(s which, p *model.Part) string {
	key := word.Fold(p.Number)
	if now, ok := c.parts[key]; ok && s == isOld {
		return now
	}
	return key
}

// Contents gives what a kit holds, each part once.
func Contents(kit *model.Part) model.Alternative {
	items := make(model.Alternative, len(kit.Contents))
	for i, c := range kit.Contents {
		items[i] = model.Item{Part: c.Part, Quantity: c.Quantity}
	}
	items = items.Filled(0)
	slices.SortFunc(items, func(a, b model.Item) int { return cmp.Compare(a.Part.Number, b.Part.Number) })
	return items
}

package sheets

import "sync"

// allowance is what the parts of one file may cost together beyond their shares, which
// follow from their packed sizes: what people write costs bytes in the file, and what is
// made to do harm costs hardly any. A part that is read again costs nothing more.
type allowance struct {
	mu    sync.Mutex
	left  int64
	taken map[string]int64
}

func newAllowance(most int64) *allowance {
	return &allowance{left: most, taken: map[string]int64{}}
}

// take tells whether a part may cost so much beyond its share.
func (a *allowance) take(part string, beyond int64) bool {
	a.mu.Lock()
	defer a.mu.Unlock()
	more := beyond - a.taken[part]
	switch {
	case more <= 0:
		return true
	case more > a.left:
		return false
	}
	a.left -= more
	a.taken[part] = beyond
	return true
}

// meter counts what the XML parser has to do for one part. What is taken past the parser
// costs a tenth of it at most and is bounded by how much is inflated.
type meter struct {
	spent, granted int64
	share          int64 // of the part, by its packed size
	of             *allowance
	part           string
}

// add counts, and tells whether that much may be done.
func (w *meter) add(bytes int) bool {
	w.spent += int64(bytes) + tokenCost
	return w.spent <= w.granted || w.grant()
}

// grant asks for more in steps that grow with the part, so that few tokens ask and small parts, of which a workbook with
// notes has three a sheet, take no more than they need.
func (w *meter) grant() bool {
	const least, most = 8 << 10, 1 << 20
	want := w.spent + min(max(w.spent, least), most)
	if w.of == nil || w.of.take(w.part, want-w.share) {
		w.granted = want
		return true
	}
	return false
}

// owners knows which sheet each part of comments belongs to, so that none is read over and
// over for many sheets.
type owners struct {
	mu sync.Mutex
	by map[string]string
}

func newOwners() *owners { return &owners{by: map[string]string{}} }

// take tells whether a part belongs to the sheet, or to none so far.
func (o *owners) take(part, sheet string) bool {
	o.mu.Lock()
	defer o.mu.Unlock()
	if owner, ok := o.by[part]; ok {
		return owner == sheet
	}
	o.by[part] = sheet
	return true
}

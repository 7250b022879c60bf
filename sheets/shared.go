package sheets

// fastStrings takes shared strings past the XML parser as fast does with rows, up to the
// first that is not written in the usual way.
type fastStrings struct {
	m    *markup
	all  *stock
	one  block
	size int
	rest int // how many more strings are left to the parser without a look
	idle int // how many will be, the next time
}

// run takes as many strings as it can.
func (f *fastStrings) run() {
	if f == nil || !f.m.plain() { // all are for the parser
		return
	}
	if f.rest > 0 {
		f.rest--
		return
	}
	for first := true; ; first = false {
		b := &f.one
		b.data, b.size = f.m.from.block(b.data, []byte("<si"), f.size, mostBlock)
		f.scan()
		f.m.lines += b.lines()
		if !b.whole() || f.all.full() {
			f.m.from.giveBack(b.data[b.used:b.size])
			f.m.work.spent += int64(b.size-b.used) / leaveShare
			f.size = leastBlock
			f.rest, f.idle = idleAfter(f.idle, first && b.used == 0)
			return
		}
		f.size = min(f.size*2, blockSize)
	}
}

// scan takes the strings of a block up to the first odd one.
func (f *fastStrings) scan() {
	b := &f.one
	for b.used = 0; ; {
		i := skipSpace(b.data, b.used)
		if i == b.size {
			b.used = i
			return
		}
		w, i := b.shared(i)
		if i == odd {
			return
		}
		f.all.add(w)
		b.used = i
	}
}

// idleAfter tells how many rows or texts the parser gets without another look at whether
// they need it, and how many it gets the next time: none where a look has found some that do
// not, else each time twice as many.
func idleAfter(idle int, inVain bool) (rest, next int) {
	const most = 63
	if !inVain {
		return 0, 0
	}
	return idle, min(2*idle+1, most)
}

// leaveShare says what giving bytes back costs: as much as parsing one of so many.
const leaveShare = 16

// shared scans one shared text, most of which are plain.
func (b *block) shared(i int) (words, int) {
	const begin, end, empty = "<si>", "</si>", "<si/>"
	if begins(b.data, i, empty) {
		return words{}, i + len(empty)
	}
	if !begins(b.data, i, begin) {
		return words{}, odd
	}
	from := i + len(begin)
	if begins(b.data, from, "<t") {
		text, i, ok := b.element(from+len("<t"), "</t>", nil)
		if ok && begins(b.data, i, end) {
			return plainWords(text), i + len(end)
		}
	}
	return b.rich(from)
}

// plainWords is a text without runs.
func plainWords(text string) words { return words{text: unescape(text), inherit: text != ""} }

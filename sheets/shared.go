package sheets

// fastStrings takes shared strings past the XML parser as fast does with rows, up to the
// first that is not written in the usual way.
type fastStrings struct {
	m    *markup
	all  *[]words
	one  block
	size int
}

// run takes as many strings as it can.
func (f *fastStrings) run() {
	if f == nil || !f.m.plain() { // all are for the parser
		return
	}
	for {
		b := &f.one
		b.data, b.size = f.m.from.block(b.data, []byte("<si"), f.size, mostBlock)
		f.scan()
		f.m.lines += b.lines()
		if !b.whole() {
			f.m.from.giveBack(b.data[b.used:b.size])
			f.size = leastBlock
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
		*f.all = append(*f.all, w)
		b.used = i
	}
}

// shared scans one shared text, most of which are plain.
func (b *block) shared(i int) (words, int) {
	const begin, end = "<si>", "</si>"
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

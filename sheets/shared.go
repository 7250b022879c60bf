package sheets

// fastStrings takes shared strings past the XML parser as fast does with rows: those
// of one plain text, up to the first that is written otherwise.
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
	const begin, end = "<si><t", "</si>"
	b := &f.one
	for b.used = 0; ; {
		i := skipSpace(b.data, b.used)
		if i == b.size {
			b.used = i
			return
		}
		if !begins(b.data, i, begin) {
			return
		}
		text, i, ok := b.element(i+len(begin), "</t>", nil)
		if !ok || !begins(b.data, i, end) {
			return
		}
		*f.all = append(*f.all, plainWords(text))
		b.used = i + len(end)
	}
}

// plainWords is a text without runs.
func plainWords(text string) words { return words{text: unescape(text), inherit: text != ""} }

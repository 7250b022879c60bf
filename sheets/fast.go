package sheets

import "encoding/xml"

// pace is how a sheet's rows are read. The zero value leaves them all to the XML parser.
type pace struct {
	workers int // goroutines; with one, all is done in the caller's
	block   int // bytes of a block, 0 for no fast scanning
}

const (
	blockSize = 128 << 10 // with the cells that are found in it, it stays in a processor's cache
	// mostBlock bounds what is held of a row that does not end; a full one of short
	// texts takes about half of it.
	mostBlock = 2 << 20
	// leastBlock is the size of the first block after an odd row: there is often
	// another one near it.
	leastBlock = 4 << 10
)

// fast takes rows past the XML parser wherever that stands between two rows, and gives
// them out. It leaves the parser at the first odd row, or where the rows end, so that
// a sheet may change between the two ways at any row and every fault is the parser's.
type fast struct {
	pace
	m      *markup
	a      *assembler
	size   int      // of the next block
	rest   int      // how many more rows are left to the parser without a look
	idle   int      // how many will be, the next time
	vain   bool     // nothing was taken since the parser's last row
	blocks []*block // to be used again; the first one serves alone where there is one goroutine
}

// newFast prepares for the rows behind the tag t of sheetData, which was just read and
// may declare nothing. It gives nil where all rows are for the parser.
func newFast(m *markup, a *assembler, t xml.StartElement, p pace) *fast {
	if p.block == 0 || len(t.Attr) > 0 || !m.bypassed() {
		return nil
	}
	return &fast{pace: p, m: m, a: a, size: p.block}
}

// run takes as many rows as it can.
func (f *fast) run() error {
	if f == nil || !f.m.plain() {
		return nil
	}
	if f.rest > 0 {
		f.rest--
		return nil
	}
	f.vain = true
	for f.workers < 2 || f.size < f.block {
		if more, err := f.next(); err != nil || !more {
			return err
		}
	}
	return f.stream()
}

// next takes one block. more tells whether it was taken whole.
func (f *fast) next() (more bool, err error) {
	f.prepare(1)
	b := f.blocks[0]
	b.load(f.m.from.intake, f.size)
	b.scan(f.a.row.Number)
	whole, err := f.take(b)
	if err != nil || whole {
		f.vain = false
		f.size = min(f.size*2, f.block)
		return whole, err
	}
	f.leave(b)
	return false, nil
}

// leave gives the rest of a block back for the parser.
func (f *fast) leave(b *block) {
	f.m.from.giveBack(b.data[b.used:b.size])
	f.m.work.spent += int64(b.size-b.used) / leaveShare
	f.size = min(leastBlock, f.block)
	f.rest, f.idle = idleAfter(f.idle, f.vain && b.used == 0)
}

// prepare makes n blocks.
func (f *fast) prepare(n int) {
	for len(f.blocks) < n {
		f.blocks = append(f.blocks, &block{typer: f.a.typer, ready: make(chan struct{}, 1)})
	}
}

// load fills the block with the next bytes.
func (b *block) load(in *intake, size int) {
	b.data, b.size = in.block(b.data, []byte("<row"), size, mostBlock)
}

// take gives out the rows of a block that was scanned, and tells whether they are all
// of it.
func (f *fast) take(b *block) (whole bool, err error) {
	if len(b.rows) > 0 && b.rows[0].number <= f.a.row.Number {
		b.used = 0 // the parser knows what to say about rows out of order
		return false, nil
	}
	f.m.lines += b.lines()
	f.a.fast += len(b.rows)
	return b.whole(), f.a.rows(b)
}

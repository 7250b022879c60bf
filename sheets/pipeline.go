package sheets

import (
	"sync/atomic"

	"ferrule/sheets/guard"
)

// mostWorkers bounds the goroutines that read a sheet: inflating keeps one busy, and
// scanning takes less time than that.
const mostWorkers = 3

// pipeline is a run of blocks through goroutines: one inflates, others scan, and the
// caller's gives the rows out in order. The blocks go round a ring: each is filled,
// scanned and given out again and again, always behind the same other one.
type pipeline struct {
	ring   []*block
	free   chan struct{} // one for each block that may be filled
	work   chan *block   // blocks to be scanned
	filled int           // how many were, the empty one at the end among them
	done   atomic.Bool   // nobody will look at what is still on its way
	all    *guard.Group
}

func (f *fast) start() *pipeline {
	n := 2*f.workers + 1
	f.prepare(n)
	// Nobody waits to send: both channels have room for all blocks.
	p := &pipeline{ring: f.blocks[:n], free: make(chan struct{}, n), work: make(chan *block, n), all: guard.NewGroup()}
	for range n {
		p.free <- struct{}{}
	}
	p.all.Go(func() { p.fill(f.m.from.intake, f.block) })
	for range f.workers - 1 {
		p.all.Go(p.scan)
	}
	return p
}

func (p *pipeline) at(n int) *block { return p.ring[n%len(p.ring)] }

// fill loads blocks up to the first empty one, which is at the end of the part.
func (p *pipeline) fill(in *intake, size int) {
	defer close(p.work)
	for range p.free {
		if p.done.Load() {
			return
		}
		b := p.at(p.filled)
		b.load(in, size)
		p.filled++
		if p.work <- b; b.size == 0 {
			return
		}
	}
}

func (p *pipeline) scan() {
	for b := range p.work {
		if !p.done.Load() {
			b.scan(0)
		}
		b.ready <- struct{}{}
	}
}

// scanned waits for the block of that number, which does not come where a goroutine failed:
// stopping then panics with what happened there.
func (p *pipeline) scanned(n int) *block {
	b := p.at(n)
	select {
	case <-b.ready:
	case <-p.all.Failed():
		p.stop()
	}
	return b
}

// stop ends all goroutines. A panic of one of them becomes one of this goroutine's.
func (p *pipeline) stop() {
	if !p.done.Swap(true) {
		close(p.free)
		p.all.Wait()
	}
}

// stream takes blocks by several goroutines up to an odd row or the end, and leaves
// the rest to the parser. Where it does not get far it is not worth another start.
func (f *fast) stream() error {
	p := f.start()
	defer p.stop()
	for n := 0; ; n++ {
		b := p.scanned(n)
		if b.size == 0 {
			return nil
		}
		whole, err := f.take(b)
		if err != nil {
			return err
		}
		f.vain = f.vain && n == 0
		if !whole {
			p.stop()
			for last := p.filled - 1; last > n; last-- {
				later := p.scanned(last)
				f.m.from.giveBack(later.data[:later.size])
			}
			if f.leave(b); n < 4*len(p.ring) {
				f.workers = 1
			}
			return nil
		}
		p.free <- struct{}{}
	}
}

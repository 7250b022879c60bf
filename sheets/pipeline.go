package sheets

import (
	"slices"
	"sync"
	"sync/atomic"
)

// mostWorkers bounds the goroutines that read a sheet: inflating keeps one busy, and
// scanning takes less time than that.
const mostWorkers = 3

// pipeline is a run of blocks through goroutines: one inflates, others scan, and the
// caller's gives the rows out in order. As many blocks are on their way as there are.
type pipeline struct {
	free  chan *block // to be filled
	order chan *block // filled, in the order of the sheet
	work  chan *block // the same, for whoever scans next
	done  atomic.Bool // what is still on its way will not be looked at
	all   sync.WaitGroup
}

func (f *fast) start() *pipeline {
	n := 2*f.workers + 1
	f.prepare(n)
	// Nobody ever waits to send: each channel has room for all blocks.
	p := &pipeline{free: make(chan *block, n), order: make(chan *block, n), work: make(chan *block, n)}
	for _, b := range f.blocks[:n] {
		p.free <- b
	}
	p.all.Go(func() { p.fill(f.m.from.intake, f.block) })
	for range f.workers - 1 {
		p.all.Go(p.scan)
	}
	return p
}

// fill loads blocks to the end of the part.
func (p *pipeline) fill(in *intake, size int) {
	defer close(p.order)
	defer close(p.work)
	for b := range p.free {
		if p.done.Load() {
			return
		}
		if b.load(in, size); b.size == 0 {
			return
		}
		p.order <- b
		p.work <- b
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

// stop ends all goroutines and gives the blocks that were filled and not taken.
func (p *pipeline) stop() (rest []*block) {
	if p.done.Swap(true) {
		return nil
	}
	close(p.free)
	p.all.Wait()
	for b := range p.order {
		<-b.ready
		rest = append(rest, b)
	}
	return rest
}

// stream takes blocks by several goroutines up to an odd row or the end, and leaves
// the rest to the parser. Where it does not get far it is not worth another start.
func (f *fast) stream() error {
	p := f.start()
	defer p.stop()
	taken := 0
	for b := range p.order {
		<-b.ready
		whole, err := f.take(b)
		if err != nil {
			return err
		}
		if !whole {
			for _, later := range slices.Backward(p.stop()) {
				f.m.from.giveBack(later.data[:later.size])
			}
			if f.leave(b); taken < 4*len(f.blocks) {
				f.workers = 1
			}
			return nil
		}
		taken++
		p.free <- b
	}
	return nil
}

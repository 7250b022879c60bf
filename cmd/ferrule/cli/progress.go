package cli

import (
	"fmt"
	"io"
	"os"
	"strings"
	"sync"
	"time"

	"ferrule/sheets/guard"
)

const (
	patience = 500 * time.Millisecond // how long nobody wonders
	beat     = 100 * time.Millisecond // between looks at the clock
)

// progress shows on a terminal what is being done, once that has lasted for a while,
// and takes it away again. A nil progress shows nothing.
type progress struct {
	out   io.Writer
	width int
	begun time.Time
	over  chan struct{}
	ended sync.Once
	looks *guard.Group

	mu    sync.Mutex
	what  string
	since time.Time // when what began
	shown string    // what the terminal shows, "" for nothing
}

// startProgress gives nil where out is no terminal that can erase a line.
func startProgress(out io.Writer) *progress {
	out = below(out) // which is to obey
	width, terminal := columns(out)
	if !terminal || os.Getenv("TERM") == "dumb" {
		return nil
	}
	if width == 0 { // some terminals do not tell
		width = 80
	}
	p := newProgress(out, width)
	p.looks.Go(p.run)
	return p
}

// newProgress gives a progress that looks at no clock by itself.
func newProgress(out io.Writer, width int) *progress {
	return &progress{out: out, width: width, begun: time.Now(), over: make(chan struct{}), looks: guard.NewGroup()}
}

func (p *progress) run() {
	ticks := time.NewTicker(beat)
	defer ticks.Stop()
	for {
		select {
		case now := <-ticks.C:
			p.look(now)
		case <-p.over:
			return
		}
	}
}

// show says what is done from now on; "" for nothing that should be shown.
func (p *progress) show(what string) {
	if p == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.what, p.since = what, time.Now()
	if what == "" {
		p.erase()
	}
}

// above writes a line to the terminal without mixing it with what is shown there.
func (p *progress) above(line string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.erase()
	io.WriteString(p.out, line)
}

// end takes away what is shown. After it nothing is shown any more. A panic of the goroutine that shows
// becomes one of the caller.
func (p *progress) end() {
	if p == nil {
		return
	}
	p.show("")
	p.ended.Do(func() {
		close(p.over)
		p.looks.Wait()
	})
}

// look draws anew where what is shown is no longer true.
func (p *progress) look(now time.Time) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.what == "" || now.Sub(p.begun) < patience {
		return
	}
	text := fmt.Sprintf("%s, %d s", p.what, int(now.Sub(p.since).Seconds()))
	if text = cut(text, p.width-1); text != p.shown {
		p.erase()
		io.WriteString(p.out, text)
		p.shown = text
	}
}

// erase empties the line (ECMA-48: carriage return, erase in line).
func (p *progress) erase() {
	if p.shown != "" {
		io.WriteString(p.out, "\r\x1b[K")
		p.shown = ""
	}
}

// cut shortens a text to a number of columns, since a line that wraps cannot be erased.
// Scripts from Hangul Jamo on may take two columns a letter; that much is left for each.
func cut(text string, width int) string {
	const wide = 0x1100
	var b strings.Builder
	for _, r := range text {
		width--
		if r >= wide {
			width--
		}
		if width < 0 {
			break
		}
		b.WriteRune(r)
	}
	return b.String()
}

// Package guard is the one place where goroutines begin. A panic in one of them would end
// the process with a status that says something else; here it becomes one of whoever waits
// for it, with its own stack and what was being done, so that the command line can say so.
package guard

import (
	"fmt"
	"runtime/debug"
	"sync"
)

// Fault is a panic with where it arose and what it was about.
type Fault struct {
	Cause any
	Stack []byte   // of the goroutine that it arose in
	About []string // what was being done, the innermost first
}

// Error is for a fault that nobody takes apart.
func (f *Fault) Error() string { return fmt.Sprintf("%v %q\n%s", f.Cause, f.About, f.Stack) }

// faultOf makes a fault of what was recovered. One that is passed on keeps its stack.
func faultOf(cause any) *Fault {
	if f, ok := cause.(*Fault); ok {
		return f
	}
	return &Fault{Cause: cause, Stack: debug.Stack()}
}

// About is deferred by what works on something with a name, and adds that to a panic which
// passes: `defer guard.About("reading " + name)`.
func About(what string) {
	if cause := recover(); cause != nil {
		f := faultOf(cause)
		f.About = append(f.About, what)
		panic(f)
	}
}

// Beside runs do in a goroutine that nobody has to wait for. The channel gives its Fault, nil
// where there was none, once it has ended.
func Beside(do func()) <-chan *Fault {
	over := make(chan *Fault, 1)
	go func() {
		var fault *Fault
		defer func() { over <- fault }()
		defer func() {
			if cause := recover(); cause != nil {
				fault = faultOf(cause)
			}
		}()
		do()
	}()
	return over
}

// Group is goroutines that one goroutine waits for. The zero value is not ready; NewGroup
// gives one.
type Group struct {
	all    sync.WaitGroup
	once   sync.Once
	fault  *Fault
	failed chan struct{}
}

// NewGroup gives a group without goroutines.
func NewGroup() *Group { return &Group{failed: make(chan struct{})} }

// Go runs do in a goroutine of its own.
func (g *Group) Go(do func()) {
	g.all.Go(func() {
		defer func() {
			if cause := recover(); cause != nil {
				g.once.Do(func() {
					g.fault = faultOf(cause)
					close(g.failed)
				})
			}
		}()
		do()
	})
}

// Failed is closed when a goroutine has panicked: what it was to do will not come.
func (g *Group) Failed() <-chan struct{} { return g.failed }

// Wait waits for all goroutines to end. If one has panicked it panics with the first Fault.
func (g *Group) Wait() {
	g.all.Wait()
	if g.fault != nil {
		panic(g.fault)
	}
}

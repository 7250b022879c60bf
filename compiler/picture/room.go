package picture

import "sync"

// room is the memory that pictures may take while they are unpacked, all workers together.
type room struct {
	mu    sync.Mutex
	freed *sync.Cond
	left  int64
}

// maxRoom is how many bytes of it there are: enough for any picture that is unpacked row by
// row, for a JPEG of maxPixels, and for most that are stored progressively.
const maxRoom = 256 << 20

func newRoom() *room {
	r := &room{left: maxRoom}
	r.freed = sync.NewCond(&r.mu)
	return r
}

// take waits until there is so much room, and gives what frees it again. There is never more
// than maxRoom to be had.
func (r *room) take(bytes int64) (free func()) {
	if bytes > maxRoom {
		panic("picture: more room asked for than there is")
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	for r.left < bytes {
		r.freed.Wait()
	}
	r.left -= bytes
	return func() {
		r.mu.Lock()
		defer r.mu.Unlock()
		r.left += bytes
		r.freed.Broadcast()
	}
}

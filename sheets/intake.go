package sheets

import (
	"bytes"
	"io"
)

// intake is the inflated bytes of a part. The XML parser takes them one by one; the
// fast scanner takes blocks and gives back what it leaves to the parser.
type intake struct {
	from io.Reader
	now  []byte   // the next bytes
	next [][]byte // what follows now, the last one first
	err  error    // what follows all of these; nil where more can be read
	room []byte   // to read into for the parser
}

const roomSize = 1 << 15

func (in *intake) ReadByte() (byte, error) {
	for len(in.now) == 0 {
		if err := in.more(); err != nil {
			return 0, err
		}
	}
	b := in.now[0]
	in.now = in.now[1:]
	return b, nil
}

// Read is io.Reader's, for what takes whole slices.
func (in *intake) Read(p []byte) (int, error) {
	for len(in.now) == 0 {
		if err := in.more(); err != nil {
			return 0, err
		}
	}
	n := copy(p, in.now)
	in.now = in.now[n:]
	return n, nil
}

// more makes now hold the next bytes after all of it was taken.
func (in *intake) more() error {
	if last := len(in.next) - 1; last >= 0 {
		in.now, in.next = in.next[last], in.next[:last]
		return nil
	}
	if in.err != nil {
		return in.err
	}
	if in.room == nil {
		in.room = make([]byte, roomSize)
	}
	n, err := in.from.Read(in.room)
	in.now, in.err = in.room[:n], err
	return nil
}

// peek gives up to n of the next bytes, n being small, without taking them.
func (in *intake) peek(n int) []byte {
	for len(in.now) < n && in.err == nil && len(in.next) == 0 {
		held := bytes.Clone(in.now)
		in.more()
		in.now = append(held, in.now...)
	}
	return in.now[:min(n, len(in.now))]
}

// giveBack puts a copy of bytes before all others.
func (in *intake) giveBack(p []byte) {
	if len(p) == 0 {
		return
	}
	if len(in.now) > 0 {
		in.next = append(in.next, in.now)
	}
	in.now = bytes.Clone(p)
}

// pad is how many zero bytes follow a block, so that a scanner may look ahead of what
// it has checked without asking where the block ends.
const pad = 32

// block takes about size bytes, cut before the last place where mark stands, so that
// it ends between two elements that begin so; the rest stays. A block without a second
// mark grows up to most bytes and is then cut anywhere, as is the last one. The block
// is made in buf; after its n bytes follow pad zero bytes, which do not belong to it.
// It is empty only at the end.
func (in *intake) block(buf, mark []byte, size, most int) (data []byte, n int) {
	buf = buf[:0]
	for {
		buf = in.fill(buf, size)
		if in.err != nil && len(in.now) == 0 && len(in.next) == 0 {
			break
		}
		if at := bytes.LastIndex(buf, mark); at > 0 {
			in.giveBack(buf[at:])
			buf = buf[:at]
			break
		}
		if size *= 2; size > most {
			break
		}
	}
	return append(buf, make([]byte, pad)...), len(buf)
}

// fill takes bytes until buf holds size of them or no more come.
func (in *intake) fill(buf []byte, size int) []byte {
	if cap(buf) < size+pad {
		buf = append(make([]byte, 0, size+pad), buf...)
	}
	for len(buf) < size {
		if len(in.now) == 0 {
			if len(in.next) == 0 {
				if in.err != nil {
					break
				}
				n, err := in.from.Read(buf[len(buf):size])
				buf, in.err = buf[:len(buf)+n], err
				continue
			}
			in.now, in.next = in.next[len(in.next)-1], in.next[:len(in.next)-1]
		}
		n := copy(buf[len(buf):size], in.now)
		buf, in.now = buf[:len(buf)+n], in.now[n:]
	}
	return buf
}

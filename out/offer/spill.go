package offer

import (
	"encoding/binary"
	"errors"
	"io"
	"os"
)

// inMemory is how many bytes of a spill are held before they go to its file.
const inMemory = 1 << 20

// header stands before an offer in a spill.
type header struct {
	previous int64 // where the part's offer before it lies, -1 for none
	platform int32 // index
	length   int32 // of the offer that follows
}

const headerLength = 16

// before gives the header with what follows it.
func (h header) before(text []byte) []byte {
	out := make([]byte, headerLength, headerLength+len(text))
	binary.LittleEndian.PutUint64(out, uint64(h.previous))
	binary.LittleEndian.PutUint32(out[8:], uint32(h.platform))
	binary.LittleEndian.PutUint32(out[12:], uint32(h.length))
	return append(out, text...)
}

func headerOf(data []byte) header {
	return header{int64(binary.LittleEndian.Uint64(data)), int32(binary.LittleEndian.Uint32(data[8:])),
		int32(binary.LittleEndian.Uint32(data[12:]))}
}

// spill is offers that are written once and read in any order. What is more than
// inMemory lies in a file, which is gone once the spill is closed.
type spill struct {
	dir  string // where the file is made; "": where the system has such files
	tail []byte // what is not in the file yet
	file *os.File
	size int64 // of the file
}

// add keeps data and gives the place to read it from.
func (s *spill) add(data []byte) (int64, error) {
	at := s.size + int64(len(s.tail))
	s.tail = append(s.tail, data...)
	if len(s.tail) < inMemory {
		return at, nil
	}
	if s.file == nil {
		f, err := os.CreateTemp(s.dir, ".ferrule-offers-*")
		if err != nil {
			return 0, err
		}
		s.file = f
	}
	if _, err := s.file.WriteAt(s.tail, s.size); err != nil {
		return 0, err
	}
	s.size += int64(len(s.tail))
	s.tail = s.tail[:0]
	return at, nil
}

// readAhead is how many bytes are read at once: most offers are shorter.
const readAhead = 256

// read gives the offer at a place, which is not split between file and memory.
func (s *spill) read(at int64) (header, []byte, error) {
	if at >= s.size {
		data := s.tail[at-s.size:]
		h := headerOf(data)
		return h, data[headerLength:][:h.length], nil
	}
	data := make([]byte, min(readAhead, s.size-at))
	if _, err := s.file.ReadAt(data, at); err != nil {
		return header{}, nil, err
	}
	h := headerOf(data)
	if n := headerLength + int(h.length); n > len(data) {
		data = make([]byte, n)
		if _, err := s.file.ReadAt(data, at); err != nil && !errors.Is(err, io.EOF) {
			return header{}, nil, err
		}
	}
	return h, data[headerLength:][:h.length], nil
}

func (s *spill) close() error {
	if s.file == nil {
		return nil
	}
	return errors.Join(s.file.Close(), os.Remove(s.file.Name()))
}

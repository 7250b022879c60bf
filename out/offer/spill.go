package offer

import (
	"errors"
	"os"
)

// inMemory is how many bytes of a spill are held before they go to its file.
const inMemory = 1 << 20

// spill is bytes that are written once and read in any order. What is more than
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

// read gives n bytes from a place. What is added together is never split.
func (s *spill) read(at int64, n int) ([]byte, error) {
	if at >= s.size {
		return s.tail[at-s.size:][:n], nil
	}
	data := make([]byte, n)
	_, err := s.file.ReadAt(data, at)
	return data, err
}

func (s *spill) close() error {
	if s.file == nil {
		return nil
	}
	return errors.Join(s.file.Close(), os.Remove(s.file.Name()))
}

package sheets

import (
	"archive/zip"
	"bufio"
	"errors"
	"hash"
	"hash/crc32"
	"io"

	"github.com/klauspost/compress/flate"
)

// part inflates one part of the package. It gives io.EOF only after exactly the
// declared number of bytes with the declared checksum, and *Fault for all else.
// (archive/zip's own reader lets a checksum of zero and bytes after the end pass.)
type part struct {
	where spot
	raw   *bufio.Reader
	data  io.Reader
	left  uint64
	sum   hash.Hash32
	want  uint32
	err   error
}

// openPart begins reading a part of at most limit bytes.
func openPart(f *zip.File, where spot, limit uint64) (*part, error) {
	if f.UncompressedSize64 > limit {
		return nil, where.fault("its data is larger than the %d MiB that are read", limit>>20)
	}
	raw, err := f.OpenRaw()
	if err != nil {
		return nil, where.misplaced(err)
	}
	p := &part{where: where, raw: bufio.NewReaderSize(raw, 1<<15), left: f.UncompressedSize64, sum: crc32.NewIEEE(), want: f.CRC32}
	p.data = p.raw
	if f.Method == zip.Deflate {
		p.data = flate.NewReader(p.raw)
	}
	return p, nil
}

func (p *part) Read(b []byte) (int, error) {
	if p.err != nil {
		return 0, p.err
	}
	if p.left == 0 {
		p.err = p.finish()
		return 0, p.err
	}
	if uint64(len(b)) > p.left {
		b = b[:p.left]
	}
	n, err := p.data.Read(b)
	p.sum.Write(b[:n])
	p.left -= uint64(n)
	if err != nil && (p.left > 0 || !errors.Is(err, io.EOF)) {
		p.err = p.damaged(err)
		return n, p.err
	}
	return n, nil
}

// finish checks what can only be told at the end.
func (p *part) finish() error {
	var one [1]byte
	switch n, err := io.ReadFull(p.data, one[:]); {
	case n > 0:
		return p.where.damaged("its data is longer than the list of parts says")
	case !errors.Is(err, io.EOF):
		return p.damaged(err)
	case p.sum.Sum32() != p.want:
		return p.where.damaged("its data does not agree with its checksum")
	}
	if _, err := p.raw.ReadByte(); !errors.Is(err, io.EOF) {
		return p.where.damaged("other data follows the end of its own")
	}
	return io.EOF
}

func (p *part) damaged(err error) error {
	var wrong flate.CorruptInputError
	switch {
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return p.where.damaged("its data is cut off")
	case errors.As(err, &wrong):
		return p.where.damaged("its data cannot be unpacked")
	}
	return p.where.unread(err)
}

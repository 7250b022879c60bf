package picture

import (
	"bytes"
	"encoding/binary"
	"fmt"
)

// maxScans bounds how often a JPEG goes over its picture; programs write about ten.
const maxScans = 100

// jpegBytes gives how many bytes image/jpeg takes for a pixel: its samples, rounded up, and
// where it is progressive 32 bits for each of them as well. Repeated scans, which cost
// hardly any bytes, are refused. (Markers: ITU-T T.81, table B.1.)
func jpegBytes(data []byte) (each int64, progressive bool, err error) {
	const (
		firstFrame, lastFrame, progressiveFrame = 0xc0, 0xcf, 0xc2
		tables, extension, arithmetic           = 0xc4, 0xc8, 0xcc
		scan, adobe                             = 0xda, 0xee
	)
	colours, rgb := 3, false
	for at := 2; at+4 <= len(data) && data[at] == 0xff; {
		marker, size := data[at+1], int(binary.BigEndian.Uint16(data[at+2:]))
		switch {
		case marker == 0xff: // filling
			at++
			continue
		case marker == scan:
			if bytes.Count(data[at:], []byte{0xff, scan}) > maxScans {
				return 0, false, &errLarge{fmt.Sprintf("it draws its picture in more than %d turns", maxScans)}
			}
			return samplesOf(colours, progressive, rgb), progressive, nil
		case marker == adobe && size >= 14 && at+16 <= len(data) && string(data[at+4:at+9]) == "Adobe":
			rgb = rgb || data[at+15] == 0
		case marker >= firstFrame && marker <= lastFrame && marker != tables && marker != extension && marker != arithmetic:
			progressive = marker == progressiveFrame
			if at+20 <= len(data) {
				rgb = rgb || data[at+10] == 'R' && data[at+13] == 'G' && data[at+16] == 'B'
				colours = int(data[at+9])
			}
		}
		at += 2 + max(size, 2)
	}
	return samplesOf(colours, progressive, rgb), progressive, nil
}

// samplesOf gives the bytes for a pixel of so many colours. Where they are RGB or CMYK the
// picture is made once more.
func samplesOf(colours int, progressive, rgb bool) int64 {
	each := colours
	if progressive {
		each += 4 * colours
	}
	switch {
	case colours == 4:
		each += 8
	case colours == 3 && rgb:
		each += 4
	}
	return int64(each)
}

package watch

import (
	"io/fs"
	"syscall"
)

// dataless marks files whose content is not on the disk (macOS, sys/stat.h: SF_DATALESS).
const dataless = 0x40000000

func away(info fs.FileInfo) bool {
	d, ok := info.Sys().(*syscall.Stat_t)
	return ok && d.Flags&dataless != 0
}

package watch

import (
	"io/fs"
	"syscall"
)

// Attributes of files whose content is not on the disk (Windows, File Attribute Constants:
// FILE_ATTRIBUTE_OFFLINE, RECALL_ON_OPEN and RECALL_ON_DATA_ACCESS).
const elsewhere = 0x1000 | 0x40000 | 0x400000

func away(info fs.FileInfo) bool {
	d, ok := info.Sys().(*syscall.Win32FileAttributeData)
	return ok && d.FileAttributes&elsewhere != 0
}

package cli

import (
	"runtime"
	"syscall"
	"unsafe"
)

// started looks at how the program was started: the console lists the programs that share it.
func started() session {
	var ids [2]uint32
	list := syscall.NewLazyDLL("kernel32.dll").NewProc("GetConsoleProcessList")
	n, _, _ := list.Call(uintptr(unsafe.Pointer(&ids[0])), uintptr(len(ids)))
	return session{system: runtime.GOOS, own: n == 1}
}

package commands

import (
	"reflect"

	"golang.org/x/sys/unix"
)

// largePage is what a large page has, in bytes, on most machines; with another size
// nothing is lost.
const largePage = 2 << 20

// inLargePages asks for large pages behind a piece of memory; false where there
// are none. The large page in which the piece begins is half used by then, in small
// pages: what is there is moved into a large one, so that the rest need not be
// asked for page by page. Systems that do not know how leave it as it is.
func inLargePages(room []byte) bool {
	start := reflect.ValueOf(room).Pointer()
	first := start &^ (largePage - 1)
	if first != start {
		advise(first, start-first, unix.MADV_HUGEPAGE) // else the large page would have two kinds of memory
	}
	if unix.Madvise(room, unix.MADV_HUGEPAGE) != nil {
		return false
	}
	if first != start {
		advise(first, largePage, unix.MADV_COLLAPSE)
	}
	return true
}

// advise advises memory by its address, as far as it is there.
func advise(start, length uintptr, advice int) {
	_, _, _ = unix.Syscall(unix.SYS_MADVISE, start, length, uintptr(advice))
}

package commands

import "golang.org/x/sys/unix"

// inLargePages asks for large pages behind a piece of memory; false where there
// are none.
func inLargePages(room []byte) bool { return unix.Madvise(room, unix.MADV_HUGEPAGE) == nil }

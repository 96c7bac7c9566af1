//go:build !unix

package ledger

import (
	"io/fs"
	"os"
)

// withoutWaiting is nothing where no file is a pipe.
const withoutWaiting = 0

// openNow opens a file for reading.
func openNow(path string) (*os.File, error) { return os.Open(path) }

// likeOwner has nothing to keep where a file's owner comes with its folder.
func (osTemp) likeOwner(fs.FileInfo) error { return nil }

// mask is nothing here.
func mask() fs.FileMode { return 0 }

// otherNames are not counted here.
func otherNames(fs.FileInfo) int { return 0 }

// cannotSync is always so: these systems sync no folders, and keep a rename
// without that.
func cannotSync(error) bool { return true }

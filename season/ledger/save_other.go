//go:build !unix

package ledger

import "io/fs"

// likeOwner has nothing to keep where a file's owner comes with its folder.
func (osTemp) likeOwner(fs.FileInfo) error { return nil }

// cannotSync is always so: these systems sync no folders, and keep a rename
// without that.
func cannotSync(error) bool { return true }

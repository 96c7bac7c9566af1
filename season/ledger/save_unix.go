//go:build unix

package ledger

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
)

// withoutWaiting opens a pipe that nobody writes to at once, too.
const withoutWaiting = syscall.O_NONBLOCK

// openNow opens a file for reading and waits for nobody.
func openNow(path string) (*os.File, error) {
	return os.OpenFile(path, os.O_RDONLY|withoutWaiting, 0)
}

// likeOwner gives the new file the owner and the group of the old one. Where
// the system does not let a person give files away, the group alone is tried,
// and what cannot be kept is not: the person may change the ledger all the
// same.
func (t osTemp) likeOwner(old fs.FileInfo) error {
	info, err := t.Stat()
	if err != nil {
		return err
	}
	was, ok1 := old.Sys().(*syscall.Stat_t)
	is, ok2 := info.Sys().(*syscall.Stat_t)
	if !ok1 || !ok2 || (was.Uid == is.Uid && was.Gid == is.Gid) {
		return nil
	}
	if t.Chown(int(was.Uid), int(was.Gid)) != nil {
		_ = t.Chown(-1, int(was.Gid)) // as far as it goes
	}
	return nil
}

// mask is the user's mask of permissions. It can only be read by setting it; the
// program makes no other file at that moment.
func mask() fs.FileMode {
	old := syscall.Umask(0o077)
	syscall.Umask(old)
	return fs.FileMode(old) & fs.ModePerm
}

// otherNames counts the names that a file has beside the one it was found by.
func otherNames(of fs.FileInfo) int {
	if stat, ok := of.Sys().(*syscall.Stat_t); ok && stat.Nlink > 1 {
		return int(stat.Nlink) - 1
	}
	return 0
}

// cannotSync reports whether a file system has no way to sync a folder.
func cannotSync(err error) bool {
	return errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP)
}

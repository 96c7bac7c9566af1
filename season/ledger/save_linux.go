package ledger

import (
	"encoding/binary"
	"errors"
	"io/fs"
	"os"
	"strings"

	"golang.org/x/sys/unix"
)

// exchange lets two files change places in one step.
func (osDisk) exchange(one, other string) error {
	err := unix.Renameat2(unix.AT_FDCWD, one, unix.AT_FDCWD, other, unix.RENAME_EXCHANGE)
	if errors.Is(err, unix.EINVAL) || errors.Is(err, unix.ENOSYS) || errors.Is(err, unix.ENOTSUP) {
		return errNoExchange
	}
	return err
}

// accessList is the attribute in which a file system keeps who else may read and
// write a file.
const accessList = "system.posix_acl_access"

// likeExtras gives the new file the access list and the attributes of the one of
// that path. Where it has an access list the group's permission bits are only a
// bound on the list, so that a list that cannot be kept leaves the group no more
// than the list gave it. A list that the folder gives new files goes where the
// old file has none. kept is false where something was lost that was not the
// system's own.
func (t osTemp) likeExtras(path string) (kept bool, err error) {
	if path == "" {
		return true, nil
	}
	names, err := attributes(path)
	if err != nil {
		return false, nil //nolint:nilerr // a file system that cannot say what it keeps is no reason to change nothing
	}
	kept, listed := true, false
	for _, name := range names {
		value, err := attribute(path, name)
		if err == nil {
			err = unix.Fsetxattr(int(t.Fd()), name, value, 0)
		}
		listed = listed || name == accessList
		switch {
		case err == nil || isSystems(name):
		case name == accessList:
			kept = false
			if err := t.groupOnly(value); err != nil {
				return false, err
			}
		default:
			kept = false
		}
	}
	if !listed {
		return kept, t.withoutAccessList()
	}
	return kept, nil
}

// isSystems reports attributes that the system sets by itself.
func isSystems(name string) bool {
	return strings.HasPrefix(name, "security.") || strings.HasPrefix(name, "trusted.")
}

// attributes are the names of a file's extended attributes.
func attributes(path string) ([]string, error) {
	size, err := unix.Llistxattr(path, nil)
	if errors.Is(err, unix.ENOTSUP) || err == nil && size == 0 {
		return nil, nil
	}
	list := make([]byte, max(size, 0)+256)
	if err == nil {
		size, err = unix.Llistxattr(path, list)
	}
	if err != nil {
		return nil, err
	}
	return strings.FieldsFunc(string(list[:size]), func(r rune) bool { return r == 0 }), nil
}

func attribute(path, name string) ([]byte, error) {
	size, err := unix.Lgetxattr(path, name, nil)
	if err != nil {
		return nil, err
	}
	value := make([]byte, size)
	size, err = unix.Lgetxattr(path, name, value)
	if err != nil {
		return nil, err
	}
	return value[:size], nil
}

// withoutAccessList removes a list that a folder gave the new file.
func (t osTemp) withoutAccessList() error {
	info, err := t.Stat()
	if err != nil {
		return err
	}
	err = unix.Fremovexattr(int(t.Fd()), accessList)
	if errors.Is(err, unix.ENODATA) || errors.Is(err, unix.ENOTSUP) {
		return nil
	}
	if err != nil {
		return err
	}
	return t.Chmod(info.Mode())
}

// The layout of an access list, as the kernel's header posix_acl_xattr.h has it:
// a version in four bytes, then entries of eight: tag, permissions, who.
const (
	listHead  = 4
	listEntry = 8
	ownGroup  = 0x04
)

// groupOnly leaves the group what an access list gives it, not the bound on the
// whole list.
func (t osTemp) groupOnly(list []byte) error {
	info, err := t.Stat()
	if err != nil {
		return err
	}
	group := fs.FileMode(0)
	for at := listHead; at+listEntry <= len(list); at += listEntry {
		if binary.LittleEndian.Uint16(list[at:]) == ownGroup {
			group = fs.FileMode(binary.LittleEndian.Uint16(list[at+2:])&7) << 3
		}
	}
	return os.Chmod(t.Name(), info.Mode()&^0o070|info.Mode()&group)
}

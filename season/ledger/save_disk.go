package ledger

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/gofrs/flock"
)

// osDisk is the file system. The library for whole-file replacement that the
// commands use elsewhere syncs no folder and cannot be stopped between two
// steps, so the ledger has its own.
type osDisk struct{}

func (osDisk) reached(string) {}

func (osDisk) resolve(path string) (string, error) { return Disk{}.Locate(path) }

func (osDisk) list(dir string) ([]fs.DirEntry, error) { return os.ReadDir(dir) }

func (osDisk) stat(path string) (fs.FileInfo, error) { return os.Stat(path) }

func (osDisk) same(one, other fs.FileInfo) bool { return os.SameFile(one, other) }

func (osDisk) link(from, to string) error { return os.Link(from, to) }

func (osDisk) rename(from, to string) error { return os.Rename(from, to) }

func (osDisk) remove(path string) error { return os.Remove(path) }

// read reads a file that may be written: replacing a file asks only for the
// folder's permission, but who took the file's own away did not want it
// changed.
func (osDisk) read(path string) (string, fs.FileInfo, error) {
	if info, err := os.Stat(path); err != nil || !info.Mode().IsRegular() {
		return "", nil, errors.Join(err, notRegular(info))
	}
	f, err := os.OpenFile(path, os.O_RDWR|withoutWaiting, 0)
	if err != nil {
		return "", nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return "", nil, err
	}
	text, err := ReadText(f, path, info.Size())
	return text, info, err
}

// notRegular says so of a file that is there.
func notRegular(info fs.FileInfo) error {
	if info == nil {
		return nil
	}
	return ErrNotRegular
}

// lockRetry is how often a lock that is held is tried again.
const lockRetry = 5 * time.Millisecond

// lock takes an advisory lock: an exclusive flock on the file `.NAME.lock`
// beside the ledger. The ledger itself cannot bear the lock, because each change
// puts another file in its place, and with it another lock. The system drops an
// flock with the process that holds it, so a crash leaves nothing to break.
//
// The lock file is removed before it is let go, so that none stays in the
// person's folder. Whoever waited for it then holds a file that has lost its
// name; that is noticed, and the lock taken anew.
func (d osDisk) lock(path string, wait time.Duration) (unlock func(), err error) {
	ctx, cancel := context.WithTimeout(context.Background(), wait)
	defer cancel()
	name := beside(path, lockSuffix)
	for {
		l, err := d.tryLock(ctx, name)
		if err != nil {
			return nil, err
		}
		if inPlace(l, name) {
			return func() {
				_ = os.Remove(name) // where it cannot be removed it stays, and locks as well
				_ = l.Unlock()
			}, nil
		}
		if err := l.Unlock(); err != nil {
			return nil, err
		}
	}
}

// tryLock locks the file of that name as soon as it can be had. Everybody who
// may change the ledger must be able to lock it, whoever made the file: it says
// nothing, so it is readable for all. One that cannot be opened was left by a
// process that ended before it could say so, or by another program; when it is
// old nobody can be holding it.
func (osDisk) tryLock(ctx context.Context, name string) (*flock.Flock, error) {
	if info, err := os.Lstat(name); err == nil && !info.Mode().IsRegular() {
		return nil, &fs.PathError{Op: "lock", Path: name, Err: fmt.Errorf("%s is not a plain file", filepath.Base(name))}
	}
	var last error
	for _, how := range []int{os.O_RDONLY, os.O_RDONLY | os.O_CREATE} { // some folders let nobody create what another has
		l := flock.New(name, flock.SetPermissions(lockMode), flock.SetFlag(how|withoutWaiting))
		_, err := l.TryLockContext(ctx, lockRetry)
		switch {
		case err == nil:
			_ = os.Chmod(name, lockMode) // whatever the mask: only its maker can, and need not again
			return l, nil
		case errors.Is(err, context.DeadlineExceeded):
			return nil, ErrBusy
		case errors.Is(err, fs.ErrPermission) && isOld(name) && os.Remove(name) == nil, errors.Is(err, fs.ErrNotExist):
			last = err
		default:
			return nil, err
		}
	}
	return nil, last
}

// lockSuffix follows the name of what is locked.
const lockSuffix = ".lock"

// Claim has a file's name for this process alone, by the lock file NAME.lock, until it
// is let go or the process ends. It waits for nobody: it is ErrBusy where somebody has
// it. The file itself need not be there.
func Claim(path string) (letGo func(), err error) {
	name := path + lockSuffix
	for {
		how := os.O_RDONLY
		if _, err := os.Lstat(name); errors.Is(err, fs.ErrNotExist) {
			how |= os.O_CREATE
		}
		l := flock.New(name, flock.SetPermissions(lockMode), flock.SetFlag(how|withoutWaiting))
		taken, err := l.TryLock()
		switch {
		case errors.Is(err, fs.ErrNotExist) && how == os.O_RDONLY: // let go meanwhile
			continue
		case err != nil:
			return nil, err
		case !taken:
			return nil, ErrBusy
		case inPlace(l, name):
			return func() {
				_ = os.Remove(name) // where it cannot be removed it stays, and locks as well
				_ = l.Unlock()
			}, nil
		}
		if err := l.Unlock(); err != nil {
			return nil, err
		}
	}
}

// Locked reports whether the file by which a name is claimed is there: without it nobody
// has the name.
func Locked(path string) bool {
	_, err := os.Lstat(path + lockSuffix)
	return err == nil
}

// lockMode is that of a lock file.
const lockMode = 0o666

// lockIsOld is the age from which nobody holds a lock any more: a change takes
// milliseconds.
const lockIsOld = time.Minute

// isOld reports whether a lock file was made so long ago.
func isOld(name string) bool {
	info, err := os.Stat(name)
	return err == nil && time.Since(info.ModTime()) > lockIsOld
}

// inPlace reports whether the file that is locked is still the one of that
// name.
func inPlace(l *flock.Flock, name string) bool {
	held, err := l.Stat()
	if err != nil {
		return false
	}
	there, err := os.Stat(name)
	return err == nil && os.SameFile(held, there)
}

// beside is a hidden name next to a file. Of a long name the beginning and a sum
// stand for the whole, so that what is added to it never makes it too long.
func beside(path, suffix string) string {
	name := filepath.Base(path)
	if len(name) > longestBeside {
		sum := sha256.Sum256([]byte(name))
		name = strings.ToValidUTF8(name[:longestBeside-2*shortSum-1], "") + "~" + hex.EncodeToString(sum[:shortSum])
	}
	return filepath.Join(filepath.Dir(path), "."+name+suffix)
}

// Beside is a hidden name for what is kept beside a ledger, by any part of the
// program; see beside.
func Beside(path, suffix string) string { return beside(path, suffix) }

// longestBeside is how much of a file's name goes into a hidden one, in bytes:
// file systems take 255, and suffixes are added to suffixes.
const longestBeside = 200

// shortSum is the bytes of a sum that tells long names apart.
const shortSum = 6

// tempSuffix and 16 hexadecimal digits follow the ledger's name in that of a
// temporary file.
const tempSuffix = ".new-"

const tempDigits = 16

func tempName(path string) (string, error) {
	random := make([]byte, tempDigits/2)
	if _, err := rand.Read(random); err != nil {
		return "", err
	}
	return beside(path, tempSuffix+hex.EncodeToString(random)), nil
}

// isTempName reports whether a name is that of a temporary file of a ledger.
func isTempName(name, path string) bool {
	digits, ok := strings.CutPrefix(name, filepath.Base(beside(path, tempSuffix)))
	return ok && len(digits) == tempDigits && strings.Trim(digits, "0123456789abcdef") == ""
}

// create makes a file that is not there yet, for its owner alone until it has
// the ledger's permissions.
func (osDisk) create(path string) (tempFile, error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return nil, err
	}
	return osTemp{f}, nil
}

type osTemp struct{ *os.File }

// likeMode gives the new file the permissions of the old one.
func (t osTemp) likeMode(old fs.FileInfo) error { return t.Chmod(old.Mode()) }

func (osDisk) openFolder(path string) (folder, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	return osFolder{f}, nil
}

type osFolder struct{ *os.File }

// Sync brings the folder's entries to the disk, where that can be asked for.
func (f osFolder) Sync() error {
	if err := f.File.Sync(); err != nil && !cannotSync(err) {
		return err
	}
	return nil
}

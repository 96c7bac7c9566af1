package ledger

import (
	"encoding/binary"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// savingDisk is an editor that saves between the last look at the ledger and the
// moment at which the new text gets its name.
type savingDisk struct {
	osDisk
	save  func()
	saved *int
}

func (d savingDisk) exchange(one, other string) error {
	if *d.saved++; *d.saved == 1 {
		d.save()
	}
	return d.osDisk.exchange(one, other)
}

// TestChangeKeepsASaveInTheLastMoment holds that what another program saves in
// that moment stays, in its place or as a new file.
func TestChangeKeepsASaveInTheLastMoment(t *testing.T) {
	for name, save := range map[string]func(path string) error{
		"in place": func(path string) error { return os.WriteFile(path, []byte("pilot mara\n"), 0o644) },
		"by rename": func(path string) error {
			return errors.Join(os.WriteFile(path+"~", []byte("pilot mara\n"), 0o644), os.Rename(path+"~", path))
		},
		"of the same bytes as another file": func(path string) error {
			return errors.Join(os.WriteFile(path+"~", []byte(oldText), 0o600), os.Rename(path+"~", path))
		},
	} {
		t.Run(name, func(t *testing.T) {
			path, times := newBook(t, oldText), 0
			d := savingDisk{saved: &times, save: func() { require.NoError(t, save(path)) }}
			err := changer{disk: d, shown: path, wait: time.Second}.change(appendLine("new"), agree)
			require.ErrorIs(t, err, ErrMeanwhile)
			raw, err := os.ReadFile(path)
			require.NoError(t, err)
			require.NotContains(t, string(raw), "new")
			require.Equal(t, name == "of the same bytes as another file", string(raw) == oldText)
			requireAlone(t, filepath.Dir(path), "book.boxbook")
		})
	}
}

// hastyEditor saves twice: before the exchange and before it is taken back.
type hastyEditor struct {
	osDisk
	path string
	n    *int
}

func (d hastyEditor) exchange(one, other string) error {
	*d.n++
	if err := os.WriteFile(d.path+"~", []byte(strings.Repeat("m", *d.n)), 0o644); err != nil {
		return err
	}
	if err := os.Rename(d.path+"~", d.path); err != nil {
		return err
	}
	return d.osDisk.exchange(one, other)
}

// TestChangeKeepsTwoSaves holds that of two saves in the same moment neither is
// lost.
func TestChangeKeepsTwoSaves(t *testing.T) {
	path, n := newBook(t, oldText), 0
	err := changer{disk: hastyEditor{path: path, n: &n}, shown: path, wait: time.Second}.change(appendLine("new"), agree)
	require.ErrorIs(t, err, ErrMeanwhile)
	requireFile(t, path, "m")
	aside, err := filepath.Glob(filepath.Join(filepath.Dir(path), ".*.saved"))
	require.NoError(t, err)
	require.Len(t, aside, 1)
	requireFile(t, aside[0], "mm")
}

// accessListOf is a list in the layout of the kernel's header posix_acl_xattr.h:
// the owner reads and writes, the group reads nothing, the user of that number
// reads and writes, and so far goes the bound.
func accessListOf(user uint32) []byte {
	const userObj, userOne, groupObj, mask, other = 0x01, 0x02, 0x04, 0x10, 0x20
	const nobodyElse = 0xffffffff
	list := binary.LittleEndian.AppendUint32(nil, 2)
	for _, e := range []struct {
		tag, perm uint16
		who       uint32
	}{{userObj, 6, nobodyElse}, {userOne, 6, user}, {groupObj, 0, nobodyElse}, {mask, 6, nobodyElse}, {other, 0, nobodyElse}} {
		list = binary.LittleEndian.AppendUint16(list, e.tag)
		list = binary.LittleEndian.AppendUint16(list, e.perm)
		list = binary.LittleEndian.AppendUint32(list, e.who)
	}
	return list
}

// TestChangeKeepsAccessListAndAttributes holds that who could read the ledger
// still can, and that nobody else may do more than before.
func TestChangeKeepsAccessListAndAttributes(t *testing.T) {
	path := newBook(t, oldText)
	require.NoError(t, os.Chmod(path, 0o600))
	if err := unix.Setxattr(path, accessList, accessListOf(nobody), 0); errors.Is(err, unix.ENOTSUP) {
		t.Skip("this file system keeps no access lists")
	} else {
		require.NoError(t, err)
	}
	require.NoError(t, unix.Setxattr(path, "user.colour", []byte("blue"), 0))
	before, err := os.Stat(path)
	require.NoError(t, err)
	require.NoError(t, Change(path, appendLine("new"), agree))
	after, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, before.Mode(), after.Mode())
	list, err := attribute(path, accessList)
	require.NoError(t, err)
	require.Equal(t, accessListOf(nobody), list)
	colour, err := attribute(path, "user.colour")
	require.NoError(t, err)
	require.Equal(t, "blue", string(colour))
}

// TestGroupGetsNoBound holds that a list that cannot be kept leaves the group what
// the list gave it.
func TestGroupGetsNoBound(t *testing.T) {
	path := newBook(t, oldText)
	require.NoError(t, os.Chmod(path, 0o660)) // the bound shows as the group's bits
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	require.NoError(t, err)
	defer f.Close()
	require.NoError(t, osTemp{f}.groupOnly(accessListOf(nobody)))
	info, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), info.Mode())
}

// TestChangeTakesNoListFromItsFolder holds that a list that a folder gives new
// files does not open a ledger that has none.
func TestChangeTakesNoListFromItsFolder(t *testing.T) {
	path := newBook(t, oldText)
	require.NoError(t, os.Chmod(path, 0o640))
	if err := unix.Setxattr(filepath.Dir(path), "system.posix_acl_default", accessListOf(nobody), 0); errors.Is(err, unix.ENOTSUP) {
		t.Skip("this file system keeps no access lists")
	} else {
		require.NoError(t, err)
	}
	require.NoError(t, Change(path, appendLine("new"), agree))
	_, err := attribute(path, accessList)
	require.ErrorIs(t, err, unix.ENODATA)
	info, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o640), info.Mode())
}

// TestChangeSaysHardLinks holds that other names of a ledger keep the former
// text, and that this is said.
func TestChangeSaysHardLinks(t *testing.T) {
	path := newBook(t, oldText)
	other := filepath.Join(t.TempDir(), "other.boxbook")
	require.NoError(t, os.Link(path, other))
	j, err := StartJournal(path, "log", noon(), Watch{})
	require.NoError(t, err)
	defer j.Close()
	require.NoError(t, changeKept(path, j, appendLine("new"), agree))
	require.Equal(t, []string{"book.boxbook had 1 other name (hard links), which keep the former text"}, j.Notes())
	requireFile(t, other, oldText)
	requireFile(t, path, oldText+"new\n")
	require.Equal(t, 1, j.Made())
}

// TestReadingWaitsForNoPipe holds that a ledger, an include and a lock that are
// pipes are refused at once.
func TestReadingWaitsForNoPipe(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe.boxbook")
	require.NoError(t, syscall.Mkfifo(pipe, 0o644))
	_, err := Disk{}.Read(pipe)
	require.ErrorIs(t, err, ErrNotRegular)

	path := newBook(t, "include \"pipe.boxbook\"\n")
	require.NoError(t, syscall.Mkfifo(filepath.Join(filepath.Dir(path), "pipe.boxbook"), 0o644))
	result, err := Load(Options{Files: Disk{}, Main: path})
	require.NoError(t, err)
	require.Contains(t, result.Diagnostics[0].Message, "it is not a plain file")

	path = newBook(t, oldText)
	require.NoError(t, syscall.Mkfifo(beside(path, ".lock"), 0o644))
	require.EqualError(t, Change(path, appendLine("new"), agree),
		"cannot make a lock file beside "+path+": .book.boxbook.lock is not a plain file; the ledger is as it was")
}

// TestLocksOfOthers holds that a lock file that somebody else left blocks nobody,
// unless it may still be held.
func TestLocksOfOthers(t *testing.T) {
	path := newBook(t, oldText)
	dir := filepath.Dir(path)
	lock := beside(path, ".lock")
	require.NoError(t, os.WriteFile(lock, nil, 0o600))
	require.NoError(t, os.Chmod(path, 0o666))
	require.NoError(t, os.Chmod(dir, 0o777))
	if os.Getuid() != 0 {
		t.Skip("only root can become somebody else")
	}
	says := failing(t, child(t, path, "new", asNobody(t, dir)...))
	require.Contains(t, says, "permission denied", "a fresh one may be held")
	old := time.Now().Add(-2 * lockIsOld)
	require.NoError(t, os.Chtimes(lock, old, old))
	out, err := child(t, path, "new", asNobody(t, dir)...).CombinedOutput()
	require.NoError(t, err, "%s", out)
	requireFile(t, path, oldText+"new\n")
	requireAlone(t, dir, "book.boxbook")

	// One that this program makes can be opened by everybody, whatever the mask.
	mask := syscall.Umask(0o077)
	unlock, err := osDisk{}.lock(path, time.Second)
	syscall.Umask(mask)
	require.NoError(t, err)
	info, err := os.Stat(lock)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(lockMode), info.Mode())
	unlock()
}

// TestChangeOfALongName holds that every name that a folder takes can be changed,
// with a journal.
func TestChangeOfALongName(t *testing.T) {
	for _, name := range []string{strings.Repeat("n", 247) + ".boxbook", strings.Repeat("é", 123) + ".boxbook", strings.Repeat("n", 200)} {
		path := filepath.Join(t.TempDir(), name)
		require.NoError(t, os.WriteFile(path, []byte(oldText), 0o644))
		j, err := StartJournal(path, "log", noon(), Watch{})
		require.NoError(t, err)
		require.NoError(t, changeKept(path, j, appendLine("new"), agree))
		require.Empty(t, j.Notes())
		j.Close()
		requireFile(t, path, oldText+"new\n")
		entries, err := os.ReadDir(filepath.Dir(path))
		require.NoError(t, err)
		require.Len(t, entries, 2, "the ledger and its journal")
	}
}

// TestChangeThatIsStopped holds that a change that is no longer wanted leaves
// nothing behind, also while it waits for another one.
func TestChangeThatIsStopped(t *testing.T) {
	path := newBook(t, oldText)
	stop := Watch{Stopped: func() bool { return true }}
	err := changer{disk: osDisk{}, shown: path, wait: time.Second, watch: stop}.change(appendLine("new"), agree)
	require.ErrorIs(t, err, ErrStopped)
	require.EqualError(t, err, "cannot change "+path+": it was stopped; the ledger is as it was")
	requireFile(t, path, oldText)
	requireAlone(t, filepath.Dir(path), "book.boxbook")

	unlock, err := osDisk{}.lock(path, time.Second)
	require.NoError(t, err)
	defer unlock()
	started := time.Now()
	err = changer{disk: osDisk{}, shown: path, wait: time.Minute, watch: stop}.change(appendLine("new"), agree)
	require.ErrorIs(t, err, ErrStopped)
	require.Less(t, time.Since(started), 10*time.Second)
	waited := 0
	err = changer{disk: osDisk{}, shown: path, wait: 2*patience + time.Millisecond, watch: Watch{Waiting: func() { waited++ }}}.change(appendLine("new"), agree)
	require.ErrorIs(t, err, ErrBusy)
	require.Equal(t, 1, waited, "said once")
}

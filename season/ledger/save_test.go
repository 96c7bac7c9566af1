package ledger

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// requireFile holds a file to its bytes.
func requireFile(t testing.TB, path, want string) {
	t.Helper()
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, want, string(raw))
}

// requireAlone holds that a folder has these files and nothing else: no
// temporary file, no lock.
func requireAlone(t testing.TB, dir string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var found []string
	for _, entry := range entries {
		found = append(found, entry.Name())
	}
	require.Equal(t, names, found)
}

// newBook writes a ledger into a folder of its own.
func newBook(t testing.TB, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return path
}

func appendLine(line string) func(string) (string, error) {
	return func(text string) (string, error) { return text + line + "\n", nil }
}

func agree(string) error { return nil }

const oldText = "pilot ines\n"

func TestChange(t *testing.T) {
	path := newBook(t, oldText)
	var checked string
	require.NoError(t, Change(path, appendLine("pilot yuki"), func(text string) error { checked = text; return nil }))
	requireFile(t, path, "pilot ines\npilot yuki\n")
	require.Equal(t, "pilot ines\npilot yuki\n", checked)
	requireAlone(t, filepath.Dir(path), "book.boxbook")
}

// TestChangeOfNothing holds that a text that stays is not written again.
func TestChangeOfNothing(t *testing.T) {
	path := newBook(t, oldText)
	before, err := os.Stat(path)
	require.NoError(t, err)
	never := func(string) error { return errors.New("checked") }
	require.NoError(t, Change(path, func(text string) (string, error) { return text, nil }, never))
	after, err := os.Stat(path)
	require.NoError(t, err)
	require.True(t, os.SameFile(before, after))
	requireAlone(t, filepath.Dir(path), "book.boxbook")
}

// TestChangeGivesErrorsBack holds that what edit and check say is not dressed
// up, and that nothing is written then.
func TestChangeGivesErrorsBack(t *testing.T) {
	path, refused := newBook(t, oldText), errors.New("refused")
	require.Equal(t, refused, Change(path, func(string) (string, error) { return "x", refused }, agree))
	require.Equal(t, refused, Change(path, appendLine("x"), func(string) error { return refused }))
	requireFile(t, path, oldText)
	requireAlone(t, filepath.Dir(path), "book.boxbook")
}

// faultyDisk fails at one step, and keeps a list of all steps.
type faultyDisk struct {
	osDisk
	fail    string
	steps   *[]string
	renames bool // files cannot be exchanged
}

var errDisk = errors.New("the disk is on fire")

func (d faultyDisk) step(name string) error {
	*d.steps = append(*d.steps, name)
	if name == d.fail {
		return errDisk
	}
	return nil
}

func (d faultyDisk) resolve(path string) (string, error) {
	if err := d.step("resolve"); err != nil {
		return "", err
	}
	return d.osDisk.resolve(path)
}

func (d faultyDisk) lock(path string, wait time.Duration) (func(), error) {
	if err := d.step("lock"); err != nil {
		return nil, err
	}
	return d.osDisk.lock(path, wait)
}

func (d faultyDisk) list(dir string) ([]fs.DirEntry, error) {
	if err := d.step("list"); err != nil {
		return nil, err
	}
	return d.osDisk.list(dir)
}

func (d faultyDisk) read(path string) (string, fs.FileInfo, error) {
	name := "read"
	if strings.Contains(filepath.Base(path), tempSuffix) {
		name = "read back"
	}
	if err := d.step(name); err != nil {
		return "", nil, err
	}
	return d.osDisk.read(path)
}

func (d faultyDisk) stat(path string) (fs.FileInfo, error) {
	if err := d.step("stat"); err != nil {
		return nil, err
	}
	return d.osDisk.stat(path)
}

func (d faultyDisk) rename(from, to string) error {
	if err := d.step("rename"); err != nil {
		return err
	}
	return d.osDisk.rename(from, to)
}

func (d faultyDisk) exchange(one, other string) error {
	if d.renames {
		return errNoExchange
	}
	if err := d.step("exchange"); err != nil {
		return err
	}
	return d.osDisk.exchange(one, other)
}

func (d faultyDisk) openFolder(path string) (folder, error) {
	if err := d.step("open folder"); err != nil {
		return nil, err
	}
	f, err := d.osDisk.openFolder(path)
	return faultyFolder{f, d}, err
}

func (d faultyDisk) create(path string) (tempFile, error) {
	if err := d.step("create"); err != nil {
		return nil, err
	}
	f, err := d.osDisk.create(path)
	return faultyTemp{f, d}, err
}

type faultyFolder struct {
	folder
	d faultyDisk
}

func (f faultyFolder) Sync() error {
	if err := f.d.step("sync folder"); err != nil {
		return err
	}
	return f.folder.Sync()
}

type faultyTemp struct {
	tempFile
	d faultyDisk
}

func (f faultyTemp) WriteString(text string) (int, error) {
	if err := f.d.step("write"); err != nil {
		n, _ := f.tempFile.WriteString(text[:len(text)/2])
		return n, err
	}
	return f.tempFile.WriteString(text)
}

func (f faultyTemp) likeOwner(of fs.FileInfo) error {
	return errors.Join(f.d.step("owner"), f.tempFile.likeOwner(of))
}

func (f faultyTemp) likeMode(of fs.FileInfo) error {
	return errors.Join(f.d.step("mode"), f.tempFile.likeMode(of))
}

func (f faultyTemp) likeExtras(of string) (bool, error) {
	kept, err := f.tempFile.likeExtras(of)
	return kept, errors.Join(f.d.step("extras"), err)
}

func (f faultyTemp) Sync() error { return errors.Join(f.d.step("sync"), f.tempFile.Sync()) }

func (f faultyTemp) Close() error { return errors.Join(f.d.step("close"), f.tempFile.Close()) }

// saveSteps are the steps of a change in their order. That the bytes are on the
// disk before they bear the ledger's name, and the name is before all is said
// to be done, is what makes a crash harmless.
var saveSteps = []saveStep{
	{"resolve", "cannot find BOOK: the disk is on fire; the ledger is as it was"},
	{"lock", "cannot make a lock file beside BOOK: the disk is on fire; the ledger is as it was"},
	{"list", ""},
	{"read", "cannot open BOOK: the disk is on fire; the ledger is as it was"},
	{"open folder", "cannot open the folder of BOOK: the disk is on fire; the ledger is as it was"},
	{"create", "cannot write a temporary file beside BOOK: the disk is on fire; the ledger is as it was"},
	{"write", "cannot write the new text of BOOK: the disk is on fire; the ledger is as it was"},
	{"owner", "cannot keep the owner of BOOK: the disk is on fire; the ledger is as it was"},
	{"mode", "cannot keep the permissions of BOOK: the disk is on fire; the ledger is as it was"},
	{"extras", "cannot keep who may read BOOK: the disk is on fire; the ledger is as it was"},
	{"sync", "cannot sync the new text of BOOK: the disk is on fire; the ledger is as it was"},
	{"close", "cannot close the new text of BOOK: the disk is on fire; the ledger is as it was"},
	{"stat", "cannot look at BOOK: the disk is on fire; the ledger is as it was"},
}

// The end of a change, where files can be exchanged and where they cannot.
var (
	exchangeSteps = []saveStep{
		{"exchange", "cannot replace BOOK: the disk is on fire; the ledger is as it was"},
		{"read back", "cannot change BOOK: another program changed it meanwhile; try again; what it saved last is in SAVED; the ledger is as it was"},
		lastStep,
	}
	renameSteps = []saveStep{
		{"rename", "cannot replace BOOK: the disk is on fire; the ledger is as it was"},
		lastStep,
	}
	lastStep = saveStep{"sync folder", "BOOK is changed, but the system could not sync its folder: the disk is on fire"}
)

// saveStep is a step of a change, and what is said where it fails; "" where that
// does no harm.
type saveStep struct{ name, says string }

// TestChangeStepByStep lets each step fail: the ledger is as it was, nothing is
// left lying about, and the error says what could not be done.
func TestChangeStepByStep(t *testing.T) {
	if runtime.GOOS == "linux" { // elsewhere files cannot be exchanged
		t.Run("exchange", func(t *testing.T) { changeStepByStep(t, false, exchangeSteps) })
	}
	t.Run("rename", func(t *testing.T) { changeStepByStep(t, true, renameSteps) })
}

func changeStepByStep(t *testing.T, renames bool, end []saveStep) {
	var all []string
	require.NoError(t, changer{disk: faultyDisk{steps: &all, renames: renames}, shown: newBook(t, oldText), wait: time.Second}.change(appendLine("new"), agree))
	steps := slices.Concat(saveSteps, end)
	require.Len(t, all, len(steps))
	for i, step := range steps {
		require.Equal(t, step.name, all[i])
		t.Run(step.name, func(t *testing.T) {
			path, done := newBook(t, oldText), []string{}
			err := changer{disk: faultyDisk{fail: step.name, steps: &done, renames: renames}, shown: path, wait: time.Second}.change(appendLine("new"), agree)
			want := oldText
			if step.says == "" {
				require.NoError(t, err)
				want += "new\n"
			} else {
				var failed *ChangeError
				require.ErrorAs(t, err, &failed)
				require.Equal(t, strings.ReplaceAll(step.says, "BOOK", path), savedName.ReplaceAllString(err.Error(), "SAVED"))
				require.Equal(t, step.name == "sync folder", failed.Changed)
				if failed.Changed {
					want += "new\n"
				}
			}
			requireFile(t, path, want)
			if step.name == "read back" { // what cannot be read is not thrown away
				return
			}
			requireAlone(t, filepath.Dir(path), "book.boxbook")
		})
	}
}

var savedName = regexp.MustCompile(`\.book\.boxbook\S*\.saved`)

// TestChangeFollowsLinks holds that a link stays a link, and what it points to
// is changed.
func TestChangeFollowsLinks(t *testing.T) {
	path := newBook(t, oldText)
	elsewhere := t.TempDir()
	first, second := filepath.Join(elsewhere, "first.boxbook"), filepath.Join(elsewhere, "second.boxbook")
	require.NoError(t, os.Symlink(path, first))
	require.NoError(t, os.Symlink("first.boxbook", second))
	require.NoError(t, Change(second, appendLine("new"), agree))
	requireFile(t, path, oldText+"new\n")
	requireFile(t, second, oldText+"new\n")
	for _, link := range []string{first, second} {
		info, err := os.Lstat(link)
		require.NoError(t, err)
		require.Equal(t, fs.ModeSymlink, info.Mode().Type())
	}
	requireAlone(t, elsewhere, "first.boxbook", "second.boxbook")
	requireAlone(t, filepath.Dir(path), "book.boxbook")
}

// TestChangeKeepsPermissions holds a file's permissions, even those that no new
// file would get.
func TestChangeKeepsPermissions(t *testing.T) {
	for _, mode := range []fs.FileMode{0o600, 0o640, 0o664, 0o666, 0o755} {
		path := newBook(t, oldText)
		require.NoError(t, os.Chmod(path, mode))
		require.NoError(t, Change(path, appendLine("new"), agree))
		info, err := os.Stat(path)
		require.NoError(t, err)
		require.Equal(t, mode, info.Mode())
	}
}

// TestChangeRefuses holds what is no ledger that can be changed.
func TestChangeRefuses(t *testing.T) {
	dir := t.TempDir()
	dangling := filepath.Join(dir, "dangling")
	require.NoError(t, os.Symlink("nowhere", dangling))
	for path, says := range map[string]string{
		dir:                        "cannot open PATH: it is not a plain file; the ledger is as it was",
		dangling:                   "cannot find PATH: no such file or directory; the ledger is as it was",
		filepath.Join(dir, "none"): "cannot find PATH: no such file or directory; the ledger is as it was",
	} {
		err := Change(path, appendLine("new"), agree)
		require.EqualError(t, err, strings.ReplaceAll(says, "PATH", path))
	}
	requireAlone(t, dir, "dangling")
}

// TestChangeWaitsForTheLock holds that a change waits while another one is
// under way, gives up in the end, and says why.
func TestChangeWaitsForTheLock(t *testing.T) {
	path := newBook(t, oldText)
	unlock, err := osDisk{}.lock(path, time.Second)
	require.NoError(t, err)
	err = changer{disk: osDisk{}, shown: path, wait: 50 * time.Millisecond}.change(appendLine("new"), agree)
	require.ErrorIs(t, err, ErrBusy)
	require.EqualError(t, err, "cannot change "+path+": another boxbook is changing it; try again; the ledger is as it was")
	requireFile(t, path, oldText)
	go func() {
		time.Sleep(50 * time.Millisecond)
		unlock()
	}()
	require.NoError(t, Change(path, appendLine("new"), agree))
	requireFile(t, path, oldText+"new\n")
	requireAlone(t, filepath.Dir(path), "book.boxbook")
}

// TestChangeSeesOtherPrograms holds that what a program without locks saved
// meanwhile is not written over.
func TestChangeSeesOtherPrograms(t *testing.T) {
	path := newBook(t, oldText)
	for name, save := range map[string]func() error{
		"in place": func() error { return os.WriteFile(path, []byte("pilot mara\n"), 0o644) },
		// A copy that keeps its time, of the same length, is another file all the same.
		"by rename": func() error {
			info, err := os.Stat(path)
			return errors.Join(err, os.WriteFile(path+"~", []byte("pilot mara\n"), 0o644),
				os.Chtimes(path+"~", info.ModTime(), info.ModTime()), os.Rename(path+"~", path))
		},
	} {
		require.NoError(t, os.WriteFile(path, []byte(oldText), 0o644))
		time.Sleep(20 * time.Millisecond) // file systems count time in steps
		err := Change(path, appendLine("new"), func(string) error { return save() })
		require.ErrorIs(t, err, ErrMeanwhile, name)
		requireFile(t, path, "pilot mara\n")
		requireAlone(t, filepath.Dir(path), "book.boxbook")
	}
}

// TestChangeClearsAway holds that the leavings of a change that was cut off are
// removed, and nothing else is.
func TestChangeClearsAway(t *testing.T) {
	path := newBook(t, oldText)
	dir := filepath.Dir(path)
	stale := []string{".book.boxbook.new-0123456789abcdef", ".book.boxbook.new-ffffffffffffffff", ".book.boxbook.lock"}
	others := []string{
		".book.boxbook.new-0123456789ABCDEF", ".book.boxbook.new-0123", ".book.boxbook.new-0123456789abcdef~",
		".other.boxbook.new-0123456789abcdef", "book.boxbook.new-0123456789abcdef", "book.boxbook.bak",
	}
	for _, name := range append(stale, others...) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte("half a led"), 0o600))
	}
	folder := ".book.boxbook.new-00000000000000aa"
	require.NoError(t, os.Mkdir(filepath.Join(dir, folder), 0o755))
	require.NoError(t, Change(path, func(text string) (string, error) { return text, nil }, agree))
	for _, name := range stale {
		require.NoFileExists(t, filepath.Join(dir, name))
	}
	for _, name := range others {
		requireFile(t, filepath.Join(dir, name), "half a led")
	}
	require.DirExists(t, filepath.Join(dir, folder))
}

// TestChangeFromManyGoroutines holds that no change is lost among fifty at
// once.
func TestChangeFromManyGoroutines(t *testing.T) {
	path := newBook(t, oldText)
	var wg sync.WaitGroup
	failed := make(chan error, 50)
	for i := range 50 {
		wg.Go(func() { failed <- Change(path, appendLine(fmt.Sprintf("line %d", i)), agree) })
	}
	wg.Wait()
	close(failed)
	for err := range failed {
		require.NoError(t, err)
	}
	requireEveryLine(t, path, 50)
	requireAlone(t, filepath.Dir(path), "book.boxbook")
}

// requireEveryLine holds that a ledger has its old text and each of n lines
// once.
func requireEveryLine(t testing.TB, path string, n int) {
	t.Helper()
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	rest, ok := strings.CutPrefix(string(raw), oldText)
	require.True(t, ok)
	found := strings.Split(strings.TrimSuffix(rest, "\n"), "\n")
	var want []string
	for i := range n {
		want = append(want, fmt.Sprintf("line %d", i))
	}
	require.ElementsMatch(t, want, found)
}

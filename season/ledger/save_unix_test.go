//go:build unix

package ledger

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// What a process of TestSaveChild is told by its environment.
const (
	childPath  = "BOXBOOK_TEST_CHANGE" // the ledger that it changes
	childLine  = "BOXBOOK_TEST_LINE"   // the line that it adds
	childPause = "BOXBOOK_TEST_PAUSE"  // the step at which it stops for good
	childUser  = "BOXBOOK_TEST_USER"   // the number of the user it becomes
	childUndo  = "BOXBOOK_TEST_UNDO"   // anything: it takes the last change back instead
	childKeep  = "BOXBOOK_TEST_KEEP"   // anything: it keeps what takes its change back
	childLimit = "BOXBOOK_TEST_LIMIT"  // anything: it may write no file larger than fileLimit
)

const fileLimit = 40_000 // bytes

// What a process says on standard output before its change, and at the step
// where it stops; and its exit code where the change failed.
const (
	childBegins = "begins"
	childStops  = "stops"
	childFailed = 3
)

// pausingDisk stops for good at one step, or where it comes the second time.
type pausingDisk struct {
	osDisk
	at    string
	times *int
}

// again follows a step that is to come the second time.
const again = " again"

func (d pausingDisk) reached(step string) {
	at, second := strings.CutSuffix(d.at, again)
	if step == at {
		*d.times++
	}
	if step == at && second == (*d.times > 1) {
		fmt.Println(childStops)
		time.Sleep(time.Hour) // until somebody ends the process
	}
}

// TestSaveChild is no test of its own: other tests run this binary again, told
// by the environment to change a ledger as a process of its own.
func TestSaveChild(t *testing.T) {
	path := os.Getenv(childPath)
	if path == "" {
		t.Skip("run by other tests")
	}
	if user, err := strconv.Atoi(os.Getenv(childUser)); err == nil {
		require.NoError(t, syscall.Setgroups(nil))
		require.NoError(t, syscall.Setgid(user))
		require.NoError(t, syscall.Setuid(user))
	}
	if os.Getenv(childLimit) != "" {
		signal.Ignore(syscall.SIGXFSZ) // a write beyond the limit then fails instead
		require.NoError(t, syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: fileLimit, Max: fileLimit}))
	}
	fmt.Println(childBegins)
	if err := childChanges(pausingDisk{at: os.Getenv(childPause), times: new(int)}, path); err != nil {
		fmt.Println(err)
		os.Exit(childFailed)
	}
	os.Exit(0)
}

// childChanges does what the environment says.
func childChanges(d disk, path string) error {
	c := changer{disk: d, shown: path, wait: lockWait}
	if os.Getenv(childUndo) != "" {
		u, err := PlanUndo(bookOptions(path))
		if err == nil {
			_, err = u.takeBack(d, bookOptions(path))
		}
		return err
	}
	if os.Getenv(childKeep) != "" {
		var err error
		if c.journal, err = startJournal(d, path, lockWait, keptChange{Command: "added " + os.Getenv(childLine)}, Watch{}); err != nil {
			return err
		}
		defer c.journal.Close()
	}
	return c.change(appendLine(os.Getenv(childLine)), agree)
}

// child is a process that adds a line to a ledger.
func child(t testing.TB, path, line string, more ...string) *exec.Cmd {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run=^TestSaveChild$")
	cmd.Env = append(os.Environ(), append(more, childPath+"="+path, childLine+"="+line)...)
	return cmd
}

// failing runs a process whose change must fail, and gives what it says.
func failing(t testing.TB, cmd *exec.Cmd) string {
	t.Helper()
	out, err := cmd.Output()
	var exit *exec.ExitError
	require.ErrorAs(t, err, &exit, "%s", out)
	require.Equal(t, childFailed, exit.ExitCode(), "%s%s", out, exit.Stderr)
	says, ok := strings.CutPrefix(string(out), childBegins+"\n")
	require.True(t, ok)
	return strings.TrimSpace(says)
}

// awaitLine reads a process's output up to a line.
func awaitLine(t testing.TB, out io.Reader, want string) {
	t.Helper()
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if lines.Text() == want {
			return
		}
	}
	require.Fail(t, "the process ended", "it never said %q", want)
}

// TestChangeFromManyProcesses holds that no change is lost among fifty
// processes at once.
func TestChangeFromManyProcesses(t *testing.T) {
	path := newBook(t, oldText)
	outputs, children := make([]bytes.Buffer, 50), make([]*exec.Cmd, 50)
	for i := range children {
		children[i] = child(t, path, fmt.Sprintf("line %d", i))
		children[i].Stdout, children[i].Stderr = &outputs[i], &outputs[i]
		require.NoError(t, children[i].Start())
	}
	for i, cmd := range children {
		require.NoError(t, cmd.Wait(), outputs[i].String())
	}
	requireEveryLine(t, path, 50)
	requireAlone(t, filepath.Dir(path), "book.boxbook")
}

// TestChangeAfterACrash ends a process at each step: the ledger is the old or
// the new one, whole, and the next change goes through and clears away.
func TestChangeAfterACrash(t *testing.T) {
	for _, step := range []string{stepLocked, stepOpened, stepWritten, stepSynced, stepSwapped, stepRenamed} {
		if step == stepSwapped && runtime.GOOS != "linux" {
			continue // files cannot be exchanged there
		}
		t.Run(step, func(t *testing.T) {
			path := newBook(t, oldText)
			require.True(t, crashAt(t, path, "lost", step), "no crash")
			want := oldText
			if step == stepSwapped || step == stepRenamed {
				want += "lost\n"
			}
			requireFile(t, path, want)
			require.Equal(t, step != stepLocked && step != stepRenamed, len(leavings(t, path)) == 1, "a temporary file")
			require.NoError(t, Change(path, appendLine("next"), agree))
			requireFile(t, path, want+"next\n")
			requireAlone(t, filepath.Dir(path), "book.boxbook")
		})
	}
}

// crashAt lets a process add a line and kills it where it stops.
func crashAt(t testing.TB, path, line, step string, more ...string) bool {
	t.Helper()
	cmd := child(t, path, line, append(more, childPause+"="+step)...)
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	awaitLine(t, out, childStops)
	return killed(t, cmd)
}

// killed ends a process as nothing can be ended more suddenly, and reports
// whether that is what ended it.
func killed(t testing.TB, cmd *exec.Cmd) bool {
	t.Helper()
	_ = cmd.Process.Kill() // it may be over already
	_ = cmd.Wait()         // its state says what happened
	status, ok := cmd.ProcessState.Sys().(syscall.WaitStatus)
	require.True(t, ok)
	return status.Signaled() && status.Signal() == syscall.SIGKILL
}

// leavings are the temporary files beside a ledger.
func leavings(t testing.TB, path string) []string {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	var found []string
	for _, entry := range entries {
		if isTempName(entry.Name(), path) {
			found = append(found, entry.Name())
		}
	}
	return found
}

// TestChangeOverTheFileSizeLimit holds that a write that is cut short leaves
// the ledger alone.
func TestChangeOverTheFileSizeLimit(t *testing.T) {
	text := strings.Repeat("# a line of a long ledger\n", 4000)
	path := newBook(t, text)
	says := failing(t, child(t, path, "new", childLimit+"=yes"))
	require.Equal(t, "cannot write the new text of "+path+": file too large; the ledger is as it was", says)
	requireFile(t, path, text)
	requireAlone(t, filepath.Dir(path), "book.boxbook")
}

// nobody is a user without rights of its own.
const nobody = 65534

// asNobody makes a folder reachable for everybody and gives what turns a
// process into nobody, nothing where the test itself is run by a person.
func asNobody(t testing.TB, dir string) []string {
	t.Helper()
	if os.Getuid() != 0 {
		return nil
	}
	require.NoError(t, os.Chmod(filepath.Dir(dir), 0o755))
	return []string{childUser + "=" + strconv.Itoa(nobody)}
}

// TestChangeInAReadOnlyFolder holds that a folder that lets no file be made is
// said to be so.
func TestChangeInAReadOnlyFolder(t *testing.T) {
	path := newBook(t, oldText)
	dir := filepath.Dir(path)
	require.NoError(t, os.Chmod(path, 0o666))
	require.NoError(t, os.Chmod(dir, 0o555))
	defer func() { require.NoError(t, os.Chmod(dir, 0o755)) }()
	says := failing(t, child(t, path, "new", asNobody(t, dir)...))
	require.Equal(t, "cannot make a lock file beside "+path+": permission denied; the ledger is as it was", says)
	requireFile(t, path, oldText)
	requireAlone(t, dir, "book.boxbook")
}

// TestChangeOfAReadOnlyFile holds that a ledger that may not be written is not
// replaced either.
func TestChangeOfAReadOnlyFile(t *testing.T) {
	path := newBook(t, oldText)
	dir := filepath.Dir(path)
	require.NoError(t, os.Chmod(path, 0o444))
	require.NoError(t, os.Chmod(dir, 0o777))
	says := failing(t, child(t, path, "new", asNobody(t, dir)...))
	require.Equal(t, "cannot open "+path+": permission denied; the ledger is as it was", says)
	requireFile(t, path, oldText)
	requireAlone(t, dir, "book.boxbook")
}

// TestChangeKeepsTheOwner holds that a ledger that root changes stays its
// owner's, and that who may not give files away may change them all the same.
func TestChangeKeepsTheOwner(t *testing.T) {
	if os.Getuid() != 0 {
		t.Skip("only root can give a file away")
	}
	path := newBook(t, oldText)
	dir := filepath.Dir(path)
	require.NoError(t, os.Chmod(path, 0o666))
	require.NoError(t, os.Chown(path, 1234, 4321))
	require.NoError(t, Change(path, appendLine("new"), agree))
	requireOwner(t, path, 1234, 4321)

	require.NoError(t, os.Chmod(dir, 0o777))
	out, err := child(t, path, "newer", asNobody(t, dir)...).CombinedOutput()
	require.NoError(t, err, "%s", out)
	requireFile(t, path, oldText+"new\nnewer\n")
	requireOwner(t, path, nobody, nobody)
}

func requireOwner(t testing.TB, path string, user, group uint32) {
	t.Helper()
	info, err := os.Stat(path)
	require.NoError(t, err)
	owner, ok := info.Sys().(*syscall.Stat_t)
	require.True(t, ok)
	require.Equal(t, []uint32{user, group}, []uint32{owner.Uid, owner.Gid})
}

// TestChangeOfAPipe holds that a change does not wait for ever for what is no
// file.
func TestChangeOfAPipe(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pipe")
	require.NoError(t, syscall.Mkfifo(path, 0o644))
	require.ErrorIs(t, Change(path, appendLine("new"), agree), ErrNotRegular)
}

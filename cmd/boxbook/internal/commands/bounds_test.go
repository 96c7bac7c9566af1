//go:build bounds && linux

package commands

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// bound is a case with its limits: of the memory that the process had at its
// most, of its processor time, and the code it ends with.
type bound struct {
	name   string
	files  func(t *testing.T, dir string) // beside main.boxbook
	text   func(w *bufio.Writer)          // of main.boxbook
	args   []string                       // without -f main.boxbook
	code   int
	memory int // MiB
	time   time.Duration
	says   string
}

// tries is how often a case is run, the least of whose times counts: other
// processes only add to the milliseconds of one that ends at once.
func (b bound) tries() int {
	if b.time <= time.Second {
		return 5
	}
	return 1
}

// repeated writes n lines.
func repeated(n int, line string) func(w *bufio.Writer) {
	return func(w *bufio.Writer) {
		for i := range n {
			fmt.Fprintf(w, line, i)
		}
	}
}

// bigFlight is a flight of so many figures and judges.
func bigFlight(figures, judges int) func(w *bufio.Writer) {
	return func(w *bufio.Writer) {
		w.WriteString("pilot ines\nsequence s\n  category intermediate\n")
		for i := range figures {
			fmt.Fprintf(w, "  %d K 10\n", i+1)
		}
		w.WriteString("flight 2026-05-01 ines known\n  sequence s\n  panel")
		for i := range judges {
			fmt.Fprintf(w, " J%d", i+1)
		}
		for i := range figures {
			fmt.Fprintf(w, "\n  %d%s", i+1, strings.Repeat(" 7.5", judges))
		}
		w.WriteString("\n")
	}
}

func written(name, text string) func(t *testing.T, dir string) {
	return func(t *testing.T, dir string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
}

var (
	longName = strings.Repeat("n", 60<<10)
	lines64  = strings.Repeat("x", 64<<10-9)
)

// hanging is after how long a process is taken to hang, on a busy machine.
const hanging = 3 * time.Minute

// bounds are the cases; the limits are about three times what was measured.
var bounds = []bound{
	{name: "a file of 1 GB", files: sized("main.boxbook", 1<<30), args: []string{"check"}, code: exitFile, memory: 60, time: 50 * time.Millisecond, says: "larger than"},
	{name: "a sheet of 1 GB", files: sized("sheet.csv", 1<<30), text: bigFlight(1, 1), args: []string{"import", "sheet.csv", "--date", "2026-05-02", "--pilot", "ines", "--programme", "known", "--sequence", "s"}, code: exitFile, memory: 80, time: 100 * time.Millisecond, says: "is not read"},
	{name: "an include of 1 GB", files: sized("part.boxbook", 1<<30), text: repeated(1, "include \"part.boxbook\" # %d\n"), args: []string{"check"}, code: exitInvalid, memory: 80, time: 100 * time.Millisecond, says: "larger than"},
	{name: "1,000,000 errors", text: repeated(1_000_000, "pilto x%d\n"), args: []string{"check"}, code: exitInvalid, memory: 1200, time: 20 * time.Second},
	{name: "1,000,000 errors, a page", text: repeated(1_000_000, "pilto x%d\n"), args: []string{"check", "--format", "html", "-o", "page.html"}, code: exitInvalid, memory: 1200, time: 20 * time.Second},
	{name: "1,000,000 errors as JSON", text: repeated(1_000_000, "pilto x%d\n"), args: []string{"check", "--format", "json"}, code: exitInvalid, memory: 1200, time: 20 * time.Second},
	{name: "10,000 includes", files: manyParts(10_000), text: repeated(10_000, "include \"p/%d.boxbook\"\n"), args: []string{"check"}, code: exitInvalid, memory: 150, time: 2 * time.Second},
	{name: "a cycle of includes", files: written("part.boxbook", "include \"main.boxbook\"\n"), text: repeated(1, "include \"part.boxbook\" # %d\n"), args: []string{"check"}, code: exitInvalid, memory: 60, time: time.Second},
	{name: "a ledger that includes itself", text: repeated(1, "include \"main.boxbook\" # %d\n"), args: []string{"check"}, code: exitInvalid, memory: 60, time: time.Second},
	{name: "an escape upwards", text: repeated(1, "include \"../x.boxbook\" # %d\n"), args: []string{"check"}, code: exitInvalid, memory: 60, time: time.Second, says: "outside the ledger's folder"},
	{name: "an escape by its path", text: repeated(1, "include \"/etc/passwd\" # %d\n"), args: []string{"check"}, code: exitInvalid, memory: 60, time: time.Second, says: "outside the ledger's folder"},
	{name: "an escape by a link", files: linked("/etc/passwd"), text: repeated(1, "include \"part.boxbook\" # %d\n"), args: []string{"check"}, code: exitInvalid, memory: 60, time: time.Second, says: "outside the ledger's folder"},
	{name: "a device as an include", files: linked("/dev/zero"), text: repeated(1, "include \"part.boxbook\" # %d\n"), args: []string{"check"}, code: exitInvalid, memory: 60, time: time.Second},
	{name: "a pipe as an include", files: piped("part.boxbook"), text: repeated(1, "include \"part.boxbook\" # %d\n"), args: []string{"check"}, code: exitInvalid, memory: 60, time: time.Second},
	{name: "a pipe as a ledger", files: piped("main.boxbook"), args: []string{"check"}, code: exitFile, memory: 60, time: time.Second},
	{name: "a pipe as a sheet", files: piped("sheet.csv"), text: bigFlight(1, 1), args: []string{"import", "sheet.csv", "--date", "2026-05-02", "--pilot", "ines", "--programme", "known", "--sequence", "s"}, code: exitFile, memory: 60, time: time.Second},
	{name: "10,000 figures", text: bigFlight(10_000, 1), args: []string{"check"}, code: exitInvalid, memory: 200, time: 4 * time.Second},
	{name: "1,000 judges", text: bigFlight(200, 1_000), args: []string{"flight"}, memory: 900, time: 20 * time.Second},
	{name: "names of 60 KB", text: repeated(3, "pilot p%d\n  name \""+longName+"\"\n"), args: []string{"pilots"}, memory: 80, time: 3 * time.Second},
	{name: "notes of 60 KB", text: repeated(20, "pilot p%[1]d\nflight 2026-05-01 p%[1]d known\n  place 1\n  note \""+longName+"\"\n"), args: []string{"flight", "p3"}, memory: 80, time: 3 * time.Second},
	{name: "a line of 64 KB", text: repeated(1, "pilot p%d\n  name \""+lines64+"\"\n"), args: []string{"check"}, memory: 60, time: time.Second},
	{name: "a line of 1 MB", text: repeated(1, "pilot p%d # "+strings.Repeat("x", 1<<20)+"\n"), args: []string{"check"}, code: exitInvalid, memory: 80, time: time.Second},
}

func sized(name string, size int64) func(t *testing.T, dir string) {
	return func(t *testing.T, dir string) {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, nil, 0o644))
		require.NoError(t, os.Truncate(path, size))
	}
}

func manyParts(n int) func(t *testing.T, dir string) {
	return func(t *testing.T, dir string) {
		require.NoError(t, os.Mkdir(filepath.Join(dir, "p"), 0o755))
		for i := range n {
			written(fmt.Sprintf("p/%d.boxbook", i), fmt.Sprintf("pilot p%d\n", i))(t, dir)
		}
	}
}

func linked(to string) func(t *testing.T, dir string) {
	return func(t *testing.T, dir string) { require.NoError(t, os.Symlink(to, filepath.Join(dir, "part.boxbook"))) }
}

func piped(name string) func(t *testing.T, dir string) {
	return func(t *testing.T, dir string) { require.NoError(t, syscall.Mkfifo(filepath.Join(dir, name), 0o644)) }
}

// TestBounds runs each case as a process of its own, the program that people
// have, and prints the table.
func TestBounds(t *testing.T) {
	program := filepath.Join(t.TempDir(), "boxbook")
	built, err := exec.Command("go", "build", "-o", program, "boxbook/cmd/boxbook").CombinedOutput()
	require.NoError(t, err, string(built))
	for _, b := range bounds {
		t.Run(b.name, func(t *testing.T) {
			dir := t.TempDir()
			if b.text != nil {
				f, err := os.Create(filepath.Join(dir, "main.boxbook"))
				require.NoError(t, err)
				w := bufio.NewWriter(f) // memory of this process would count as the other's
				b.text(w)
				require.NoError(t, w.Flush())
				require.NoError(t, f.Close())
			}
			if b.files != nil {
				b.files(t, dir)
			}
			var out, said string
			var code, memory int
			took := hanging
			for range b.tries() {
				cmd := exec.Command(program, append(b.args, "-f", "main.boxbook")...)
				cmd.Dir, cmd.Env = dir, process{}.command().Env
				var printed, complaint strings.Builder
				cmd.Stdout, cmd.Stderr = &printed, &complaint
				code = codeWithin(t, cmd, hanging)
				usage, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage)
				require.True(t, ok)
				out, said, memory = printed.String(), complaint.String(), int(usage.Maxrss>>10)
				took = min(took, time.Duration(usage.Utime.Nano()+usage.Stime.Nano()))
			}
			t.Logf("%-32s exit %d  %5d of %5d MiB  %8s of %s", b.name, code, memory, b.memory, took.Round(time.Millisecond), b.time)
			require.Equal(t, b.code, code, clipped(said))
			require.LessOrEqual(t, memory, b.memory)
			require.LessOrEqual(t, took, b.time)
			require.Contains(t, out+said, b.says)
		})
	}
}

func clipped(text string) string { return text[:min(len(text), 500)] }

// codeWithin gives the exit code of a process that must not hang.
func codeWithin(t *testing.T, cmd *exec.Cmd, limit time.Duration) int {
	t.Helper()
	require.NoError(t, cmd.Start())
	stop := time.AfterFunc(limit, func() { _ = cmd.Process.Kill() })
	defer stop.Stop()
	err := cmd.Wait()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		require.NoError(t, err)
	}
	return cmd.ProcessState.ExitCode()
}

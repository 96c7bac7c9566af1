//go:build unix

package commands

import (
	"bytes"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// flownOnce is a ledger with a flight in it.
const flownOnce = "pilot p\nflight 2026-05-01 p free\n  category sportsman\n  void \"rain\"\n"

// shell runs a line of bash in which $BB is the program.
func shell(t *testing.T, dir, line string) (said string, code int) {
	t.Helper()
	cmd := exec.Command("bash", "-c", line)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), asCommand+"=yes", "NO_COLOR=1", "BOXBOOK_LEDGER=", "BOXBOOK_PILOT=", "COLUMNS=", "BB="+os.Args[0])
	out, err := cmd.CombinedOutput()
	if err != nil {
		var exit *exec.ExitError
		require.ErrorAs(t, err, &exit, "%s", out)
		return string(out), exit.ExitCode()
	}
	return string(out), 0
}

// TestLedgerFromAStream holds what is read of pipes: a ledger that comes out of
// another program, nothing that nobody sends, no pipe with a name.
func TestLedgerFromAStream(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "a.boxbook"), []byte(flownOnce), 0o644))
	require.NoError(t, syscall.Mkfifo(filepath.Join(dir, "pipe"), 0o644))
	for _, test := range []struct {
		line, says string
		code       int
	}{
		{`$BB check -f <(cat a.boxbook)`, `/dev/fd/\d+: no errors, no warnings; 1 pilot, no contests, 1 flight`, 0},
		{`cat a.boxbook | $BB check -f /dev/stdin`, `/dev/stdin: no errors`, 0},
		{`cat a.boxbook | $BB check -f -`, `standard input: no errors`, 0},
		{`$BB check -f - <&-`, `boxbook: cannot read standard input: nothing was typed`, 3},
		{`$BB check -f - </dev/null`, `boxbook: cannot read standard input: nothing was typed`, 3},
		{`$BB check -f pipe`, `boxbook: cannot read pipe: it is not a plain file`, 3},
		{`$BB check -f /dev/zero`, `boxbook: cannot read /dev/zero: it is not a plain file`, 3},
		{`$BB log pilot --handle q -f <(cat a.boxbook)`, `boxbook: standard input cannot be written into`, 2},
		{`$BB flight -f <(cat a.boxbook) > /dev/full`, `boxbook: cannot write the output: no space left on device`, 3},
		{`$BB help marks > /dev/full`, `boxbook: cannot write the output: no space left on device`, 3},
		{`$BB year --help > /dev/full`, `boxbook: cannot write the output: no space left on device`, 3},
		{`printf 'pilot p\r\n\r\nflight 2026-05-02 p practice\r\n      note "x"\r\n' | $BB tidy --diff -f - | grep -c $'\r$'`, `5\n`, 0},
	} {
		said, code := shell(t, dir, test.line)
		require.Regexp(t, "^"+test.says, said, test.line)
		require.Equal(t, test.code, code, test.line)
	}
}

// TestChangedAllTheSame holds that a command that has changed the ledger and then
// cannot say so tells that it did, in every command that changes one.
func TestChangedAllTheSame(t *testing.T) {
	for _, test := range []struct {
		line, has string
	}{
		{`$BB log cost --date 2026-05-02 --kind fuel --amount "3.00 EUR" --for p --by p > /dev/full`, "fuel"},
		{`printf 'pilot q\n' | $BB log - > /dev/full`, "pilot q"},
		{`$BB tidy --write > /dev/full`, "  void         \"rain\""},
		{`$BB check --fix > /dev/full`, "language 1"},
	} {
		dir := t.TempDir()
		text := flownOnce
		if strings.Contains(test.line, "--fix") {
			text = "langauge 1\n" + text
		}
		require.NoError(t, os.WriteFile(filepath.Join(dir, "a.boxbook"), []byte(text), 0o644))
		said, code := shell(t, dir, test.line)
		require.Contains(t, said, "boxbook: the ledger is changed, but cannot write the output: no space left on device\n", test.line)
		require.Equal(t, exitFile, code, test.line)
		raw, err := os.ReadFile(filepath.Join(dir, "a.boxbook"))
		require.NoError(t, err)
		require.Contains(t, string(raw), test.has, test.line)
	}
}

// TestTidyThatFailsHalfWay holds what is said when one of several files cannot be
// changed and others have been.
func TestTidyThatFailsHalfWay(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "a.boxbook"), []byte("include \"sub/b.boxbook\"\n"+flownOnce), 0o644))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "sub"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "sub", "b.boxbook"), []byte("coach c\nflight 2026-05-02 p free\n  void \"wind\"\n"), 0o644))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "sub", ".b.boxbook.lock"), 0o755))
	said, code := shell(t, dir, "$BB tidy --write")
	require.Equal(t, exitFile, code)
	require.Regexp(t, regexp.MustCompile(`^tidied a.boxbook: \d+ lines?\nboxbook: the ledger is changed, but cannot make a lock file beside \S*sub/b.boxbook: `), said)
	require.NotContains(t, said, "as it was")
}

// stops is how many processes are stopped.
var stops = flag.Int("stops", 9, "how many changes are stopped by a signal")

// TestStopLeavesNothing stops processes at any moment of a change by each of the
// signals that ask for it: the ledger is whole, and nothing is left beside it but
// what is meant to be.
func TestStopLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.boxbook")
	text := flownOnce + strings.Repeat("# a line of a long ledger, of some forty bytes\n", 40_000)
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	began := time.Now()
	_, said, code := process{}.run(t, "log", "cost", "--date", "2026-05-02", "--kind", "fuel", "--amount", "3.00 EUR", "--for", "p", "--by", "p", "-f", path)
	require.Zero(t, code, said)
	took := time.Since(began)
	for i := range *stops {
		s := []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP}[i%3]
		cmd := process{}.command("log", "cost", "--date", "2026-05-02", "--kind", "fuel", "--amount", "3.00 EUR", "--for", "p", "--by", "p", "-f", path)
		var out bytes.Buffer
		cmd.Stdout, cmd.Stderr = &out, &out
		was, err := os.ReadFile(path)
		require.NoError(t, err)
		require.NoError(t, cmd.Start())
		time.Sleep(took * time.Duration(i) / time.Duration(*stops))
		_ = cmd.Process.Signal(s) // it may be over already
		_ = cmd.Wait()            // its state says how it ended
		is, err := os.ReadFile(path)
		require.NoError(t, err)
		added := len(is) > len(was)
		require.True(t, added || string(is) == string(was), "neither the old nor the new ledger")
		status, ok := cmd.ProcessState.Sys().(syscall.WaitStatus)
		require.True(t, ok)
		switch {
		case status.Signaled():
			require.False(t, added, "killed although it had written")
		case added:
			require.Zero(t, status.ExitStatus(), "%s", out.String())
		default:
			require.Equal(t, 128+int(s), status.ExitStatus(), "%s", out.String())
			require.Equal(t, "boxbook: stopped; the ledger is as it was\n", out.String())
		}
		entries, err := filepath.Glob(filepath.Join(dir, ".*.new-*"))
		require.NoError(t, err)
		require.Empty(t, entries)
	}
}

package commands

import (
	"errors"
	"flag"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"strconv"
	"strings"
	"testing"
	"time"

	"boxbook/cmd/boxbook/internal/lsp"
	"boxbook/data"
	"boxbook/report/answers"
	"boxbook/report/workbook"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write what the commands print into the scripts and the README")

func TestMain(m *testing.M) {
	fromMain = Later{
		Workbook: func(w io.Writer, book answers.Book, o BookOptions) error {
			return workbook.Write(w, book, workbook.Options(o))
		},
		ClubWorkbook: func(w io.Writer, book answers.ClubBook, o BookOptions) error {
			return workbook.WriteClub(w, book, workbook.Options(o))
		},
		Editor: func(in io.Reader, out io.WriteCloser, o EditorOptions) error {
			return lsp.Serve(in, out, lsp.Options(o))
		},
	}
	if os.Getenv(asCommand) != "" {
		asOnDay()
		return
	}
	debug.SetGCPercent(400) // tests have memory to spare and little time
	testscript.Main(m, map[string]func(){"boxbook": scripted})
}

// dayOfCommand is the day on which the test binary is boxbook, else today.
const dayOfCommand = "BOXBOOK_TEST_DAY"

// asOnDay runs the command line, on a day that a test may have set.
func asOnDay() {
	day, err := time.Parse(time.DateOnly, os.Getenv(dayOfCommand))
	if err != nil {
		os.Exit(runProcess())
	}
	collectSeldom()
	s := systemStreams()
	s.now = func() time.Time { return day.Add(20 * time.Hour) }
	os.Exit(run(os.Args[1:], s))
}

// scripted is the program as the scripts run it: its version and its day are
// always the same, so that neither changes a script.
func scripted() {
	collectSeldom()
	s := systemStreams()
	s.version, s.now = "0.0.0", demoDay
	s.build = data.Build{Revision: "0123456789abcdef0123456789abcdef01234567", Date: "2026-11-24", System: "linux/amd64", Toolchain: "go1.26.10"}
	os.Exit(run(os.Args[1:], s))
}

// TestScripts runs testdata/script: the manual under test.
func TestScripts(t *testing.T) {
	testscript.Run(t, scriptParams("../../../../testdata/script"))
}

func scriptParams(dir string) testscript.Params {
	return testscript.Params{
		Dir:           dir,
		UpdateScripts: *update,
		Setup: func(env *testscript.Env) error {
			env.Setenv("NO_COLOR", "")
			return copyLedgers(env.WorkDir)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits":   exits,
			"replace": replace,
			"sparse":  sparse,
		},
	}
}

// copyLedgers lays the sample ledgers and the demo beside each script, under
// `ledgers`.
func copyLedgers(work string) error {
	for from, to := range map[string]string{
		"../../../../testdata/ledgers": "ledgers", "../../../../testdata/sheets": "sheets", "../../../../data/demo": filepath.Join("ledgers", "demo"),
	} {
		if err := os.CopyFS(filepath.Join(work, to), os.DirFS(from)); err != nil {
			return err
		}
	}
	return nil
}

// exits runs boxbook and holds it to an exit code: `exits 2 flight --pilt`.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: exits CODE [ARGUMENT ...]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec("boxbook", args[1:]...)
	got := 0
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		got = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// replace changes the one place in a file where a text stands.
func replace(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: replace FILE OLD NEW")
	}
	path := ts.MkAbs(args[0])
	raw, err := os.ReadFile(path)
	ts.Check(err)
	if n := strings.Count(string(raw), args[1]); n != 1 {
		ts.Fatalf("%q stands %d times in %s", args[1], n, args[0])
	}
	ts.Check(os.WriteFile(path, []byte(strings.Replace(string(raw), args[1], args[2], 1)), 0o644))
}

// sparse makes a file of so many MiB that takes no room.
func sparse(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: sparse FILE MIB")
	}
	size, err := strconv.ParseInt(args[1], 10, 64)
	ts.Check(err)
	path := ts.MkAbs(args[0])
	ts.Check(os.WriteFile(path, nil, 0o644))
	ts.Check(os.Truncate(path, size<<20))
}

// TestEveryCommandHasAScript keeps the manual complete.
func TestEveryCommandHasAScript(t *testing.T) {
	for _, cmd := range newRoot(systemStreams()).Commands() {
		if cmd.Name() == "help" || !cmd.Runnable() && !cmd.HasSubCommands() {
			continue
		}
		require.FileExists(t, filepath.Join("../../../../testdata/script", cmd.Name()+".txtar"))
	}
}

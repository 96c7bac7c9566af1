package commands

import (
	"io"
	"io/fs"
	"os"
	"slices"
	"time"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season"
)

// Later is what few commands need and what takes long to start. Those commands
// are run by main; every other runs before any of this has started.
type Later struct {
	Workbook     func(w io.Writer, book answers.Book, o BookOptions) error
	ClubWorkbook func(w io.Writer, book answers.ClubBook, o BookOptions) error
	Editor       func(in io.Reader, out io.WriteCloser, o EditorOptions) error
}

// BookOptions say what a workbook states besides its answers.
type BookOptions struct {
	Head     report.Head // what was chosen, as of when and by which version
	Title    string      // heads the workbook; the pilot's name where it is empty
	Progress func(done, total int)
}

// EditorOptions say what an editor is answered from.
type EditorOptions struct {
	Builtin fs.FS              // the shipped definitions
	Today   func() season.Date // the day that counts as today
	Ledger  string             // a ledger that files may belong to, "" for none
	Version string
	Trouble string        // what the person is told at the start, "" for nothing
	Settle  time.Duration // how long the typing rests before mistakes are shown
}

// needLater are the commands that need what starts later: the demo's tour writes a
// workbook.
var needLater = []string{"workbook", "lsp", "demo"}

// needsLater reports whether a command line may run one of them: whether the name
// of one stands in it, wherever.
func needsLater(args []string) bool {
	return slices.ContainsFunc(args, func(arg string) bool { return slices.Contains(needLater, arg) })
}

// fromMain is what main has added: nothing yet, in a command line that runs early.
var fromMain Later

// Run runs the command line of this process and gives its exit code.
func Run(l Later) int {
	fromMain = l
	return runProcess()
}

// RunEarly runs the command line of this process, if it needs nothing that starts
// later, and ends the process; else it does nothing.
func RunEarly() {
	if needsLater(os.Args[1:]) {
		return
	}
	go func() { os.Exit(runProcess()) }() // packages start on a thread that runs nothing else
	select {}
}

func runProcess() int {
	collectSeldom()
	return run(os.Args[1:], systemStreams())
}

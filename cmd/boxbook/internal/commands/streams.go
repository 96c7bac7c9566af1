package commands

import (
	"io"
	"os"
	"strconv"
	"time"

	"boxbook/data"
	"boxbook/report"
	"boxbook/season/ledger"

	"golang.org/x/term"
)

// streams is what a command may touch of the world: handed in, so that tests
// hand in their own.
type streams struct {
	in       io.Reader
	out, err io.Writer
	env      func(string) string
	now      func() time.Time
	version  string     // what the program calls itself
	build    data.Build // what it was made of
	width    int        // columns of the terminal; 80 where out is none
	height   int        // lines of the terminal; 0 where out is none
	terminal bool       // out is a terminal
	// errTerminal says that err is a terminal.
	errTerminal bool
	errWidth    int // columns of the terminal that err is
	// interactive says that a person can be asked: in and out are terminals.
	interactive bool
	// changed says that this run has changed a ledger: what fails after that
	// leaves it changed.
	changed bool
	// room prepares memory; nil where that was done, or where this process has
	// other work too.
	room func()
	// misspelt says that help was asked for a word that is no command.
	misspelt error
	// fixesAny says whether check --fix would correct any of a ledger's errors.
	fixesAny func(ledger.List) bool
	// unsaid says that help could not be written.
	unsaid error
}

func systemStreams() *streams {
	s := &streams{
		in: os.Stdin, out: os.Stdout, err: os.Stderr, env: os.Getenv, now: time.Now, version: data.Version(), build: data.BuildOf(), room: roomInLargePages,
		width: report.TerminalWidth(os.Stdout), height: report.TerminalHeight(os.Stdout), terminal: term.IsTerminal(int(os.Stdout.Fd())),
	}
	s.errTerminal, s.errWidth = term.IsTerminal(int(os.Stderr.Fd())), report.TerminalWidth(os.Stderr)
	s.interactive = s.terminal && term.IsTerminal(int(os.Stdin.Fd()))
	if columns, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && columns > 0 && !s.terminal {
		s.width = min(max(columns, narrowest), widest)
	}
	return s
}

// The widths that output can be made for, in columns; where out is no terminal
// $COLUMNS chooses.
const (
	narrowest = 40
	widest    = 200
)

package commands

import (
	"bytes"
	"errors"
	"io"
	"os"
	"os/exec"
	"testing"

	"github.com/stretchr/testify/require"
)

// process is the program as a process of its own, on a machine whose user has
// set nothing.
type process struct {
	dir     string    // where it runs, "" for here
	in      io.Reader // nil: nothing
	out     *os.File  // where standard output goes, nil to be given back
	setting []string  // of the environment, beside the usual
}

// command is the process before it is started.
func (p process) command(args ...string) *exec.Cmd {
	cmd := exec.Command(os.Args[0], args...)
	cmd.Dir, cmd.Stdin = p.dir, p.in
	cmd.Env = append(append(os.Environ(), asCommand+"=yes", "NO_COLOR=1", "BOXBOOK_LEDGER=", "BOXBOOK_PILOT=", "COLUMNS="), p.setting...)
	return cmd
}

// run runs it to its end and gives what it printed, what it complained of, and
// its exit code.
func (p process) run(t testing.TB, args ...string) (printed, said string, code int) {
	t.Helper()
	cmd := p.command(args...)
	var out, complaint bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &complaint
	if p.out != nil {
		cmd.Stdout = p.out
	}
	err := cmd.Run()
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		return out.String(), complaint.String(), exit.ExitCode()
	}
	require.NoError(t, err)
	return out.String(), complaint.String(), 0
}

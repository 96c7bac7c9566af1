package commands

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// No output goes over what a command reads, whatever the file is called:
// standard input, a second name of the ledger, a part of it.
func TestNoOutputGoesOverAnInput(t *testing.T) {
	for name, c := range map[string]struct{ args, stdin, goal string }{
		"season from standard input":      {"season -f - --pilot ines", "led.txt", "led.txt"},
		"flight from standard input":      {"flight -f - --pilot ines", "led.txt", "led.txt"},
		"drills from standard input":      {"drills -f -", "led.txt", "other.txt"},
		"year from standard input":        {"year -f -", "led.txt", "led.txt"},
		"export from standard input":      {"export -f - --format csv", "led.txt", "led.txt"},
		"workbook from standard input":    {"workbook -f - --pilot ines", "led.txt", "led.xlsx"},
		"check from standard input":       {"check -f -", "led.txt", "led.txt"},
		"tidy from standard input":        {"tidy -f -", "led.txt", "led.txt"},
		"a second name":                   {"season -f led.txt --pilot ines", "", "other.txt"},
		"a link":                          {"season -f led.txt --pilot ines", "", "link.txt"},
		"a part of the ledger":            {"season -f led.txt --pilot ines", "", "money.txt"},
		"a part, tidied":                  {"tidy -f led.txt", "", "money.txt"},
		"a part, its differences":         {"tidy -f led.txt --diff", "", "money.txt"},
		"what standard input has besides": {"season -f " + demoLedger + " --pilot ines", "led.txt", "other.txt"},
	} {
		t.Run(name, func(t *testing.T) {
			layLedger(t)
			var out, said bytes.Buffer
			s := readmeStreams(&out)
			s.err = &said
			if c.stdin != "" {
				in, err := os.Open(c.stdin)
				require.NoError(t, err)
				defer in.Close()
				s.in = in
			}
			before, err := os.ReadFile(c.goal)
			require.NoError(t, err)
			require.Equal(t, exitUsage, run(append(strings.Fields(c.args), "-o", c.goal), s))
			require.Contains(t, said.String(), c.goal+" is ")
			require.Contains(t, said.String(), ", and no output goes over it")
			requireFile(t, c.goal, string(before))
		})
	}
}

// Nor does what is printed, where the shell made it go there: neither onto the end
// of the ledger nor onto that of standard input.
func TestNothingIsPrintedIntoAnInput(t *testing.T) {
	for name, c := range map[string]struct{ args, stdin, goal string }{
		"the ledger":               {"season --pilot ines -f led.txt", "", "led.txt"},
		"its second name":          {"export money -f led.txt", "", "other.txt"},
		"a part of it":             {"check -f led.txt", "", "money.txt"},
		"a part, tidied":           {"tidy -f led.txt --diff", "", "money.txt"},
		"a part, what is to fix":   {"check --diff -f led.txt", "", "money.txt"},
		"what standard input is":   {"season --pilot ines -f -", "led.txt", "led.txt"},
		"what it is, to be tidied": {"tidy -f -", "led.txt", "led.txt"},
	} {
		t.Run(name, func(t *testing.T) {
			layLedger(t)
			before, err := os.ReadFile(c.goal)
			require.NoError(t, err)
			out, err := os.OpenFile(c.goal, os.O_WRONLY|os.O_APPEND, 0)
			require.NoError(t, err)
			defer out.Close()
			var said bytes.Buffer
			s := readmeStreams(&said)
			s.out, s.err = out, &said
			if c.stdin != "" {
				in, err := os.Open(c.stdin)
				require.NoError(t, err)
				defer in.Close()
				s.in = in
			}
			require.Equal(t, exitUsage, run(strings.Fields(c.args), s), said.String())
			require.Contains(t, said.String(), "standard output is ")
			require.Contains(t, said.String(), ", and no output goes over it")
			requireFile(t, c.goal, string(before))
		})
	}
}

// layLedger lays a ledger and its names into an empty folder.
func layLedger(t *testing.T) {
	t.Helper()
	demo, err := filepath.Abs("../../../../data/demo")
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	require.NoError(t, os.CopyFS(".", os.DirFS(demo)))
	raw, err := os.ReadFile(demoLedger)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile("money.txt", []byte("pilot zoe\n"), 0o644))
	require.NoError(t, os.WriteFile("led.txt", append(raw, "\ninclude \"money.txt\"\n"...), 0o644))
	require.NoError(t, os.Link("led.txt", "other.txt"))
	require.NoError(t, os.Link("led.txt", "led.xlsx"))
	require.NoError(t, os.Symlink("led.txt", "link.txt"))
}

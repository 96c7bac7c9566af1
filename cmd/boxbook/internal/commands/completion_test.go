package commands

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// completed is what a shell is offered behind a command line.
func completed(t *testing.T, words ...string) []string {
	t.Helper()
	var out bytes.Buffer
	s := readmeStreams(&out)
	s.err = &bytes.Buffer{}
	require.Equal(t, exitDone, run(append([]string{"__complete"}, words...), s))
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	return lines[:len(lines)-1] // the last is for the shell
}

// A ledger offers its names to the shell, one with errors those that it could
// read: it is while a ledger is being typed that names are wanted.
func TestCompletionOffersTheLedgersNames(t *testing.T) {
	raw, err := os.ReadFile("../../../../data/demo/" + demoLedger)
	require.NoError(t, err)
	whole := t.TempDir()
	require.NoError(t, os.CopyFS(whole, os.DirFS("../../../../data/demo")))
	broken := t.TempDir()
	require.NoError(t, os.CopyFS(broken, os.DirFS("../../../../data/demo")))
	more := string(raw) + "\nperson rolf\n\npilot agnes\n  expires parachute 2027-03-01\n\n" +
		"drill 2026-11-20 yuki radius\n\nin-hand 2026-01-01 cash-box 10.00 EUR\n"
	require.NoError(t, os.WriteFile(filepath.Join(whole, demoLedger), []byte(more), 0o644))
	wrong := more + "\ncoach \"\nflight 2026-13-40 nobody known\nwhatever 1\ncontest\n"
	require.NoError(t, os.WriteFile(filepath.Join(broken, demoLedger), []byte(wrong), 0o644))
	for _, c := range []struct {
		line, last string
		want       string
	}{
		{"season", "", "ines"},
		{"season", "to", "tobias"},
		{"ready", "", "yuki"},
		{"workbook", "", "ines"},
		{"season --pilot", "", "tobias"},
		{"flight", "2026-05-17/", "2026-05-17/ines/unknown"},
		{"export", "2026-05-17/", "2026-05-17/ines/unknown"},
		{"flight", "l", "last"},
		{"forecast", "adv", "advanced-known-26"},
		{"families", "to", "tobias"},
		{"families", "spin", "spins"},
		{"families ines", "advanced-known-26/1", "advanced-known-26/10"},
		{"debrief", "2026-05-17/", "2026-05-17/ines/unknown"},
		{"whatif", "2026-05-17/", "2026-05-17/ines/unknown"},
		{"whatif last", "no-", "no-penalty"},
		{"season --contest", "tarn", "tarn-valley-open"},
		{"season --category", "", "intermediate"},
		{"ready --to", "", "advanced"},
		{"ready --policy", "", "move-up"},
		{"ready --ladder", "", "fai"},
		{"log fault --kind", "spin", "spin-stop"},
		{"log fault --flight", "2026-05-17/", "2026-05-17/ines/unknown"},
		{"log drill --target", "spin", "spins"},
		{"log drill --target", "rad", "radius"},
		{"log review --by", "", "marek"},
		{"log flight --sequence", "", "tobias-free-26"},
		{"log settle --to", "mar", "marek"},
		{"log duty --who", "", "marek"},
		{"log cost --for", "a", "all"},
		{"log cost --kind", "ent", "entry"},
		{"log budget --kind", "", "entry"},
		{"log budget --kind", "", "sponsorship"},
		{"log income --kind", "", "sponsorship"},
		{"log closed --kind", "", "loose-article"},
		{"log fault --as", "", "felt"},
		{"log in-hand --pot", "", "cash-box"},
		{"log expiry --what", "", "parachute"},
		{"log income --for", "", "rolf"},
		{"log ended --drill", "2026-11-20", "2026-11-20/yuki/radius"},
		{"season --format", "", "markdown"},
		{"season --format", "", "html"},
		{"season --season", "", "2025"},
		{"season --beside", "", "2025"},
		{"year", "", "2026"},
		{"year --beside", "", "2025"},
		{"year --in", "", "CHF"},
		{"statement ines", "", "2025"},
		{"statement --in", "E", "EUR"},
		{"log rate --from", "", "CHF"},
		{"log rate --to", "", "EUR"},
		{"log rate --year", "", "2026"},
	} {
		for name, dir := range map[string]string{"whole": whole, "broken": broken} {
			line := append(strings.Fields(c.line), "-f", filepath.Join(dir, demoLedger), c.last)
			if at := len(strings.Fields(c.line)) - 1; strings.HasPrefix(strings.Fields(c.line)[at], "--") {
				flag := strings.Fields(c.line)[at]
				line = append(strings.Fields(c.line)[:at], "-f", filepath.Join(dir, demoLedger), flag, c.last)
			}
			require.Contains(t, completed(t, line...), c.want, "%s: %v", name, line)
		}
	}
	coach := filepath.Join(whole, "coach", "marek.boxbook")
	require.Contains(t, completed(t, "log", "review", "-f", coach, "--into", ""), filepath.ToSlash(coach))
	require.NotContains(t, completed(t, "log", "duty", "-f", coach, "--who", ""), "club", "the club itself does no duty")
	require.NotContains(t, completed(t, "log", "settle", "-f", coach, "--to", ""), "advanced", "a category is not paid")
	require.NotContains(t, completed(t, "log", "cost", "-f", filepath.Join(whole, demoLedger), "--kind", ""), "radius", "a cost is no fault")
}

// A shell is not offered what the command would refuse: a page's formats for a table, a
// pilot for the club's workbook, another pilot's flights.
func TestCompletionOffersWhatIsTaken(t *testing.T) {
	ledger := "../../../../data/demo/" + demoLedger
	require.Equal(t, []string{"csv", "json"}, completed(t, "export", "-f", ledger, "--format", ""))
	require.Empty(t, completed(t, "workbook", "-f", ledger, "--club", ""))
	require.Contains(t, completed(t, "workbook", "-f", ledger, ""), "ines")
	for _, line := range [][]string{
		{"export", "-f", ledger, "ines", "202"},
		{"flight", "-f", ledger, "ines", "202"},
		{"debrief", "-f", ledger, "ines", "202"},
		{"whatif", "-f", ledger, "ines", "202"},
		{"flight", "-f", ledger, "--pilot", "ines", "202"},
		{"export", "-f", ledger, "--pilot", "ines", "202"},
	} {
		offered := completed(t, line...)
		require.NotEmpty(t, offered, line)
		for _, name := range offered {
			require.Contains(t, name, "/ines/", line)
		}
	}
	require.Contains(t, completed(t, "flight", "-f", ledger, "202"), "2026-08-08/yuki/unknown")
	require.NotContains(t, completed(t, "log", "rate", "-f", ledger, "--to", ""), "advanced", "a rate is of no category")
}

// A shell offers files where a file is meant, and nowhere else.
func TestCompletionOffersFilesWhereMeant(t *testing.T) {
	files := func(words ...string) bool {
		var out bytes.Buffer
		s := readmeStreams(&out)
		s.err = &bytes.Buffer{}
		require.Equal(t, exitDone, run(append([]string{"__complete"}, words...), s))
		return strings.HasSuffix(out.String(), ":0\n")
	}
	for line, want := range map[string]bool{
		"import ": true, "start ": true, "demo ": true, "season --ledger ": true, "season -o ": true, "log flight --video ": true, "log flight --draft ": true,
		"check ": false, "undo ": false, "tidy ": false, "pilots ": false, "version ": false, "season --since ": false, "season --asof ": false,
		"log cost --date ": false, "log cost --amount ": false, "log fault --remark ": false, "whatif --reach ": false, "import --columns ": false,
	} {
		require.Equal(t, want, files(strings.Split(line, " ")...), line)
	}
}

// A shell is offered the layouts that were remembered.
func TestCompletionOffersLayouts(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte("pilot ines\n"), 0o644))
	require.Empty(t, completed(t, "import", "-f", path, "--layout", ""))
	require.NoError(t, os.WriteFile(layoutsPath(path), []byte(`{"county":{"sheet":"Known"},"lakes":{}}`), 0o644))
	require.Equal(t, []string{"county", "lakes"}, completed(t, "import", "-f", path, "--layout", ""))
	require.Equal(t, []string{"lakes"}, completed(t, "import", "-f", path, "--layout", "l"))
}

// writes counts them.
type writes int

func (w *writes) Write(p []byte) (int, error) {
	*w++
	return len(p), nil
}

// What a shell is offered is written at once, however many words it is; and other commands
// than the one that is completed are not made for it.
func TestCompletionIsWrittenAtOnce(t *testing.T) {
	var counted writes
	s := readmeStreams(&counted)
	s.err = io.Discard
	ledger := "../../../../data/demo/" + demoLedger
	require.Equal(t, exitDone, run([]string{"__complete", "flight", "--ledger", ledger, ""}, s))
	assert.EqualValues(t, 1, counted)
	made := func(words ...string) (names []string) {
		for _, cmd := range rootFor(s, append([]string{"__complete"}, words...)).Commands() {
			if cmd.Short != "" {
				names = append(names, cmd.Name())
			}
		}
		return names
	}
	assert.ElementsMatch(t, []string{"flight", "help"}, made("flight", ""))
	for _, words := range [][]string{{""}, {"flight"}, {"--pilot", "ines", ""}, {"help", "flight", ""}} {
		assert.Greater(t, len(made(words...)), 20, "%v", words)
	}
}

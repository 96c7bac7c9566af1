package commands

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"boxbook/data"

	"github.com/stretchr/testify/require"
)

const (
	readmePath = "../../../../README.md"
	readmeMost = 300 // lines
)

// fence is a fenced block of the README, and the comments right above it: `file`
// names the file that its text is to be written to, `today` the day that it and all
// below are run on, `typed` what is typed at a terminal, answer by answer.
var (
	fence   = regexp.MustCompile("(?ms)((?:^<!-- \\w+: [^\n]*-->\n)*)^```(\\w+)\n(.*?)^```$")
	comment = regexp.MustCompile(`<!-- (\w+): (.*?) ?-->`)
	quoted  = regexp.MustCompile(`"[^"]*"|\S+`)
)

// readmeRun is the README on its way down the page.
type readmeRun struct {
	t        *testing.T
	dir      string
	today    time.Time
	commands int
}

// TestReadme runs every command block of the README in a clean folder and
// holds what is printed there to what the commands print.
func TestReadme(t *testing.T) {
	raw, err := os.ReadFile(readmePath)
	require.NoError(t, err)
	r := &readmeRun{t: t, dir: t.TempDir(), today: demoDay()}
	t.Chdir(r.dir)
	require.Equal(t, exitDone, run([]string{"demo"}, readmeStreams(io.Discard)))
	text := fence.ReplaceAllStringFunc(string(raw), r.block)
	require.Greater(t, r.commands, 8)
	if *update {
		require.NoError(t, os.WriteFile(filepath.Join(readmeFolder, readmePath), []byte(text), 0o644))
		return
	}
	require.Equal(t, string(raw), text)
}

// readmeFolder is where the tests began, before any change of folder.
var readmeFolder, _ = os.Getwd()

// block is a block as it should read.
func (r *readmeRun) block(block string) string {
	parts := fence.FindStringSubmatch(block)
	said := map[string]string{}
	for _, c := range comment.FindAllStringSubmatch(parts[1], -1) {
		said[c[1]] = c[2]
	}
	if day := said["today"]; day != "" {
		at, err := time.Parse(time.DateOnly, day)
		require.NoError(r.t, err)
		r.today = at.Add(20 * time.Hour)
	}
	if file := said["file"]; file != "" {
		require.NoError(r.t, os.WriteFile(filepath.Join(r.dir, file), []byte(parts[3]), 0o644))
	}
	if parts[2] != "console" {
		return block
	}
	console := r.console
	if typed, ok := said["typed"]; ok {
		console = func(body string) string { return r.talk(body, strings.Split(typed, "|")) }
	}
	return parts[1] + "```console\n" + console(parts[3]) + "```"
}

// commandsOf are the arguments of the lines that begin with `$ boxbook`, and the lines.
func (r *readmeRun) commandsOf(body string) (lines []string, args [][]string) {
	for _, line := range strings.Split(body, "\n") {
		command, ok := strings.CutPrefix(line, "$ boxbook")
		if !ok {
			require.False(r.t, strings.HasPrefix(line, "$ "), line)
			continue
		}
		words := quoted.FindAllString(command, -1)
		for i := range words {
			words[i] = strings.Trim(words[i], `"`)
		}
		lines, args = append(lines, line), append(args, words)
	}
	r.commands += len(lines)
	return lines, args
}

// console runs the commands of a block and gives it as it should read.
func (r *readmeRun) console(body string) string {
	r.t.Helper()
	var out bytes.Buffer
	lines, args := r.commandsOf(body)
	for i, line := range lines {
		out.WriteString(line + "\n")
		s := readmeStreams(&out)
		s.now = func() time.Time { return r.today }
		code := run(args[i], s)
		require.Contains(r.t, []int{exitDone, exitInvalid}, code, line)
	}
	return out.String()
}

// talk runs the one command of a block at a pseudo-terminal, types an answer each time
// it asks, and gives what then stands on the screen.
func (r *readmeRun) talk(body string, answers []string) string {
	r.t.Helper()
	lines, args := r.commandsOf(body)
	require.Len(r.t, lines, 1)
	r.t.Setenv(dayOfCommand, r.today.Format(time.DateOnly))
	k := startTalk(r.t, r.dir, args[0]...)
	for _, answer := range answers {
		k.asked()
		k.key(strings.TrimSpace(answer) + "\r")
	}
	require.Equal(r.t, exitDone, k.exit())
	return lines[0] + "\n" + strings.TrimRight(k.all(), "\n") + "\n"
}

// demoDay is the day on which the demo's tour and the tests take place.
func demoDay() time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC) }

// readmeStreams is a pipe on a fixed day.
func readmeStreams(out io.Writer) *streams {
	return &streams{
		in: strings.NewReader(""), out: out, err: out, env: func(string) string { return "" },
		now: demoDay, width: 80, version: data.Version(),
	}
}

// TestReadmeOpensWithTheJob keeps the README's first page in order: the job in
// one paragraph, then the two commands; and the whole of it short.
func TestReadmeOpensWithTheJob(t *testing.T) {
	raw, err := os.ReadFile(readmePath)
	require.NoError(t, err)
	paragraphs := strings.Split(string(raw), "\n\n")
	require.Equal(t, "# boxbook", paragraphs[0])
	require.True(t, strings.HasPrefix(paragraphs[1], "A competition aerobatic pilot"))
	require.Contains(t, paragraphs[3], "go run ./cmd/boxbook demo")
	require.Contains(t, paragraphs[3], "go test ./...")
	require.LessOrEqual(t, strings.Count(string(raw), "\n"), readmeMost)
}

// TestReadmeSaysWhatWasNotSeen: of the international code's own process no more is
// said than that it was not seen.
func TestReadmeSaysWhatWasNotSeen(t *testing.T) {
	for _, path := range []string{readmePath, "../../../../DEVELOPERS.md"} {
		raw, err := os.ReadFile(path)
		require.NoError(t, err)
		require.NotContains(t, strings.Join(strings.Fields(string(raw)), " "), "not public", path)
	}
	raw, err := os.ReadFile(readmePath)
	require.NoError(t, err)
	_, limits, _ := strings.Cut(string(raw), "\n## What it does not do\n")
	require.Contains(t, strings.Join(strings.Fields(limits), " "), "a chapter of the international code that was not seen")
}

// TestReadmeMessages holds the table of messages to what the program says: each
// stands in an output of the script that brings them about.
func TestReadmeMessages(t *testing.T) {
	raw, err := os.ReadFile(readmePath)
	require.NoError(t, err)
	script, err := os.ReadFile("../../../../testdata/script/messages.txtar")
	require.NoError(t, err)
	_, table, found := strings.Cut(string(raw), "| message | what to do |\n")
	require.True(t, found)
	messages := regexp.MustCompile("(?m)^\\| `([^`]+)` \\|").FindAllStringSubmatch(table, -1)
	require.Greater(t, len(messages), 8)
	_, outputs, _ := strings.Cut(string(script), "-- no-ledger --\n")
	for _, m := range messages {
		require.Contains(t, outputs, m[1])
	}
}

// TestReadmeCommands holds every command that the README names in its text to be
// one that there is, with the flags that it has.
func TestReadmeCommands(t *testing.T) {
	raw, err := os.ReadFile(readmePath)
	require.NoError(t, err)
	named := regexp.MustCompile("`boxbook ([a-z-]+)((?: [^`]*)?)`").FindAllStringSubmatch(string(raw), -1)
	require.Greater(t, len(named), 20)
	for _, m := range named {
		root := newRoot(systemStreams())
		cmd, _, err := root.Find(append([]string{m[1]}, strings.Fields(m[2])...))
		require.NoError(t, err, m[0])
		require.NotEqual(t, root, cmd, m[0])
		for _, word := range strings.Fields(m[2]) {
			if flag, ok := strings.CutPrefix(word, "--"); ok && flag != "help" {
				require.NotNil(t, cmd.Flag(flag), "%s: %s", m[0], word)
			}
		}
	}
}

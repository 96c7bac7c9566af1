package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

const readmePath = "../../README.md"

// fence is a fenced block of the README, with the file that its text is to be
// written to where a comment above names one.
var fence = regexp.MustCompile("(?ms)(?:^<!-- file: (\\S+) -->\n)?^```(\\w+)\n(.*?)^```$")

// TestReadme runs every command block of the README in a clean folder and
// holds what is printed there to what the commands print.
func TestReadme(t *testing.T) {
	raw, err := os.ReadFile(readmePath)
	require.NoError(t, err)
	dir := t.TempDir()
	t.Chdir(dir)
	require.Equal(t, exitDone, run([]string{"demo"}, readmeStreams(io.Discard)))
	commands := 0
	text := fence.ReplaceAllStringFunc(string(raw), func(block string) string {
		parts := fence.FindStringSubmatch(block)
		switch file, kind, body := parts[1], parts[2], parts[3]; {
		case file != "":
			require.NoError(t, os.WriteFile(filepath.Join(dir, file), []byte(body), 0o644))
		case kind == "console":
			said, n := runConsole(t, body)
			commands += n
			return "```console\n" + said + "```"
		}
		return block
	})
	require.Greater(t, commands, 8)
	if *update {
		require.NoError(t, os.WriteFile(filepath.Join(readmeFolder, readmePath), []byte(text), 0o644))
		return
	}
	require.Equal(t, string(raw), text)
}

// readmeFolder is where the tests began, before any change of folder.
var readmeFolder, _ = os.Getwd()

// runConsole runs the lines that begin with `$ ` and gives the block as it
// should read.
func runConsole(t *testing.T, body string) (string, int) {
	t.Helper()
	var out bytes.Buffer
	n := 0
	for _, line := range strings.Split(body, "\n") {
		command, ok := strings.CutPrefix(line, "$ boxbook ")
		if !ok {
			continue
		}
		n++
		out.WriteString(line + "\n")
		code := run(strings.Fields(command), readmeStreams(&out))
		require.Contains(t, []int{exitDone, exitInvalid}, code, line)
	}
	return out.String(), n
}

// demoDay is the day on which the demo's tour and the tests take place.
func demoDay() time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC) }

// readmeStreams is a pipe on a fixed day.
func readmeStreams(out io.Writer) *streams {
	return &streams{
		in: strings.NewReader(""), out: out, err: out, env: func(string) string { return "" },
		now: demoDay, width: 80, version: version,
	}
}

// TestReadmeOpensWithTheJob keeps the README's first page in order: the job in
// one paragraph, then the two commands.
func TestReadmeOpensWithTheJob(t *testing.T) {
	raw, err := os.ReadFile(readmePath)
	require.NoError(t, err)
	paragraphs := strings.Split(string(raw), "\n\n")
	require.Equal(t, "# boxbook", paragraphs[0])
	require.True(t, strings.HasPrefix(paragraphs[1], "A competition aerobatic pilot"))
	require.Contains(t, paragraphs[3], "go run ./cmd/boxbook demo")
	require.Contains(t, paragraphs[3], "go test ./...")
}

package commands

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// typedWord is a word of a command line as a shell reads it, quotes off.
var typedWord = regexp.MustCompile(`'([^']*)'|(\S+)`)

// TestPrintedCommandsRun pastes what the demo's pages print: each command as it stands,
// from a folder without a ledger, and asks of the day that the page was asked of.
func TestPrintedCommandsRun(t *testing.T) {
	here := t.TempDir()
	require.NoError(t, os.CopyFS(filepath.Join(here, "my books"), os.DirFS("../../../../data/demo")))
	t.Chdir(here)
	const given = " -f 'my books/longmere.boxbook' --asof 2026-10-01"
	printed := regexp.MustCompile(`boxbook [^;:]*?` + given)
	pages := []string{
		"pilots", "--pilot ines", "season ines", "families ines", "families ines spins", "faults ines", "drills ines", "plan ines", "ready ines",
		"forecast ines intermediate-known-26", "panel ines", "flight last", "year 2026", "statement club 2026", "debrief last", "season tobias --season 2025",
	}
	ran := map[string]bool{}
	for _, page := range pages {
		text, _ := pasteOf(t, "boxbook "+page+given)
		for _, line := range strings.Split(text, "\n") {
			for _, command := range printed.FindAllString(line, -1) {
				if ran[command] {
					continue
				}
				ran[command] = true
				answer, wrote := pasteOf(t, command)
				assert.True(t, wrote || strings.Contains(answer, " 2026-10-01"), "%s\n%s", command, answer)
			}
		}
	}
	assert.Greater(t, len(ran), 20, "%v", ran)
}

// pasteOf is what a printed command answers, and whether it wrote a file.
func pasteOf(t *testing.T, command string) (text string, wrote bool) {
	t.Helper()
	var args []string
	for _, word := range typedWord.FindAllStringSubmatch(command, -1)[1:] {
		args = append(args, word[1]+word[2])
	}
	var out strings.Builder
	require.Equal(t, exitDone, run(args, readmeStreams(&out)), "%s\n%s", command, out.String())
	return out.String(), strings.HasPrefix(out.String(), "wrote ")
}

// TestCommandOfALine finds the command of a line that could be run, and none where the
// words behind its name are a sentence's, or say how it is used.
func TestCommandOfALine(t *testing.T) {
	for line, want := range map[string]string{
		"boxbook plan ines":                            "plan",
		"boxbook ines":                                 "boxbook",
		"boxbook --pilot ines":                         "boxbook",
		"boxbook year -o 'my x.html'":                  "year",
		"boxbook log settle --from ines --to club":     "settle",
		"boxbook log review --by COACH --note TEXT":    "review",
		"boxbook statement all 2026 -o mail.html":      "statement",
		"boxbook help kinds":                           "help",
		"boxbook --help":                               "",
		"boxbook log -":                                "log",
		"boxbook log asks":                             "",
		"boxbook log pilot adds a pilot":               "",
		"boxbook check then says FILE:LINE of what":    "",
		"boxbook ready ines says what a ledger cannot": "",
		"boxbook keeps a ledger":                       "",
		"boxbook season [PILOT]":                       "",
		"boxbook plan --nothing":                       "",
	} {
		name := ""
		if cmd := commandOf(line, readmeStreams(new(strings.Builder))); cmd != nil {
			name = cmd.Name()
		}
		assert.Equal(t, want, name, line)
	}
}

// TestATalkPrintsItsLedger goes on with an entry that was stopped, and with a draft that
// was set aside, by the commands that the conversation prints: they have the ledger that
// it was given, and stay in one piece.
func TestATalkPrintsItsLedger(t *testing.T) {
	here := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(here, "my books"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(here, "my books", "club.boxbook"), []byte("pilot ines\npilot milo\n"), 0o644))
	given := []string{"log", "practice", "-f", "my books/club.boxbook", "--asof", "2026-05-01"}
	k := startTalk(t, here, given...)
	k.answer("the date", "2026-04-18")
	k.answer("the pilot", "milo")
	k.expect("the sequence")
	k.key("\x03")
	k.expect("`boxbook log practice -f 'my books/club.boxbook' --asof 2026-05-01` continues with it")
	k.exit()
	k = startTalk(t, here, append(given, "--note", "x", "--pilot", "ines")...)
	k.answer("continue with it? (yes, no) [no]: ", "")
	k.expect("\n    boxbook log practice --draft 'my books/.club.boxbook.practice.draft.1' -f 'my books/club.boxbook' --asof 2026-05-01\n")
	k.key("\x03")
	k.exit()
	k = startTalk(t, here, "log", "practice", "--draft", "my books/.club.boxbook.practice.draft.1", "-f", "my books/club.boxbook", "--asof", "2026-05-01")
	k.expect("the draft: ")
	k.key("\x03")
	k.exit()
}

// TestATalkPrintsTheFileItWritesInto goes on with an entry for a coach's own file by what
// the conversation prints: the file is named, since its draft lies beside it.
func TestATalkPrintsTheFileItWritesInto(t *testing.T) {
	dir, path := ledgerIn(t, springFlown)
	require.NoError(t, os.Mkdir(filepath.Join(dir, "coach"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "coach", "zoe.boxbook"), []byte("coach zoe\n"), 0o644))
	require.NoError(t, os.WriteFile(path, []byte(textOf(t, path)+"\ninclude \"coach/zoe.boxbook\"\n"), 0o644))
	given := []string{"log", "review", "--into", "coach/zoe.boxbook", "-f", "book.boxbook", "--asof", "2026-05-01"}
	k := startTalk(t, dir, given...)
	k.answer("the flight", "last")
	k.key("\x03")
	const again = "boxbook log review -f book.boxbook --into coach/zoe.boxbook --asof 2026-05-01"
	k.expect("`" + again + "` continues with it")
	k.exit()
	k = startTalk(t, dir, strings.Fields(again)[1:]...)
	k.answer("continue with it?", "no")
	const aside = "boxbook log review --draft coach/.zoe.boxbook.review.draft.1 -f book.boxbook --into coach/zoe.boxbook --asof 2026-05-01"
	k.expect("\n    " + aside + "\n")
	k.key("\x03")
	k.exit()
	k = startTalk(t, dir, strings.Fields(aside)[1:]...)
	k.expect("the draft: ")
	k.key("\x03")
	k.expect("`" + aside + "` continues with it")
	k.exit()
}

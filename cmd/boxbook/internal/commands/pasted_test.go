package commands

import (
	"html"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
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

// namedCommand is a command of the program wherever a page names one, with what follows.
var namedCommand = regexp.MustCompile(`boxbook (?:--)?[a-z]+[^;:\x60]*`)

// allPages are the pages that read a ledger, PILOT for each of its pilots: every command
// that does and only answers has one.
var allPages = []string{
	"", "--pilot PILOT", "pilots", "season PILOT", "season PILOT --all", "families PILOT", "families PILOT 7", "faults PILOT", "drills PILOT", "plan PILOT", "ready PILOT",
	"ready PILOT --all", "panel PILOT", "panel --all", "flight PILOT", "flight PILOT --all", "debrief PILOT", "year 2026", "year 2026 --all", "statement club 2026",
	"statement PILOT 2026", "statement all 2026", "forecast PILOT", "whatif PILOT", "check", "export flights --format csv", "booklet PILOT", "workbook PILOT",
}

// TestEveryPageCarriesTheLedger asks every page of the demo, and of a ledger that has
// warnings and a total in doubt, with a ledger by its path and without: each command
// that a page names and that reads a ledger repeats what was given, and nothing else.
func TestEveryPageCarriesTheLedger(t *testing.T) {
	for _, cmd := range rootFor(readmeStreams(new(strings.Builder)), []string{"help"}).Commands() {
		asked := slices.ContainsFunc(allPages, func(page string) bool { return strings.HasPrefix(page+" ", cmd.Name()+" ") })
		assert.True(t, asked || flagOf(cmd, "ledger") == nil || flagOf(cmd, "format") == nil, "no page of %q is asked", cmd.Name())
	}
	demo, err := filepath.Abs("../../../../data/demo")
	require.NoError(t, err)
	for name, pilots := range map[string][]string{"demo": {"ines", "tobias", "yuki"}, "doubted": {"mara"}} {
		here := t.TempDir()
		file := filepath.Join(here, "books", "longmere.boxbook")
		if name == "demo" {
			require.NoError(t, os.CopyFS(filepath.Join(here, "books"), os.DirFS(demo)))
		} else {
			require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
			require.NoError(t, os.WriteFile(file, []byte(doubted), 0o644))
		}
		seen := 0
		for _, given := range []string{"-f ../books/longmere.boxbook", ""} {
			t.Chdir(filepath.Join(here, "books"))
			if given != "" {
				require.NoError(t, os.MkdirAll(filepath.Join(here, "elsewhere"), 0o755))
				t.Chdir(filepath.Join(here, "elsewhere"))
			}
			for _, page := range allPages {
				for _, pilot := range pilots {
					args := strings.Fields(strings.ReplaceAll(page, "PILOT", pilot) + " --asof 2026-10-01 " + given)
					var out strings.Builder
					run(args, readmeStreams(&out)) // one that is refused names commands too
					require.NotContains(t, out.String(), "[flags]", "%v", args)
					seen += carriesLedger(t, out.String(), given, strings.Join(args, " "))
				}
			}
		}
		assert.Greater(t, seen, 20, name)
	}
}

// carriesLedger holds each command of a page to the ledger that the page was given, and
// counts them.
func carriesLedger(t *testing.T, page, given, asked string) int {
	t.Helper()
	seen := 0
	for _, named := range namedCommand.FindAllString(page, -1) {
		words := strings.Fields(named)
		var cmd *cobra.Command
		for n := len(words); n > 1 && cmd == nil; n-- {
			cmd = commandOf(strings.TrimRight(strings.Join(words[:n], " "), ".,)"), readmeStreams(new(strings.Builder)))
		}
		if flagOf(cmd, "ledger") == nil {
			continue
		}
		seen++
		if given == "" {
			assert.NotContains(t, named, " -f ", asked)
		} else {
			assert.Contains(t, named, " "+given, asked)
		}
	}
	return seen
}

// TestAPageForOthersCarriesItsLedger asks for pages in files and in Markdown: their
// commands have the day and the ledger's file, and no folder of whoever wrote them.
func TestAPageForOthersCarriesItsLedger(t *testing.T) {
	demo, err := filepath.Abs("../../../../data/demo")
	require.NoError(t, err)
	here := t.TempDir()
	require.NoError(t, os.CopyFS(filepath.Join(here, "my books"), os.DirFS(demo)))
	t.Chdir(here)
	for _, given := range []struct{ flags, printed string }{
		{"-f 'my books/longmere.boxbook' --asof 2026-10-01", " -f longmere.boxbook --asof 2026-10-01"},
		{"--asof 2026-10-01", " --asof 2026-10-01"},
	} {
		if !strings.HasPrefix(given.flags, "-f") {
			t.Chdir(filepath.Join(here, "my books"))
		}
		for _, to := range []string{"-o page.html", "-o page.md", "-o page.txt", "--format markdown", "--format html"} {
			page, wrote := pasteOf(t, "boxbook year 2026 "+given.flags+" "+to)
			if wrote {
				page = textOf(t, strings.Fields(to)[1])
			}
			page = html.UnescapeString(page)
			assert.Contains(t, page, "boxbook year 2026 --all"+given.printed, to)
			assert.Contains(t, page, "boxbook statement all 2026 -o mail/"+given.printed, to)
			assert.NotContains(t, page, "my books", to)
		}
	}
}

// doubted is a ledger with a warning and with an official total in doubt.
const doubted = `pilot mara
contest fenwick 2026-05-09
  panel     AL BO
sequence known
  category  sportsman
  1         7.4.1.1:10
  2         5.2.1.1:17
flight 2026-05-09 mara known
  contest   fenwick
  sequence  known
  1         7.0 7.5
  2         6.5 6.0
  official  180.00
  place     3 of 7
  field     212 199.5 191.5
`

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
		"boxbook statement all 2026 -o mail/":          "statement",
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

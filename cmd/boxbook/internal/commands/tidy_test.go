package commands

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The ledger that is tidied, in two files, and what becomes of it.
const (
	roughMain = "include  \"coach/marek.boxbook\"\r\npilot ines\r\n name \"Ines Halloran\" # who\r\n" +
		"sequence s\r\n category intermediate\r\n 1 K 7\r\n" +
		"flight 2026-04-18 ines known\r\n sequence s\r\n panel A B\r\n 1 7,5 hz # x\r\n resolve 1 fill\r\n"
	laidMain = "include \"coach/marek.boxbook\"\r\npilot ines\r\n  name      \"Ines Halloran\"  # who\r\n" +
		"sequence s\r\n  category     intermediate\r\n  1            K 7\r\n" +
		"flight 2026-04-18 ines known\r\n  sequence     s\r\n  panel        A B\r\n  1            7.5  HZ  # x\r\n  resolve      1 fill\r\n"
	roughCoach = "coach marek\n\tname \"Marek Oduya\""
	laidCoach  = "coach marek\n  name      \"Marek Oduya\""
)

// tidyBook writes the ledger into a folder and makes that the current one.
func tidyBook(t *testing.T) {
	t.Helper()
	t.Chdir(t.TempDir())
	require.NoError(t, os.Mkdir("coach", 0o755))
	writeText(t, "book.boxbook", roughMain)
	writeText(t, "coach/marek.boxbook", roughCoach)
}

func writeText(t *testing.T, path, text string) {
	t.Helper()
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

func requireText(t *testing.T, path, want string) {
	t.Helper()
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, want, string(raw))
}

// tidy runs the command and gives its exit code and what it said.
func tidy(t *testing.T, stdin string, args ...string) (code int, out, complaint string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	s := &streams{
		in: strings.NewReader(stdin), out: &stdout, err: &stderr, env: func(string) string { return "" }, width: 80,
		now: demoDay,
	}
	code = run(append([]string{"tidy"}, args...), s)
	return code, stdout.String(), stderr.String()
}

func TestTidyLists(t *testing.T) {
	tidyBook(t)
	code, out, complaint := tidy(t, "")
	require.Equal(t, exitDone, code, complaint)
	require.Equal(t, "book.boxbook: 8 lines would change\ncoach/marek.boxbook: 1 line would change\n"+
		"see them with --diff, write them with --write\n", out)
	require.Empty(t, complaint)
	requireText(t, "book.boxbook", roughMain)
	requireText(t, "coach/marek.boxbook", roughCoach)
}

func TestTidyShowsTheDifference(t *testing.T) {
	tidyBook(t)
	writeText(t, "book.boxbook", strings.ReplaceAll(laidMain, "\r", ""))
	code, out, _ := tidy(t, "", "--diff")
	require.Equal(t, exitDone, code)
	require.Equal(t, `diff coach/marek.boxbook coach/marek.boxbook (tidied)
--- coach/marek.boxbook
+++ coach/marek.boxbook (tidied)
@@ -1,2 +1,2 @@
 coach marek
-	name "Marek Oduya"
\ No newline at end of file
+  name      "Marek Oduya"
\ No newline at end of file
`, out)
	requireText(t, "coach/marek.boxbook", roughCoach)
	writeText(t, "coach/marek.boxbook", laidCoach)
	code, out, _ = tidy(t, "", "--diff")
	require.Equal(t, exitDone, code)
	require.Empty(t, out)
}

func TestTidyWrites(t *testing.T) {
	tidyBook(t)
	require.NoError(t, os.Chmod("book.boxbook", 0o600))
	code, out, complaint := tidy(t, "", "--write")
	require.Equal(t, exitDone, code, complaint)
	require.Equal(t, "tidied book.boxbook: 8 lines\ntidied coach/marek.boxbook: 1 line\n", out)
	requireText(t, "book.boxbook", laidMain)
	requireText(t, "coach/marek.boxbook", laidCoach)
	info, err := os.Stat("book.boxbook")
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), info.Mode())
	for _, args := range [][]string{{"--write"}, nil} {
		code, out, _ = tidy(t, "", args...)
		require.Equal(t, exitDone, code)
		require.Equal(t, "nothing to tidy\n", out)
	}
	require.Equal(t, []string{".book.boxbook.undo", "book.boxbook", "coach"}, filesIn(t, "."), "the journal beside it, and nothing else")
	require.Equal(t, []string{"marek.boxbook"}, filesIn(t, "coach"))
}

func filesIn(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var names []string
	for _, entry := range entries {
		names = append(names, entry.Name())
	}
	return names
}

// TestTidyThroughALink holds that what a linked ledger includes is found beside
// the file itself, and the link stays one.
func TestTidyThroughALink(t *testing.T) {
	tidyBook(t)
	book, err := filepath.Abs("book.boxbook")
	require.NoError(t, err)
	coach := filepath.Join(filepath.Dir(book), "coach", "marek.boxbook")
	t.Chdir(t.TempDir())
	require.NoError(t, os.Symlink(book, "link.boxbook"))
	code, _, complaint := tidy(t, "", "--write")
	require.Equal(t, exitDone, code, complaint)
	requireText(t, book, laidMain)
	requireText(t, coach, laidCoach)
	target, err := os.Readlink("link.boxbook")
	require.NoError(t, err)
	require.Equal(t, book, target)
}

func TestTidyStandardInput(t *testing.T) {
	tidyBook(t)
	code, out, complaint := tidy(t, roughMain, "-f", "-")
	require.Equal(t, exitDone, code, complaint)
	require.Equal(t, laidMain, out)
	code, out, _ = tidy(t, laidMain, "-f", "-")
	require.Equal(t, exitDone, code)
	require.Equal(t, laidMain, out)
	code, out, _ = tidy(t, laidMain, "-f", "-", "--diff")
	require.Equal(t, exitDone, code)
	require.Empty(t, out)
	code, out, _ = tidy(t, roughMain, "-f", "-", "-o", "tidied.boxbook")
	require.Equal(t, exitDone, code)
	require.Empty(t, out)
	requireText(t, "tidied.boxbook", laidMain)
	requireText(t, "coach/marek.boxbook", roughCoach)
}

// TestTidyRefuses holds that a ledger with errors is not touched, not even its
// files without any, and that wrong usage is said.
func TestTidyRefuses(t *testing.T) {
	tidyBook(t)
	wrong := strings.Replace(roughMain, "7,5", "7,4", 1)
	writeText(t, "book.boxbook", wrong)
	for _, args := range [][]string{nil, {"--diff"}, {"--write"}} {
		code, out, complaint := tidy(t, "", args...)
		require.Equal(t, exitInvalid, code)
		require.Empty(t, out)
		require.Contains(t, complaint, "book.boxbook:10:4: error: grade 7,4 is not a half point")
		require.Contains(t, complaint, "boxbook: the ledger has 1 error; nothing was done\n")
		requireText(t, "book.boxbook", wrong)
		requireText(t, "coach/marek.boxbook", roughCoach)
	}
	for says, args := range map[string][]string{
		"--write and --diff do not go together":                                          {"--write", "--diff"},
		"standard input cannot be written into":                                          {"--write", "-f", "-"},
		"--write and --output do not go together: a tidied file stays where it is":       {"--write", "-o", "x"},
		"tidy takes no --format":                                                         {"--format", "json"},
		"\"book.boxbook\" is one word too many; words that belong together go in quotes": {"book.boxbook"},
	} {
		code, out, complaint := tidy(t, "", args...)
		require.Equal(t, exitUsage, code, says)
		require.Empty(t, out)
		require.Contains(t, complaint, "boxbook: "+says+"\n")
	}
	code, _, complaint := tidy(t, "", "-f", "none.boxbook")
	require.Equal(t, exitFile, code)
	require.Equal(t, "boxbook: cannot read none.boxbook: no such file or directory\n", complaint)
}

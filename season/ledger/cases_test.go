package ledger

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boxbook/data"
	"boxbook/season"

	"github.com/stretchr/testify/require"
)

// diagnosticCase is one case of testdata/diagnostics: a ledger that breaks a
// rule, and every diagnostic it must give.
type diagnosticCase struct {
	name  string
	rule  string
	main  string // the file that is read
	files Memory
	facts []string // what the reading must say
	want  string
}

const casesToday = "2026-11-25"

// readCases reads a case file: `=== name`, then sections of `--- ledger`,
// `--- file PATH` and `--- want`.
func readCases(t testing.TB, path string) []diagnosticCase {
	t.Helper()
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	var cases []diagnosticCase
	for _, part := range strings.Split("\n"+string(raw), "\n=== ")[1:] {
		name, rest, _ := strings.Cut(part, "\n")
		c := diagnosticCase{name: strings.TrimSpace(name), main: "test.boxbook", files: Memory{}}
		c.rule, rest, _ = strings.Cut(rest, "\n")
		for _, line := range strings.Split(rest, "\n") {
			if given, ok := strings.CutPrefix(line, "# given: "); ok {
				c.main = given
			}
		}
		for _, section := range strings.Split("\n"+rest, "\n--- ")[1:] {
			title, body, _ := strings.Cut(section, "\n")
			title = strings.TrimSpace(title)
			switch {
			case title == "ledger":
				c.files["test.boxbook"] = expand(t, body)
			case title == "facts":
				c.facts = strings.Split(strings.TrimSpace(body), "\n")
			case title == "want":
				c.want = strings.TrimSpace(body)
			case strings.HasPrefix(title, "file "):
				c.files[strings.TrimPrefix(title, "file ")] = expand(t, body)
			}
		}
		cases = append(cases, c)
	}
	return cases
}

var escapes = regexp.MustCompile(`\\(u|x|repeat)\{([^}]*)\}`)

// expand turns \u{A0}, \x{FF} and \repeat{N,c} into what they stand for.
func expand(t testing.TB, text string) string {
	return escapes.ReplaceAllStringFunc(text, func(m string) string {
		parts := escapes.FindStringSubmatch(m)
		switch parts[1] {
		case "u":
			n, err := strconv.ParseUint(parts[2], 16, 32)
			require.NoError(t, err)
			return string(rune(n))
		case "x":
			n, err := strconv.ParseUint(parts[2], 16, 8)
			require.NoError(t, err)
			return string([]byte{byte(n)})
		default:
			count, c, _ := strings.Cut(parts[2], ",")
			n, err := strconv.Atoi(count)
			require.NoError(t, err)
			return strings.Repeat(c, n)
		}
	})
}

// diagnose reads the case's ledger and lists what is wrong, a line each, hints
// beneath.
func (c diagnosticCase) diagnose(t testing.TB) (List, string) {
	t.Helper()
	result := c.read(t)
	var b strings.Builder
	for _, d := range result.Diagnostics {
		where := ""
		if d.File != "test.boxbook" {
			where = d.File + ":"
		}
		fmt.Fprintf(&b, "%s%d:%d: %s: %s\n", where, d.Line, d.Column, d.Severity, d.Message)
		if d.Hint != "" {
			fmt.Fprintf(&b, "hint: %s\n", d.Hint)
		}
	}
	return result.Diagnostics, strings.TrimSpace(b.String())
}

// read reads the case's ledger.
func (c diagnosticCase) read(t testing.TB) *Result {
	t.Helper()
	today, _ := season.ParseDate(casesToday)
	result, err := Load(Options{Files: c.files, Main: c.main, Builtin: data.Builtin(), AsOf: today})
	require.NoError(t, err)
	return result
}

var update = flag.Bool("update", false, "write what the reader says into the case files")

// caseFiles are the files of testdata/diagnostics; the version1 files hold what
// the language learned in that version, written from its specification alone but
// for version1.txt.
var caseFiles = []string{
	"cases.txt", "recovery.txt", "fixes.txt", "tired.txt", "version1.txt", "version1-closed.txt", "version1-contests.txt", "version1-drills.txt",
	"version1-faults.txt", "version1-files.txt", "version1-flights.txt", "version1-money-lines.txt",
	"version1-money-warnings.txt", "version1-people.txt", "version1-policies.txt", "version1-recovery.txt",
}

func casePath(name string) string { return filepath.Join("../../testdata/diagnostics", name) }

// TestCases holds every diagnostic of every case to its place and its words.
func TestCases(t *testing.T) {
	for _, name := range caseFiles {
		cases := readCases(t, casePath(name))
		for _, c := range cases {
			t.Run(c.name, func(t *testing.T) {
				_, got := c.diagnose(t)
				if *update {
					rewrite(t, casePath(name), c, got)
					return
				}
				require.Equal(t, c.want, got, c.rule)
			})
		}
	}
	require.Greater(t, len(readCases(t, casePath(caseFiles[0]))), 400)
}

// rewrite puts what was said into the case file.
func rewrite(t *testing.T, path string, c diagnosticCase, got string) {
	t.Helper()
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	head := "=== " + c.name + "\n"
	start := strings.Index(string(raw), head)
	require.GreaterOrEqual(t, start, 0)
	want := start + strings.Index(string(raw)[start:], "--- want\n") + len("--- want\n")
	end := len(raw)
	if next := strings.Index(string(raw)[want:], "\n=== "); next >= 0 {
		end = want + next
	}
	if got != "" {
		got += "\n"
	}
	text := string(raw)[:want] + got + string(raw)[end:]
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

// TestEveryDiagnosticIsReached lists the kinds of diagnostic that no case
// reaches; the list is empty.
func TestEveryDiagnosticIsReached(t *testing.T) {
	reached := map[Code]bool{}
	note := func(list List) {
		for _, d := range list {
			reached[d.Code] = true
		}
	}
	for _, name := range caseFiles {
		for _, c := range readCases(t, casePath(name)) {
			list, _ := c.diagnose(t)
			note(list)
		}
	}
	note(tooManyIncludes(t))
	note(tooLargeInclude(t))
	var never []string
	for code := range messages {
		if !reached[code] {
			never = append(never, string(code))
		}
	}
	slices.Sort(never)
	require.Empty(t, never, "no case reaches these diagnostics")
}

// tooManyIncludes reads a ledger of one file more than the limit.
func tooManyIncludes(t testing.TB) List {
	t.Helper()
	files := Memory{}
	var main strings.Builder
	for i := range maxIncludes + 1 {
		name := fmt.Sprintf("part-%d.boxbook", i)
		fmt.Fprintf(&main, "include %q\n", name)
		files[name] = ""
	}
	files["main.boxbook"] = main.String()
	result, err := Load(Options{Files: files, Main: "main.boxbook"})
	require.NoError(t, err)
	return result.Diagnostics
}

// largeFiles has one file over the limit, without holding its bytes.
type largeFiles struct{ Memory }

func (f largeFiles) Read(path string) (string, error) {
	if path == "large.boxbook" {
		return "", &TooLargeError{path}
	}
	return f.Memory.Read(path)
}

func tooLargeInclude(t testing.TB) List {
	t.Helper()
	files := largeFiles{Memory{"main.boxbook": "include \"large.boxbook\"\n", "large.boxbook": ""}}
	result, err := Load(Options{Files: files, Main: "main.boxbook"})
	require.NoError(t, err)
	return result.Diagnostics
}

func TestLimits(t *testing.T) {
	list := tooManyIncludes(t)
	require.Len(t, list, 1)
	require.Equal(t, "main.boxbook:513:9: error: more than 512 included files", list[0].Error())
	list = tooLargeInclude(t)
	require.Len(t, list, 1)
	require.Equal(t, `main.boxbook:1:9: error: "large.boxbook" is larger than 256 MiB`, list[0].Error())
}

package ledger

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
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
	files Memory
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
		c := diagnosticCase{name: strings.TrimSpace(name), files: Memory{}}
		c.rule, rest, _ = strings.Cut(rest, "\n")
		for _, section := range strings.Split("\n"+rest, "\n--- ")[1:] {
			title, body, _ := strings.Cut(section, "\n")
			title = strings.TrimSpace(title)
			switch {
			case title == "ledger":
				c.files["test.boxbook"] = expand(t, body)
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
	today, _ := season.ParseDate(casesToday)
	result, err := Load(Options{Files: c.files, Main: "test.boxbook", Builtin: data.Builtin(), AsOf: today})
	require.NoError(t, err)
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

func TestCasesDraft(t *testing.T) {
	for _, name := range []string{"cases.txt", "recovery.txt"} {
		for _, c := range readCases(t, filepath.Join("../../testdata/diagnostics", name)) {
			func() {
				defer func() {
					if p := recover(); p != nil {
						fmt.Printf("PANIC %s: %v\n", c.name, p)
					}
				}()
				_, got := c.diagnose(t)
				pos := func(s string) string {
					var out []string
					for _, l := range strings.Split(s, "\n") {
						if strings.HasPrefix(l, "hint:") || l == "" {
							continue
						}
						p := strings.SplitN(l, " ", 3)
						if len(p) > 1 {
							out = append(out, p[0]+p[1])
						}
					}
					return strings.Join(out, "\n")
				}
				if pos(got) != pos(c.want) {
					fmt.Printf("=== %s %s\nWANT\n%s\nGOT\n%s\n\n", c.name, c.rule, c.want, got)
				}
			}()
		}
	}
}

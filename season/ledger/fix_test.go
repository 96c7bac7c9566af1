package ledger

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"boxbook/data"

	"github.com/stretchr/testify/require"
)

// TestFixesOfCases applies the fix of every diagnostic of every case: the error
// is gone, and its line has no error that it did not have before.
func TestFixesOfCases(t *testing.T) {
	kinds, fixed, cases := map[Code]bool{}, 0, 0
	for _, name := range caseFiles {
		for _, c := range readCases(t, casePath(name)) {
			list, _ := c.diagnose(t)
			here := 0
			for _, d := range list {
				if len(d.Fixes) == 0 {
					continue
				}
				kinds[d.Code], here = true, here+1
				t.Run(c.name, func(t *testing.T) { checkFix(t, c, list, d) })
			}
			if fixed += here; here > 0 {
				cases++
			}
		}
	}
	t.Logf("%d kinds, %d of them with a fix; %d fixes in %d cases", len(messages), len(kinds), fixed, cases)
	require.Greater(t, fixed, 150)
}

// TestCasesFixedAsAWhole makes all edits of each case, those too that come to
// light behind others: what was fixed is gone, and nothing is left that has an
// edit.
func TestCasesFixedAsAWhole(t *testing.T) {
	today := day(t, casesToday)
	for _, name := range caseFiles {
		for _, c := range readCases(t, casePath(name)) {
			files, left, err := Fixes(Options{Files: c.files, Main: "test.boxbook", Builtin: data.Builtin(), AsOf: today})
			require.NoError(t, err, c.name)
			for _, d := range left.Diagnostics {
				require.Empty(t, d.Fixes, "%s: %s is left", c.name, d.Error())
				for _, f := range files {
					require.False(t, f.Name == d.File && slices.ContainsFunc(f.Made, d.same), "%s: %s is there again", c.name, d.Error())
				}
			}
		}
	}
}

// checkFix applies one diagnostic's fix alone.
func checkFix(t *testing.T, c diagnosticCase, before List, d Diagnostic) {
	t.Helper()
	text, made := ApplyFixes(c.files[d.File], List{d})
	require.Len(t, made, 1)
	c.files = maps.Clone(c.files)
	c.files[d.File] = text
	after, _ := c.diagnose(t)
	line := strings.Split(text, "\n")[d.Line-1]
	for _, now := range onLine(after, d) {
		require.False(t, now.Code == d.Code && now.Message == d.Message && now.Column == d.Column, "%s is not fixed by %q", d.Error(), line)
		require.True(t, slices.ContainsFunc(onLine(before, d), func(was Diagnostic) bool {
			return was.Code == now.Code
		}), "%s; fixed as %q: %s", d.Error(), line, now.Error())
	}
}

// onLine are the errors on the line of a diagnostic.
func onLine(list List, d Diagnostic) List {
	var found List
	for _, other := range list {
		if other.File == d.File && other.Line == d.Line && other.Severity == Error {
			found = append(found, other)
		}
	}
	return found
}

// TestFixesAreMade holds the mechanics of edits: columns are characters, a mark
// at the file's start and the lines' ends stay, edits that touch are not both
// made.
func TestFixesAreMade(t *testing.T) {
	fix := func(line, from, to int, text string) Diagnostic {
		return Diagnostic{Fixes: []Fix{{Line: line, Column: from, EndColumn: to, Text: text}}}
	}
	text := "\ufeffpilotta šárka\r\nnäme x"
	got, made := ApplyFixes(text, List{fix(1, 1, 8, "pilot"), fix(2, 6, 7, `"x"`), fix(1, 9, 9, "q"), fix(1, 3, 4, "z"), fix(2, 1, 5, "name")})
	require.Equal(t, "\ufeffpilot qšárka\r\nname \"x\"", got)
	require.Len(t, made, 4)
	got, made = ApplyFixes("one", List{{Fixes: []Fix{{1, 1, 2, "x"}, {1, 3, 4, "y"}}}, fix(1, 4, 4, "z")})
	require.Equal(t, "xny", got)
	require.Len(t, made, 1)
}

// TestFixesWithOneReadingOnly: where two things may have been meant there is a
// hint and no edit.
func TestFixesWithOneReadingOnly(t *testing.T) {
	for _, line := range []string{
		"flight 05.06.2026 ines known",
		"flight 2026-04-1 ines known",
		"pilot 26-ines",
		"cost 2026-01-10 fuel 95$ for ines",
		"cost 2026-01-10 fuel 95EUR EUR for ines",
		"cost 2026-01-10 fuel 1.200,00 EUR for ines",
		"cost 2026-01-10 fuel 95 EUR for ines by yuki ines",
		"drill 2026-01-10 inet radius",
		"drill 2026-01-10 ines radius by yuki ines",
		"flight 2026-04-18 ines known\n  place 4/9 of 9",
		"pilot a\n  name 'Ann Lee'",
		`pilot a` + "\n" + `  name "Ann # Lee`,
		`pilot a` + "\n" + `  name "Ann "Lee`,
		"sequence “known”",
		"flight 2026-01-10 ines known\n  sequence known-27",
	} {
		text := "pilot ines\npilot inez\nsequence known-26\n  category intermediate\n  1 K 10\n" + line + "\n"
		result, err := Load(Options{Files: Memory{"a": text}, Main: "a"})
		require.NoError(t, err)
		require.Positive(t, result.Diagnostics.Errors(), line)
		for _, d := range result.Diagnostics {
			require.Empty(t, d.Fixes, line)
		}
	}
}

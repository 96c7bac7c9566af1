package ledger

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// western measures text as a terminal of a Western locale does.
var western = &runewidth.Condition{StrictEmojiNeutral: true}

// rendered is the screen of a list, measured as western does, whatever the
// locale of whoever runs the test.
func rendered(t testing.TB, list List) string {
	t.Helper()
	before := runewidth.DefaultCondition
	runewidth.DefaultCondition = western
	defer func() { runewidth.DefaultCondition = before }()
	var b strings.Builder
	require.NoError(t, Render(&b, list))
	return b.String()
}

// lines joins the lines of a text, each ended.
func lines(each ...string) string { return strings.Join(each, "\n") + "\n" }

// screens are ledgers with faults and exactly what a person then reads. Where a
// character would not be seen in this file it is written as an escape.
var screens = []struct{ name, text, want string }{
	{
		"plain",
		lines(`pilot ines`, `  nmae  "Ines Halloran"`),
		lines(
			`test.boxbook:2:3: error: a pilot has no line "nmae"; did you mean "name"?`,
			`      nmae  "Ines Halloran"`,
			`      ^^^^`),
	},
	{
		"first character of a line",
		lines(`pilto ines`),
		lines(
			`test.boxbook:1:1: error: no block is called "pilto"; did you mean "pilot"?`,
			`    pilto ines`,
			`    ^^^^^`),
	},
	{
		"one mark among others",
		lines(`pilot ines`, `sequence known-26`, `  category  intermediate`, `  1         K 10`,
			`flight 2026-04-18 ines known`, `  sequence     known-26`, `  panel        A B C D E`,
			`  1            7.0  8.7  6.5  7.0  AV`),
		lines(
			`test.boxbook:8:21: error: grade 8.7 is not a half point (0, 0.5 ... 10)`,
			`      1            7.0  8.7  6.5  7.0  AV`,
			`                        ^^^`),
	},
	{
		"indented and spaced by tabs, which stay tabs",
		lines(`pilot ines`, "\tclub\t\t\"Kestrel Aero Club\"\tLongmere"),
		lines(
			`test.boxbook:2:28: error: "Longmere" is one word too many`,
			"    \tclub\t\t\"Kestrel Aero Club\"\tLongmere",
			"    \t    \t\t                   \t^^^^^^^^",
			`    hint: put a remark in quotes: "Longmere"`),
	},
	{
		"wide characters before the fault take two columns each",
		lines(`pilot yamada`, `  name  "山田 花子" pilot`),
		lines(
			`test.boxbook:2:17: error: "pilot" is one word too many`,
			`      name  "山田 花子" pilot`,
			`                        ^^^^^`,
			`    hint: put a remark in quotes: "pilot"`),
	},
	{
		"half a character at a line's end",
		lines(`pilot ines`, "  club x\xf4"),
		lines(
			`test.boxbook:2:9: error: byte 0xf4 is not UTF-8 text`,
			"      club x\ufffd",
			`            ^`,
			`    hint: save the file as UTF-8`),
	},
	{
		"combining marks before the fault take no column",
		lines(`pilot remi`, "  name  \"Re\u0301mi O\u0308berg\" pilot"),
		lines(
			`test.boxbook:2:24: error: "pilot" is one word too many`,
			"      name  \"Re\u0301mi O\u0308berg\" pilot",
			`                         ^^^^^`,
			`    hint: put a remark in quotes: "pilot"`),
	},
	{
		"emoji before the fault",
		lines(`pilot ines`, `  note  "hot 🔥 and high 🛫" "a day" indeed`),
		lines(
			`test.boxbook:2:36: error: "indeed" follows a remark, which ends its line`,
			`      note  "hot 🔥 and high 🛫" "a day" indeed`,
			`                                         ^^^^^^`),
	},
	{
		"the fault itself is wide: the carets are as wide",
		lines(`pilot ines`, `flight 2026-04-18 山田 known`, `  category  advanced`, `  place     1`),
		lines(
			`test.boxbook:2:19: error: no pilot is called "山田"`,
			`    flight 2026-04-18 山田 known`,
			`                      ^^^^`),
	},
	{
		"a word is missing at the line's end",
		lines(`pilot ines`, `flight 2026-04-18 ines   # which programme?`, `  category  advanced`, `  place     1`),
		lines(
			`test.boxbook:2:23: error: a programme is missing after "ines"`,
			`    flight 2026-04-18 ines   # which programme?`,
			`                          ^`),
	},
	{
		"a word is missing where the text ends",
		"pilot ines\ncost 2026-04-18 fuel",
		lines(
			`test.boxbook:2:21: error: an amount (95.00) is missing after "fuel"`,
			`    cost 2026-04-18 fuel`,
			`                        ^`),
	},
	{
		"a span as wide as what is wrong, its closing quote included",
		lines(`pilot ines`, `sequence known-26`, `  category     "inter\"mediate"  # as printed`, `  1            K 10`),
		lines(
			`test.boxbook:3:16: error: "inter\"mediate" is not a category`,
			`      category     "inter\"mediate"  # as printed`,
			`                   ^^^^^^^^^^^^^^^^`),
	},
	{
		"a quote that is not closed is underlined to the line's end",
		lines(`pilot ines`, `  name  "Ines Halloran  # still open`),
		lines(
			`test.boxbook:2:9: error: the quoted text is not closed on its line`,
			`      name  "Ines Halloran  # still open`,
			`            ^^^^^^^^^^^^^^^^^^^^^^^^^^^^`,
			`    hint: end it with "`),
	},
	{
		"a hint says what to type",
		lines(`pilot ines`, `cost 2026-04-18 fuel 61.40EUR for ines`),
		lines(
			`test.boxbook:2:22: error: "61.40EUR" is not an amount (95.00)`,
			`    cost 2026-04-18 fuel 61.40EUR for ines`,
			`                         ^^^^^^^^`,
			`    hint: write 61.40 EUR`),
	},
	{
		"a warning",
		lines(`pilot ines`, `flight 2026-04-18 ines known`, `  place     1 of 5`),
		lines(
			`test.boxbook:2:1: warning: the flight has no category; only questions about all categories count it`,
			`    flight 2026-04-18 ines known`,
			`    ^^^^^^`,
			"    hint: add `category NAME`"),
	},
	{
		"an escape sequence is shown and not obeyed",
		lines(`pilot ines`, "  name  \"Ines\x1b[2J Halloran\""),
		lines(
			`test.boxbook:2:14: error: control character U+001B`,
			"      name  \"Ines\ufffd[2J Halloran\"",
			`                 ^`,
			`    hint: delete it`),
	},
	{
		"control characters before and behind the fault are shown, one column each",
		lines(`pilot ines`, "  note  \u201cMatt\u0007\u009b\u0000"),
		lines(
			`test.boxbook:2:14: error: control character U+0007`,
			"      note  \u201cMatt\ufffd\ufffd\ufffd",
			`                 ^`,
			`    hint: delete it`),
	},
	{
		"an override of the writing direction in quotes does not turn the screen",
		lines(`pilot ines`, "  name  \"Ines\u202eHalloran\" x"),
		lines(
			`test.boxbook:2:14: warning: U+202E is invisible; for some programs it ends the line or turns what follows`,
			`      name  "Ines\u202eHalloran" x`,
			`                 ^^^^^^`,
			`    hint: delete it`,
			`test.boxbook:2:25: error: "x" is one word too many`,
			`      name  "Ines\u202eHalloran" x`,
			`                                 ^`),
	},
	{
		"bytes that are no UTF-8 take one column each",
		lines(`pilot ines`, "  name  \"\xc3\xffInes\" # \xfe"),
		lines(
			`test.boxbook:2:10: error: byte 0xc3 is not UTF-8 text`,
			"      name  \"\ufffd\ufffdInes\" # \ufffd",
			`             ^`,
			`    hint: save the file as UTF-8`),
	},
	{
		"neither a byte order mark nor a carriage return is shown or counted",
		"\ufeffpilto ines\r\n  name \"Ines\"\r\n",
		lines(
			`test.boxbook:1:1: error: no block is called "pilto"; did you mean "pilot"?`,
			`    pilto ines`,
			`    ^^^^^`),
	},
	{
		"two faults of one line, in order",
		lines(`pilot ines`, `sequence known-26`, `  category  intermediate`, `  1         K 10`,
			`flight 2026-04-18 ines known`, `  sequence  known-26`, `  panel     A B C`, `  1         85 8 O`),
		lines(
			`test.boxbook:8:13: error: grade 85 is above 10`,
			`      1         85 8 O`,
			`                ^^`,
			`    hint: 8.5?`,
			`test.boxbook:8:18: error: "O" is not a mark: a grade 0 to 10, HZ, CHZ, PZ, AV or -`,
			`      1         85 8 O`,
			`                     ^`,
			`    hint: a letter for a digit? 0`),
	},
}

// TestScreens holds what a person reads to the letter.
func TestScreens(t *testing.T) {
	for _, s := range screens {
		t.Run(s.name, func(t *testing.T) {
			assert.Equal(t, s.want, rendered(t, read(t, s.text).Diagnostics))
		})
	}
}

// A fault far out on a long line is in view: eighty characters before it, and
// the caret under it.
func TestScreenOfALongLine(t *testing.T) {
	text := "pilot ines\n  note  \"" + strings.Repeat("0123456789", 30) + "\" tail " + strings.Repeat("abcdefghij", 30) + "\n"
	got := strings.Split(rendered(t, read(t, text).Diagnostics), "\n")
	require.Len(t, got, 5)
	assert.Equal(t, `test.boxbook:2:312: error: "tail" is one word too many`, got[0])
	assert.Equal(t, "    "+strings.Repeat("0123456789", 8)[2:]+`" tail `+strings.Repeat("abcdefghij", 8)[:75], got[1])
	assert.Equal(t, "    "+strings.Repeat(" ", 80)+"^^^^", got[2])
}

// A long line with its fault near the start is cut behind it, and a span that
// reaches beyond the cut is underlined to the cut.
func TestScreenCutsALongLine(t *testing.T) {
	text := "pilot ines\n  note  \"" + strings.Repeat("0123456789", 40) + "\n"
	got := strings.Split(rendered(t, read(t, text).Diagnostics), "\n")
	require.Len(t, got, 5)
	assert.Equal(t, "      note  \""+strings.Repeat("0123456789", 16)[:160-9], got[1])
	assert.Equal(t, "    "+strings.Repeat(" ", 8)+strings.Repeat("^", 160-8), got[2])
}

// An included file is named as the person would name it from here.
func TestScreenOfAnIncludedFile(t *testing.T) {
	list := readFiles(t, Memory{
		"test.boxbook":        `include "coach/marek.boxbook"` + "\n",
		"coach/marek.boxbook": "coach marek\n  nmae  \"Marek Oduya\"\n",
	}).Diagnostics
	assert.Equal(t, lines(
		`coach/marek.boxbook:2:3: error: a coach has no line "nmae"; did you mean "name"?`,
		`      nmae  "Marek Oduya"`,
		`      ^^^^`), rendered(t, list))
}

// A file's own name cannot drive the terminal either.
func TestScreenOfAHostileName(t *testing.T) {
	list := List{{File: "a\x1b[2J\nb.boxbook", Line: 1, Column: 1, Width: 1, Severity: Error, Message: "m\x07", Hint: "h\u202e", Source: "s"}}
	assert.Equal(t, lines("a\ufffd[2J\ufffdb.boxbook:1:1: error: m\ufffd", "    s", "    ^", `    hint: h\u202e`), rendered(t, list))
}

// faulty is a ledger of n errors.
func faulty(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "pilot p%d\n  nmae \"x\"\n", i)
	}
	return b.String()
}

// At most a hundred diagnostics are shown and the rest counted.
func TestScreenOfManyDiagnostics(t *testing.T) {
	for n, end := range map[int]string{
		99:  "",
		100: "",
		101: "and 1 more\n",
		250: "and 150 more\n",
	} {
		list := read(t, faulty(n)).Diagnostics
		require.Len(t, list, n)
		got := rendered(t, list)
		shown := min(n, 100)
		assert.Equal(t, shown, strings.Count(got, ": error: "), n)
		last := fmt.Sprintf("test.boxbook:%d:3: error: a pilot has no line \"nmae\"; did you mean \"name\"?\n      nmae \"x\"\n      ^^^^\n", 2*shown)
		assert.True(t, strings.HasSuffix(got, last+end), "%d: %q", n, got[max(0, len(got)-200):])
	}
}

// Nothing wrong, nothing said.
func TestScreenOfNothing(t *testing.T) {
	assert.Empty(t, rendered(t, nil))
}

var errPaper = errors.New("out of paper")

type brokenPrinter struct{}

func (brokenPrinter) Write([]byte) (int, error) { return 0, errPaper }

func TestRenderReportsAFailedWrite(t *testing.T) {
	require.ErrorIs(t, Render(brokenPrinter{}, List{{Message: "m", Severity: Error}}), errPaper)
}

// The list as an error counts errors alone; warnings are no error.
func TestListErr(t *testing.T) {
	warned := read(t, "pilot ines\nflight 2026-04-18 ines known\n  place 1\n").Diagnostics
	require.Len(t, warned, 1)
	require.NoError(t, warned.Err())
	assert.Equal(t, 1, warned.Warnings())

	one := read(t, faulty(1)+"flight 2026-04-18 p0 known\n  place 1\n").Diagnostics
	assert.Equal(t, 1, one.Errors())
	assert.Equal(t, 1, one.Warnings())
	require.EqualError(t, one.Err(), "the ledger has 1 error")

	three := read(t, faulty(3)).Diagnostics
	require.EqualError(t, three.Err(), "the ledger has 3 errors")
	var invalid *InvalidError
	require.ErrorAs(t, three.Err(), &invalid)
	assert.Equal(t, three, invalid.List)
}

// TestNearby holds that what is left out of a very long line is out of sight.
func TestNearby(t *testing.T) {
	long := strings.Repeat("山x", 1<<15)
	for _, column := range []int{1, 2, 399, 800, 801, 5000, 1<<16 - 3, 1 << 16} {
		part, at := nearby(long, column-1)
		require.LessOrEqual(t, len([]rune(part)), 4*longestSource)
		require.Equal(t, []rune(long)[column-1], []rune(part)[at])
		whole := Diagnostic{Source: long, Column: column, Width: 3}
		near := Diagnostic{Source: part, Column: at + 1, Width: 3}
		require.Equal(t, excerpt(near), excerpt(whole))
	}
}

package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Only suggestions are rewritten, each command of them by itself.
func TestRewriteCommands(t *testing.T) {
	d := Document{Sections: []Section{{Blocks: []Block{
		&Paragraph{Text: "See boxbook season ines.", Command: false},
		&Paragraph{Text: "What it rests on: boxbook faults ines; boxbook drills ines --all", Command: true},
	}}}}
	d.RewriteCommands(func(command string) string { return "<" + command + ">" })
	blocks := d.Sections[0].Blocks
	assert.Equal(t, "See boxbook season ines.", blocks[0].(*Paragraph).Text)
	assert.Equal(t, "What it rests on: <boxbook faults ines>; <boxbook drills ines --all>", blocks[1].(*Paragraph).Text)
	d.RewriteCommands(strings.ToLower)
	assert.Equal(t, "What it rests on: <boxbook faults ines>; <boxbook drills ines --all>", blocks[1].(*Paragraph).Text)
}

// A command to run is told by what stands before it and goes on to the next sign; what
// a sentence only names stays.
func TestRewriteToRun(t *testing.T) {
	for text, want := range map[string]string{
		"boxbook plan ines":                                     "<boxbook plan ines>",
		"boxbook plan ines: where practice pays":                "<boxbook plan ines>: where practice pays",
		"  boxbook plan ines":                                   "  <boxbook plan ines>",
		"rests on: boxbook faults ines; boxbook drills ines":    "rests on: <boxbook faults ines>; <boxbook drills ines>",
		"latest: boxbook flight last, boxbook debrief last":     "latest: <boxbook flight last>, <boxbook debrief last>",
		"one: boxbook --pilot ines; $BOXBOOK_PILOT for good":    "one: <boxbook --pilot ines>; $BOXBOOK_PILOT for good",
		"mail: boxbook year -o a.html; all: boxbook year --all": "mail: <boxbook year -o a.html>; all: <boxbook year --all>",
		"`boxbook log coach` adds a coach":                      "`<boxbook log coach>` adds a coach",
		"(the latest: boxbook year 2026)":                       "(the latest: <boxbook year 2026>)",
		"did you mean boxbook log fault or boxbook faults?":     "did you mean <boxbook log fault> or <boxbook faults>?",
		"3 warnings, see boxbook check":                         "3 warnings, see <boxbook check>",
		"3 warnings: boxbook check. On moving up, ask a coach":  "3 warnings: <boxbook check>. On moving up, ask a coach",
		"of it: boxbook year -o a.html. The rest: boxbook plan": "of it: <boxbook year -o a.html>. The rest: <boxbook plan>",
		"at: boxbook year -o 'a. B.html'; then: boxbook check":  "at: <boxbook year -o 'a. B.html'>; then: <boxbook check>",
		"a fee is boxbook log cost --for ines.":                 "a fee is <boxbook log cost --for ines>.",
		"what is billed, are in boxbook year 2026":              "what is billed, are in <boxbook year 2026>",
		`at: boxbook year -o 'a; b.html'; then: boxbook check`:  `at: <boxbook year -o 'a; b.html'>; then: <boxbook check>`,
		`at: boxbook year -o 'a'\''b: c.html'`:                  `at: <boxbook year -o 'a'\''b: c.html'>`,
		"of it: boxbook help\nboxbook check then says where":    "of it: <boxbook help>\nboxbook check then says where",
		"by hand, boxbook check names each place":               "by hand, boxbook check names each place",
		"but boxbook log asks":                                  "but boxbook log asks",
		"season.boxbook: 2 errors":                              "season.boxbook: 2 errors",
		"a page of boxbook":                                     "a page of boxbook",
	} {
		assert.Equal(t, want, RewriteToRun(text, func(command string) string { return "<" + command + ">" }), text)
	}
}

// A command that is longer as it is pasted stays on one line, in paragraphs, facts and
// notes; one that stays as it is may be broken as before. What else is for people to read
// has it too, what programs read has not.
func TestTextKeepsAPastedCommandWhole(t *testing.T) {
	said := "What it rests on: boxbook faults ines; boxbook drills ines"
	d := Document{Bare: true, Sections: []Section{{Blocks: []Block{
		&Paragraph{Text: said}, &Facts{Items: []Fact{{Label: "Next", Value: Text(said)}}}, &Notes{Items: []Note{{Text: said}}},
	}}}}
	print := func(command func(string) string) string {
		var out strings.Builder
		require.NoError(t, WriteText(&out, d, TextOptions{Width: 40, Command: command}))
		return out.String()
	}
	behind := func(text string) func(string) string {
		return func(command string) string { return command + text }
	}
	pasted := print(behind(" -f 'my book.boxbook'"))
	assert.Equal(t, 3, strings.Count(pasted, "boxbook faults ines -f 'my book.boxbook';\n"), pasted)
	assert.Equal(t, 3, strings.Count(pasted, "boxbook drills ines -f 'my book.boxbook'\n"), pasted)
	assert.NotContains(t, pasted, held)
	assert.Equal(t, print(nil), print(behind("")))
	for _, format := range Formats {
		if format.Name == "text" {
			continue
		}
		var plain, given strings.Builder
		d.Data = map[string]string{}
		require.NoError(t, format.Write(&plain, d, TextOptions{}))
		require.NoError(t, format.Write(&given, d, TextOptions{Command: behind(" -f x")}))
		if format.Rows {
			assert.Equal(t, plain.String(), given.String(), format.Name)
		} else {
			assert.Equal(t, 3, strings.Count(given.String(), "boxbook faults ines -f x; boxbook drills ines -f x"), given.String())
		}
	}
}

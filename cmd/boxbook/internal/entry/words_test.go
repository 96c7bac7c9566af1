package entry

import (
	"strings"
	"testing"

	"boxbook/report/display"
	"boxbook/season"

	"github.com/stretchr/testify/assert"
)

// TestLongQuestionsLeaveRoom holds every question that may be long to leave room for
// an answer on its own line.
func TestLongQuestionsLeaveRoom(t *testing.T) {
	for _, c := range []struct{ prompt, above, rest string }{
		{"the place, such as 3 of 9, or Enter for none: ", "", "the place, such as 3 of 9, or Enter for none: "},
		{
			"the official total, as printed, such as 540.49 of 800, or Enter for none: ",
			"the official total, as printed, such as 540.49 of 800,", "  or Enter for none: ",
		},
		{
			"the judges, in the order of the marks [Bartholomew Christabel Demetrius]: ",
			"the judges, in the order of the marks,", "  [Bartholomew Christabel Demetrius]: ",
		},
		{strings.Repeat("long ", 16) + "end: ", strings.Repeat("long ", 15) + "long", "end: "},
	} {
		above, rest := roomy(c.prompt, 80)
		assert.Equal(t, c.above, above)
		assert.Equal(t, c.rest, rest)
	}
	above, rest := roomy("the figure's number (- for the whole flight), such as 1: ", 40)
	assert.Equal(t, "the figure's number (- for the whole", above)
	assert.Equal(t, "flight), such as 1: ", rest)
	for _, kind := range Kinds() {
		for i := range kind.Fields {
			st := step{field: &kind.Fields[i], scene: Scene{Answers: Answers{}, Ledger: new(season.Ledger)}}
			if st.field.Default != nil || st.field.Lines != nil {
				continue // a default is as long as the ledger makes it
			}
			_, rest := roomy(prompt(st, 80), 80)
			assert.LessOrEqual(t, display.Width(rest), 80-room, "%s: %s", kind.Name, st.field.Name)
		}
	}
}

// TestBrokenLines breaks what is too wide between words and keeps the rest.
func TestBrokenLines(t *testing.T) {
	assert.Equal(t, []string{"  two words"}, broken("  two words", 11))
	assert.Equal(t, []string{"  two", "  words"}, broken("  two words", 10))
	assert.Equal(t, []string{"", "x"}[:1], broken("", 10))
	assert.Equal(t, []string{"  aword-that-is-longer", "  b"}, broken("  aword-that-is-longer b", 10))
}

// TestHalfZero asks for a ruling only where one is called for.
func TestHalfZero(t *testing.T) {
	for marks, want := range map[string]bool{
		"8 HZ": true, "8 hz 7 hz": true, "8 HZ AV": true, "8 HZ -": true, "8 HZ 7": false, "HZ HZ 7": false, "HZ": false,
		"8 7": false, "CHZ HZ 8 7": false, "": false, "AV -": false, "PZ HZ": true,
	} {
		assert.Equal(t, want, halfZero(marks), marks)
	}
}

// TestChooseHeedsNoCapitals takes a word of a list however it is written.
func TestChooseHeedsNoCapitals(t *testing.T) {
	for text, want := range map[string]string{"Known": "known", "KN": "known", "free": "free", "Free-": "free-known"} {
		name, ok := choose(text, []string{"known", "free", "free-known"})
		assert.True(t, ok, text)
		assert.Equal(t, want, name)
	}
	_, ok := choose("f", []string{"free", "free-known"})
	assert.False(t, ok)
}

// Two dates are a span, whatever stands between them; what has more than one reading
// stays as it was typed.
func TestDaysOfAContest(t *testing.T) {
	for typed, want := range map[string]string{
		"2026-11-28":                "2026-11-28",
		"28.11.2026":                "2026-11-28",
		"28.11.2026..29.11.2026":    "2026-11-28..2026-11-29",
		"2026-11-28 2026-11-29":     "2026-11-28..2026-11-29",
		"28.11.2026 - 29.11.2026":   "2026-11-28..2026-11-29",
		"2026-11-28 to 2026-11-29":  "2026-11-28..2026-11-29",
		"2026-11-28..2026-11-29":    "2026-11-28..2026-11-29",
		"4/5/2026":                  "4/5/2026",
		"2026-11-28 2026-11-29 and": "2026-11-28..2026-11-29",
	} {
		assert.Equal(t, want, daysMeant(typed), typed)
	}
}

// TestWhatIsToBeTypedStaysWhole breaks a line before a short answer, not in it.
func TestWhatIsToBeTypedStaysWhole(t *testing.T) {
	assert.Equal(t, []string{`  "K12" is not a`, "  catalogue number;", "  put a space after K:", "  K 12"}, broken(`  "K12" is not a catalogue number; put a space after K: K 12`, 22))
	assert.Equal(t, []string{"  one: two three four", "  five six seven eight", "  nine ten"}, broken("  one: two three four five six seven eight nine ten", 22), "more than an answer")
}

// TestCommasBetweenMarks takes a list for marks, and leaves what may be a decimal comma.
func TestCommasBetweenMarks(t *testing.T) {
	for text, want := range map[string]string{
		"5, 5.5, hz, 5, 6": "5 5.5 hz 5 6", "7, 5": "7, 5", "7,5 8 6,5": "7,5 8 6,5", "8, 75, 7,5": "8 7.5 7,5", "8, 7 6": "8, 7 6",
		`8, 7, 6 "gusts, and sun"`: `8 7 6 "gusts, and sun"`,
	} {
		answer, problem := withTenths(text)
		assert.Empty(t, problem)
		assert.Equal(t, want, answer)
	}
	for text, want := range map[string]string{
		"K: 14": "K 14", "K14": "K 14", "k 14": "K 14", "K 17,0": "K 17", "K 12,5": "K 12,5", `K:14 "loop"`: `K 14 "loop"`, "7.4.1.1:10": "7.4.1.1:10",
	} {
		answer, _ := figureOf(text)
		assert.Equal(t, want, answer)
	}
	for text, want := range map[string]string{"K 20": "20", "17,0": "17", "K: 17.0": "17", "12,5": "12,5", "170": "170"} {
		answer, _ := plainK(text)
		assert.Equal(t, want, answer)
	}
}
